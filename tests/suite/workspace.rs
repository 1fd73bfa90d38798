//! A temporary workspace that reads as a sentence.

use std::fs;
use std::path::{Path, PathBuf};

use assert_cmd::Command;
use tempfile::TempDir;

/// A recipe that reads, proofs and publishes.
pub(crate) const CLEAN: &str = "title: Toast\nsummary: Bread, browned.\npublished: 2026-01-02\nmakes: two slices\ncomponents:\n  - name: Toast\n    ingredients: [80 g white bread, 10 g butter]\n    steps:\n      - {do: Brown the bread and spread the butter., time: 4 min}\n";

/// A workspace in a folder that goes away with it.
pub(crate) struct Workspace {
    folder: TempDir,
}

impl Workspace {
    /// With one recipe, `recipes/toast.yaml`.
    pub(crate) fn with(recipe: impl AsRef<[u8]>) -> Self {
        let workspace = Self { folder: TempDir::new().unwrap() };
        workspace.file("recipes/toast.yaml", recipe);
        workspace
    }

    /// Adds or replaces a file.
    pub(crate) fn file(&self, path: &str, text: impl AsRef<[u8]>) -> &Self {
        let path = self.path(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
        self
    }

    /// A path inside.
    pub(crate) fn path(&self, path: &str) -> PathBuf {
        self.folder.path().join(path)
    }

    /// A file's text; empty where there is none.
    pub(crate) fn read(&self, path: &str) -> String {
        fs::read_to_string(self.path(path)).unwrap_or_default()
    }

    /// Runs the program here.
    pub(crate) fn run(&self, arguments: &[&str]) -> Ran {
        levelcup(self.folder.path(), arguments, "")
    }
}

/// Runs the program in a folder with something on its standard input.
pub(crate) fn levelcup(folder: &Path, arguments: &[&str], input: &str) -> Ran {
    let output = Command::cargo_bin("levelcup")
        .unwrap()
        .current_dir(folder)
        .args(arguments)
        .write_stdin(input)
        .output()
        .unwrap();
    Ran {
        code: output.status.code(),
        stdout: String::from_utf8_lossy(&output.stdout).into_owned(),
        stderr: String::from_utf8_lossy(&output.stderr).into_owned(),
    }
}

/// What a run gave.
pub(crate) struct Ran {
    code: Option<i32>,
    /// Standard output.
    pub(crate) stdout: String,
    /// Standard error.
    pub(crate) stderr: String,
}

impl Ran {
    /// Asserts the exit code.
    #[track_caller]
    pub(crate) fn exits(self, code: i32) -> Self {
        assert_eq!(self.code, Some(code), "{}\n{}", self.stdout, self.stderr);
        self
    }
}
