use std::path::{Path, PathBuf};

use unicode_normalization::UnicodeNormalization;
use walkdir::WalkDir;

use super::WorkspaceError;
use crate::source::Gate;

/// The deepest folder under `recipes/` that is looked into.
const DEEPEST: usize = 8;

/// A recipe's file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct RecipeFile {
    /// Where it is.
    pub path: PathBuf,
    /// What people see: the path from the workspace, or as given.
    pub name: String,
    /// The file's stem; names the outputs.
    pub slug: String,
    /// Whether a person named it and it lies outside the workspace.
    pub elsewhere: bool,
}

impl RecipeFile {
    /// A file by its path; `name` is what people see. Signs that an address cannot hold become hyphens in the slug.
    fn new(path: PathBuf, name: String) -> Self {
        let stem = path.file_stem().map(|stem| stem.to_string_lossy().to_lowercase()).unwrap_or_default();
        let safe = |c: char| if c.is_alphanumeric() || matches!(c, '-' | '_') { c } else { '-' };
        Self { slug: stem.nfc().map(safe).collect(), path, name, elsewhere: false }
    }
}

/// Names that one system keeps for devices, with any ending.
pub(crate) fn is_device(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or(name).to_ascii_lowercase();
    let numbered = |kind: &str| stem.strip_prefix(kind).is_some_and(|n| matches!(n.as_bytes(), [b'1'..=b'9']));
    matches!(stem.as_str(), "con" | "prn" | "aux" | "nul") || numbered("com") || numbered("lpt")
}

/// Every recipe under `recipes/`, in the order of their paths.
pub(super) fn all(root: &Path) -> Result<Vec<RecipeFile>, WorkspaceError> {
    let folder = root.join("recipes");
    let mut files = Vec::new();
    if !folder.is_dir() {
        return Ok(files);
    }
    for entry in WalkDir::new(&folder).max_depth(DEEPEST).follow_links(false).sort_by_file_name() {
        let entry = entry.map_err(|error| WorkspaceError::Unreadable {
            path: error.path().unwrap_or(&folder).to_path_buf(),
            cause: error.into_io_error().unwrap_or_else(|| std::io::Error::other("a loop of links")),
        })?;
        let yaml = entry.path().extension().is_some_and(|e| e == "yaml" || e == "yml");
        // A link or a pipe may not be read; that is told where it is tried.
        if yaml && !entry.file_type().is_dir() {
            let name = entry.path().strip_prefix(root).unwrap_or(entry.path());
            files.push(RecipeFile::new(entry.path().to_path_buf(), slashed(name)));
        }
    }
    Ok(files)
}

/// The Markdown files in `site/pages/`, in the order of their names.
pub(super) fn pages(root: &Path) -> Result<Vec<PathBuf>, WorkspaceError> {
    let folder = root.join("site").join("pages");
    if !folder.is_dir() {
        return Ok(Vec::new());
    }
    let unreadable = |cause| WorkspaceError::Unreadable { path: folder.clone(), cause };
    let mut pages = Vec::new();
    for entry in std::fs::read_dir(&folder).map_err(unreadable)? {
        let path = entry.map_err(unreadable)?.path();
        if path.extension().is_some_and(|e| e == "md") && path.file_stem().is_some_and(|stem| stem.to_str().is_some()) {
            pages.push(path);
        }
    }
    pages.sort();
    Ok(pages)
}

/// Forward slashes on every system, so that output is the same.
fn slashed(path: &Path) -> String {
    let parts: Vec<_> = path.components().map(|part| part.as_os_str().to_string_lossy()).collect();
    parts.join("/")
}

/// The files that a person named: by path, or by the name of a recipe.
pub(super) fn named(root: &Path, wanted: &[PathBuf], gate: &Gate) -> Result<Vec<RecipeFile>, WorkspaceError> {
    let mut files = Vec::new();
    for path in wanted {
        let in_recipes = root.join("recipes").join(path).with_extension("yaml");
        if path.is_file() {
            let shown = path.strip_prefix(root).unwrap_or(path);
            let elsewhere = !gate.holds(path);
            files.push(RecipeFile { elsewhere, ..RecipeFile::new(path.clone(), shown.display().to_string()) });
        } else if path.components().count() == 1 && in_recipes.is_file() {
            let name = slashed(in_recipes.strip_prefix(root).unwrap_or(&in_recipes));
            files.push(RecipeFile::new(in_recipes, name));
        } else {
            return Err(WorkspaceError::NoSuchRecipe(path.clone()));
        }
    }
    Ok(files)
}
