use std::path::Path;

use rayon::prelude::*;

use super::OutputError;
use super::files::present;
use super::manifest::{Manifest, Mark};

/// A listed file that is not as it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Differing {
    /// Relative to the output folder, parts joined by `/`.
    pub path: String,
    /// Whether there is no such file any more, or none that can be read.
    pub missing: bool,
}

/// Compares files with what was written to them, byte by byte; those whose path begins so. In order of path.
///
/// # Errors
/// The list of what was written cannot be read.
pub fn compare(folder: &Path, beginning: &str) -> Result<Vec<Differing>, OutputError> {
    let manifest = Manifest::read(folder)?;
    let files: Vec<_> = manifest.files().filter(|(path, _)| path.starts_with(beginning)).collect();
    let differing = |(path, listed): (&str, super::manifest::Listed)| {
        let bytes = present(&folder.join(path)).ok().flatten();
        let same = bytes.as_deref().is_some_and(|bytes| Mark::of(bytes) == listed.mark);
        (!same).then(|| Differing { path: path.to_owned(), missing: bytes.is_none() })
    };
    Ok(files.into_par_iter().filter_map(differing).collect())
}
