//! Single files: looked at, read, written beside and renamed into place.

use std::fs::{self, Metadata};
use std::io;
use std::path::Path;

use super::OutputError;
use super::error::{Action, at};

/// What some editors put before a text; no reader sees it, and the file keeps it.
const MARK: &[u8] = "\u{feff}".as_bytes();

/// Puts a file's new text in its place, if it still holds the one it was read with: written beside and renamed.
///
/// A link is followed, and the file keeps its permissions and a byte order mark.
///
/// # Errors
/// The file changed meanwhile, or cannot be read, written or renamed.
pub fn replace(path: &Path, old: &str, new: &str) -> Result<(), OutputError> {
    let target = path.canonicalize().map_err(at(Action::Read, path))?;
    let found = present(&target)?.unwrap_or_default();
    let (mark, text) = if found.starts_with(MARK) { found.split_at(MARK.len()) } else { (&[][..], &found[..]) };
    if text != old.as_bytes() {
        return Err(OutputError::Changed { path: target });
    }
    let mut name = target.file_name().unwrap_or_default().to_os_string();
    name.push(".levelcup-new");
    let beside = target.with_file_name(name);
    write(&beside, &[mark, new.as_bytes()].concat())?;
    let permissions = fs::metadata(&target).map_err(at(Action::Read, &target))?.permissions();
    let placed = fs::set_permissions(&beside, permissions)
        .map_err(at(Action::Write, &beside))
        .and_then(|()| fs::rename(&beside, &target).map_err(at(Action::Rename, &target)));
    if placed.is_err() {
        // The old file is in place; what was written beside it is of no more use.
        let _ = fs::remove_file(&beside);
    }
    placed
}

/// The file in place; `None` where there is none.
pub(super) fn found(target: &Path) -> Result<Option<Metadata>, OutputError> {
    match target.symlink_metadata() {
        Ok(found) if found.is_symlink() => Err(OutputError::Linked { path: target.into() }),
        Ok(found) if !found.is_file() => Err(OutputError::InTheWay { path: target.into() }),
        Ok(found) => Ok(Some(found)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(at(Action::Read, target)(error)),
    }
}

/// The bytes in place; `None` where there is no file.
#[allow(clippy::disallowed_methods, reason = "found to be a plain file; outputs may be large, and lie anywhere")]
pub(super) fn present(target: &Path) -> Result<Option<Vec<u8>>, OutputError> {
    match found(target)? {
        Some(_) => fs::read(target).map(Some).map_err(at(Action::Read, target)),
        None => Ok(None),
    }
}

/// Moves a file that waits into its place, and makes the folders that it lacks.
pub(super) fn place(staged: &Path, target: &Path) -> Result<(), OutputError> {
    if let Some(parent) = target.parent() {
        fs::create_dir_all(parent).map_err(at(Action::Create, parent))?;
    }
    fs::rename(staged, target).map_err(at(Action::Rename, target))
}

#[allow(clippy::disallowed_methods, reason = "this is where files are written")]
pub(super) fn write(path: &Path, bytes: &[u8]) -> Result<(), OutputError> {
    fs::write(path, bytes).map_err(at(Action::Write, path))
}
