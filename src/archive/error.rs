use std::path::PathBuf;

use thiserror::Error;

use crate::output::OutputError;
use crate::photo::PhotoError;
use crate::render::TemplateError;

/// Why the archive could not be composed.
#[derive(Debug, Error)]
pub enum ArchiveError {
    /// A template is wrong or was given what it cannot show.
    #[error("cannot compose `{path}`: {source}")]
    Template {
        /// The file being composed.
        path: String,
        /// What is wrong, and where.
        source: TemplateError,
    },
    /// A file cannot be written.
    #[error(transparent)]
    Output(#[from] OutputError),
    /// A photograph cannot be used.
    #[error("cannot use the photo `{}`: {source}", path.display())]
    Photo {
        /// Where it is.
        path: PathBuf,
        /// What is wrong with it.
        source: PhotoError,
    },
    /// Two pages claim one path.
    #[error("two pages of the archive would both be `{path}`; give the recipe or page another file name")]
    Collision {
        /// The path.
        path: String,
    },
}
