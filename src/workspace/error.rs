use std::path::PathBuf;

use crate::language::LanguageError;
use crate::source::{Finding, Source, SourceError};

/// A file of the workspace that cannot be used as it is.
#[derive(Clone, Debug)]
pub struct Faulty {
    /// Its text.
    pub source: Source,
    /// All that is wrong with it, in the order of the places.
    pub findings: Vec<Finding>,
}

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
    /// `site/site.yaml` or `pantry.yaml` has faults.
    #[error("{}", unusable(.0))]
    Faulty(Vec<Faulty>),
    /// No words for the language.
    #[error("`site/site.yaml`: {0}")]
    Words(#[from] LanguageError),
    /// A recipe that is not there.
    #[error("no recipe `{0}`; give a path, or the name of a file in `recipes/`")]
    NoSuchRecipe(PathBuf),
}

/// That files cannot be used, and how much is wrong with them: `site/site.yaml` cannot be used: 2 errors.
fn unusable(files: &[Faulty]) -> String {
    let one = |file: &Faulty| {
        let count = file.findings.len();
        format!("`{}` cannot be used: {count} error{}", file.source.name(), if count == 1 { "" } else { "s" })
    };
    files.iter().map(one).collect::<Vec<_>>().join("; ")
}
