use std::path::{Path, PathBuf};

use super::error::{Faulty, WorkspaceError};
use super::files::{self, RecipeFile};
use super::read::{RuleName, read};
use super::site::Site;
use crate::language::Dictionary;
use crate::pantry::{self, OwnPantry, Pantry};
use crate::recipe::LineReader;
use crate::source::{Finding, Gate, Source, SourceError, SourceFault};

/// A folder of recipes with its settings.
#[derive(Clone, Debug)]
pub struct Workspace {
    root: PathBuf,
    gate: Gate,
    site: Site,
    /// What of the pantry is its own.
    pantry: OwnPantry,
}

/// Who publishes, and how amounts are shown.
const SITE: &str = "site/site.yaml";

/// What the workspace adds to the pantry.
const PANTRY: &str = "pantry.yaml";

impl Workspace {
    /// The workspace of a folder, or of the nearest folder above it that has `recipes/`. `rules` are those that its
    /// settings may name.
    ///
    /// # Errors
    /// [`WorkspaceError`]: none there, or settings that cannot be read.
    pub fn find(from: &Path, rules: &[RuleName]) -> Result<Self, WorkspaceError> {
        let start =
            std::path::absolute(from).map_err(|cause| WorkspaceError::Unreadable { path: from.into(), cause })?;
        let found = start.ancestors().find(|folder| folder.join("recipes").is_dir());
        let root = found.ok_or_else(|| WorkspaceError::NotFound(from.into()))?;
        let gate = Gate::to(root)?;
        let mut faulty = Vec::new();
        let site = sound(root, SITE, &gate, &mut faulty, |source| read(source, rules));
        let pantry = sound(root, PANTRY, &gate, &mut faulty, pantry::read);
        if faulty.is_empty() {
            Ok(Self { root: root.into(), gate, site, pantry })
        } else {
            Err(WorkspaceError::Faulty(faulty))
        }
    }

    /// The workspace of a folder, else of the first file named; files outside any workspace are read with the usual
    /// settings, and their outputs go below the folder.
    ///
    /// # Errors
    /// As [`Workspace::find`]; none there only where no file is named.
    pub fn of(folder: &Path, files: &[PathBuf], rules: &[RuleName]) -> Result<Self, WorkspaceError> {
        let not_found = match Self::find(folder, rules) {
            Err(error @ WorkspaceError::NotFound(_)) => error,
            found => return found,
        };
        let Some(first) = files.first().filter(|file| file.is_file()) else { return Err(not_found) };
        let absolute =
            std::path::absolute(first).map_err(|cause| WorkspaceError::Unreadable { path: first.clone(), cause })?;
        match Self::find(absolute.parent().unwrap_or(folder), rules) {
            Err(WorkspaceError::NotFound(_)) => Ok(Self {
                root: folder.into(),
                gate: Gate::anywhere(),
                site: Site::default(),
                pantry: OwnPantry::default(),
            }),
            found => found,
        }
    }

    /// Its folder.
    pub fn root(&self) -> &Path {
        &self.root
    }

    /// The way to what it holds.
    pub fn gate(&self) -> &Gate {
        &self.gate
    }

    /// The text of a recipe: of one that a person named, wherever it lies.
    ///
    /// # Errors
    /// As [`Gate::source`].
    pub fn text(&self, file: &RecipeFile) -> Result<Source, SourceError> {
        let gate = if file.elsewhere { &Gate::anywhere() } else { &self.gate };
        gate.source(&file.path, file.name.as_str())
    }

    /// Where its photographs lie.
    pub fn photos(&self) -> PathBuf {
        self.root.join("site").join("photos")
    }

    /// Its settings.
    pub fn site(&self) -> &Site {
        &self.site
    }

    /// Its settings, to change some for once; the file keeps its own.
    pub fn site_mut(&mut self) -> &mut Site {
        &mut self.site
    }

    /// The embedded pantry with what the workspace adds.
    pub fn pantry(&self) -> Pantry {
        let mut pantry = Pantry::embedded();
        pantry.extend(&self.pantry);
        pantry
    }

    /// A reader of ingredient lines in its language.
    ///
    /// # Errors
    /// [`WorkspaceError::Words`] for a language that there is none of.
    pub fn lines(&self) -> Result<LineReader, WorkspaceError> {
        Ok(LineReader::new(Dictionary::of(&self.site.language)?, self.site.cups.into()))
    }

    /// The recipes named, or all of them.
    ///
    /// # Errors
    /// [`WorkspaceError`]: a folder that cannot be read, a recipe that is not there, a name that cannot be a page's.
    pub fn recipes(&self, named: &[PathBuf]) -> Result<Vec<RecipeFile>, WorkspaceError> {
        if named.is_empty() { files::all(&self.root) } else { files::named(&self.root, named, &self.gate) }
    }

    /// The files of its pages that are no recipes, in the order of their names.
    ///
    /// # Errors
    /// [`WorkspaceError::Unreadable`] for a folder that cannot be read.
    pub fn pages(&self) -> Result<Vec<PathBuf>, WorkspaceError> {
        files::pages(&self.root)
    }

    /// Its folder of templates, where it has one.
    pub fn templates(&self) -> Option<PathBuf> {
        Some(self.root.join("templates")).filter(|folder| folder.is_dir())
    }
}

/// A file's text; none where there is nothing of the name.
fn text(path: &Path, name: &str, gate: &Gate) -> Result<Option<Source>, SourceError> {
    match gate.source(path, name) {
        Err(SourceError { fault: SourceFault::Unreadable(cause), .. }) if is_absent(&cause) => Ok(None),
        read => read.map(Some),
    }
}

fn is_absent(error: &std::io::Error) -> bool {
    matches!(error.kind(), std::io::ErrorKind::NotFound | std::io::ErrorKind::NotADirectory)
}

/// What a file holds; as usual where there is none. One that has faults is added to those.
fn sound<T: Default>(
    root: &Path,
    name: &str,
    gate: &Gate,
    faulty: &mut Vec<Faulty>,
    read: impl FnOnce(&Source) -> Result<T, Vec<Finding>>,
) -> T {
    let (source, findings) = match text(&root.join(name), name, gate) {
        Ok(None) => return T::default(),
        Ok(Some(source)) => match read(&source) {
            Ok(held) => return held,
            Err(findings) => (source, findings),
        },
        Err(error) => {
            let (source, finding) = error.drawn(name);
            (source, vec![finding])
        }
    };
    faulty.push(Faulty { source, findings });
    T::default()
}
