use std::fs;
use std::path::Path;

use rayon::prelude::*;

use super::error::{Action, OutputError};
use super::files::present;
use super::manifest::{Fingerprint, Manifest};

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
/// The list of what was written cannot be read, or there is none.
pub fn compare(folder: &Path, beginning: &str) -> Result<Vec<Differing>, OutputError> {
    let manifest = recorded(folder)?;
    let files: Vec<_> = manifest.files().filter(|(path, _)| path.starts_with(beginning)).collect();
    let differing = |(path, listed): (&str, super::manifest::Listed)| {
        let bytes = present(&folder.join(path)).ok().flatten();
        let same = bytes.as_deref().is_some_and(|bytes| Fingerprint::of(bytes) == listed.mark);
        (!same).then(|| Differing { path: path.to_owned(), missing: bytes.is_none() })
    };
    Ok(files.into_par_iter().filter_map(differing).collect())
}

/// The pages below a folder of the output that no run has listed: of somebody else, or come back with a copy. In order of
/// path.
///
/// # Errors
/// As [`compare`].
pub fn strangers(folder: &Path, below: &str) -> Result<Vec<String>, OutputError> {
    let manifest = recorded(folder)?;
    let (mut waiting, mut found) = (vec![below.to_owned()], Vec::new());
    while let Some(at) = waiting.pop() {
        let place = folder.join(&at);
        for entry in fs::read_dir(&place).map_err(super::error::at(Action::Read, &place))?.flatten() {
            let path = format!("{at}/{}", entry.file_name().to_string_lossy());
            match entry.file_type() {
                Ok(kind) if kind.is_dir() => waiting.push(path),
                _ if path.ends_with(".html") && manifest.listed(&path).is_none() => found.push(path),
                _ => {}
            }
        }
    }
    found.sort();
    Ok(found)
}

fn recorded(folder: &Path) -> Result<Manifest, OutputError> {
    let manifest = Manifest::read(folder)?;
    if manifest.is_empty() {
        return Err(OutputError::Unrecorded { path: folder.to_owned() });
    }
    Ok(manifest)
}
