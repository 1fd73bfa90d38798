use std::path::{Path, PathBuf};

use super::files::{self, RecipeFile};
use super::site::Site;
use crate::kitchen::{Kitchen, KitchenError};
use crate::language::{Dictionary, LanguageError};
use crate::pantry::{Pantry, PantryError};
use crate::recipe::LineReader;
use crate::source::{Gate, Source, SourceError, SourceFault};

/// A folder of recipes with its settings.
#[derive(Clone, Debug)]
pub struct Workspace {
    root: PathBuf,
    gate: Gate,
    site: Site,
}

/// The workspace's own rows of the pantry.
const PANTRY: &str = "pantry.yaml";

/// A workspace that cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum WorkspaceError {
    /// No `recipes/` here or above.
    #[error("no `recipes` folder in `{0}` or above it; `levelcup start DIR` makes a workspace")]
    NotFound(PathBuf),
    /// A file or folder cannot be read.
    #[error("cannot read `{path}`: {cause}")]
    Unreadable {
        /// Which.
        path: PathBuf,
        /// What the system said.
        cause: std::io::Error,
    },
    /// A file cannot be had as text.
    #[error(transparent)]
    Source(#[from] SourceError),
    /// `site/site.yaml` does not hold settings.
    #[error("`site/site.yaml`: {0}")]
    Site(String),
    /// A setting is none.
    #[error("`site/site.yaml`: {0}")]
    Kitchen(#[from] KitchenError),
    /// `pantry.yaml` cannot be used.
    #[error(transparent)]
    Pantry(#[from] PantryError),
    /// No words for the language.
    #[error("`site/site.yaml`: {0}")]
    Words(#[from] LanguageError),
    /// A recipe that is not there.
    #[error("no recipe `{0}`; give a path, or the name of a file in `recipes/`")]
    NoSuchRecipe(PathBuf),
}

impl Workspace {
    /// The workspace of a folder, or of the nearest folder above it that has `recipes/`.
    ///
    /// # Errors
    /// [`WorkspaceError`]: none there, or settings that cannot be read.
    pub fn find(from: &Path) -> Result<Self, WorkspaceError> {
        let start =
            std::path::absolute(from).map_err(|cause| WorkspaceError::Unreadable { path: from.into(), cause })?;
        let found = start.ancestors().find(|folder| folder.join("recipes").is_dir());
        let root = found.ok_or_else(|| WorkspaceError::NotFound(from.into()))?;
        let gate = Gate::to(root)?;
        let site = site(root, &gate)?;
        Ok(Self { root: root.into(), gate, site })
    }

    /// The workspace of a folder, else of the first file named; files outside any workspace are read with the usual
    /// settings, and their outputs go below the folder.
    ///
    /// # Errors
    /// As [`Workspace::find`]; none there only where no file is named.
    pub fn of(folder: &Path, files: &[PathBuf]) -> Result<Self, WorkspaceError> {
        let not_found = match Self::find(folder) {
            Err(error @ WorkspaceError::NotFound(_)) => error,
            found => return found,
        };
        let Some(first) = files.first().filter(|file| file.is_file()) else { return Err(not_found) };
        let absolute =
            std::path::absolute(first).map_err(|cause| WorkspaceError::Unreadable { path: first.clone(), cause })?;
        match Self::find(absolute.parent().unwrap_or(folder)) {
            Err(WorkspaceError::NotFound(_)) => {
                Ok(Self { root: folder.into(), gate: Gate::anywhere(), site: Site::default() })
            }
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

    /// Its kitchen: the embedded pantry with the workspace's own rows, under its settings.
    ///
    /// # Errors
    /// [`WorkspaceError`] for a `pantry.yaml` or settings that cannot be used.
    pub fn kitchen(&self) -> Result<Kitchen, WorkspaceError> {
        Ok(Kitchen::new(self.pantry()?, &self.site)?)
    }

    /// The embedded pantry with the workspace's own rows.
    ///
    /// # Errors
    /// [`WorkspaceError::Pantry`] for a `pantry.yaml` that cannot be used.
    pub fn pantry(&self) -> Result<Pantry, WorkspaceError> {
        let mut pantry = Pantry::embedded();
        if let Some(own) = text(&self.root.join(PANTRY), PANTRY, &self.gate)? {
            pantry.extend(&own)?;
        }
        Ok(pantry)
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

fn site(root: &Path, gate: &Gate) -> Result<Site, WorkspaceError> {
    let path = root.join("site").join("site.yaml");
    let Some(source) = text(&path, "site/site.yaml", gate)? else { return Ok(Site::default()) };
    let site: Site = serde_yaml::from_str(source.text()).map_err(|error| WorkspaceError::Site(error.to_string()))?;
    match unusable(&site) {
        Some(fault) => Err(WorkspaceError::Site(fault)),
        None => Ok(site),
    }
}

/// What is wrong with settings that are texts of a form.
fn unusable(site: &Site) -> Option<String> {
    let Site { url, accent, .. } = site;
    if !url.is_empty() && !["https://", "http://"].iter().any(|scheme| url.starts_with(scheme)) {
        return Some(format!("url: `{url}` is not an http(s) address"));
    }
    let digits = accent.strip_prefix('#').unwrap_or_default();
    if digits.len() != 6 || !digits.bytes().all(|byte| byte.is_ascii_hexdigit()) {
        return Some(format!(
            "accent: `{accent}` is not a colour: write `#` and six hexadecimal digits, as in `#7a3b2e`"
        ));
    }
    None
}
