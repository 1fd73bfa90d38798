//! WRITE: files put beside and renamed into place, and only those that levelcup wrote replaced or removed.
//!
//! A run stages every file in a hidden folder first, so that a failed or killed run leaves the last good output.
//! The manifest lists what was written; anything else in the folder is somebody else's and is never touched.

mod error;
mod manifest;
mod path;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

pub use error::OutputError;
use error::{Action, at};
use manifest::Manifest;

/// Staged files wait here, inside the output folder so that renaming stays on one disk.
const STAGING: &str = ".levelcup-new";

/// An output folder being written.
#[derive(Debug)]
pub struct Output {
    folder: PathBuf,
    staging: PathBuf,
    manifest: Manifest,
    put: BTreeMap<String, Put>,
    /// Folders known to exist as real folders inside the output folder.
    plain: BTreeSet<PathBuf>,
}

/// A file of this run.
#[derive(Debug)]
struct Put {
    hash: String,
    /// Where the new bytes wait; `None` where the file in place is already right.
    staged: Option<PathBuf>,
}

/// What a finished run did, in number of files.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Written {
    /// Put in place, new or changed.
    pub written: usize,
    /// Already right, left as they were.
    pub unchanged: usize,
    /// Written by an earlier run, not made by this one, removed.
    pub removed: usize,
    /// As `removed`, but changed by hand since, and so left in place.
    pub kept: usize,
}

/// What becomes of files that an earlier run wrote and this one did not make.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Leftovers {
    Remove,
    Keep,
}

impl Output {
    /// Opens the folder, made if it does not exist, and clears what a killed run left in staging.
    ///
    /// # Errors
    /// The folder cannot be made, read or written to, or its manifest is not one of ours.
    pub fn open(folder: impl Into<PathBuf>) -> Result<Self, OutputError> {
        let folder = folder.into();
        fs::create_dir_all(&folder).map_err(at(Action::Create, &folder))?;
        let manifest = Manifest::read(&folder)?;
        let staging = folder.join(STAGING);
        if staging.symlink_metadata().is_ok() {
            fs::remove_dir_all(&staging).map_err(at(Action::Remove, &staging))?;
        }
        fs::create_dir(&staging).map_err(at(Action::Create, &staging))?;
        Ok(Self { folder, staging, manifest, put: BTreeMap::new(), plain: BTreeSet::new() })
    }

    /// Stages a file; nothing is in place before [`Self::finish`].
    ///
    /// `path` is relative to the folder, its parts joined by `/`.
    ///
    /// # Errors
    /// The path leaves the folder or leads through a symbolic link, was put before, is taken by a file that levelcup
    /// did not write, or the bytes cannot be written.
    pub fn put(&mut self, path: &str, bytes: &[u8]) -> Result<(), OutputError> {
        path::check(path)?;
        if self.put.contains_key(path) {
            return Err(OutputError::Twice { path: path.into() });
        }
        let target = self.folder.join(path);
        self.check_folders(path)?;
        let staged = match present(&target)? {
            Some(present) if present == bytes => None,
            Some(_) if !self.manifest.lists(path) => return Err(OutputError::InTheWay { path: target }),
            _ => Some(self.stage(bytes)?),
        };
        self.put.insert(path.into(), Put { hash: manifest::hash(bytes), staged });
        Ok(())
    }

    /// Renames everything into place and removes what earlier runs wrote and this one did not make.
    ///
    /// # Errors
    /// A file cannot be renamed or removed, or the manifest cannot be written; a later run repairs what is half done.
    pub fn finish(self) -> Result<Written, OutputError> {
        self.settle(Leftovers::Remove)
    }

    /// As [`Self::finish`] for a run that made only a part of the output: what it did not make stays.
    ///
    /// # Errors
    /// As [`Self::finish`].
    pub fn finish_part(self) -> Result<Written, OutputError> {
        self.settle(Leftovers::Keep)
    }

    /// As [`Self::finish_part`], and the files are the reader's from then on: no list is kept of them.
    ///
    /// # Errors
    /// As [`Self::finish`].
    pub fn hand_over(self) -> Result<Written, OutputError> {
        let folder = self.folder.clone();
        let paths: Vec<String> = self.put.keys().cloned().collect();
        let written = self.settle(Leftovers::Keep)?;
        let mut output = Self::open(&folder)?;
        for path in &paths {
            output.manifest.forget(path);
        }
        output.manifest.write(&folder, &output.staging)?;
        if output.manifest.files().next().is_none() {
            Manifest::remove(&folder)?;
        }
        Ok(written)
    }

    fn settle(mut self, leftovers: Leftovers) -> Result<Written, OutputError> {
        let stale: Vec<(String, String)> = match leftovers {
            Leftovers::Keep => Vec::new(),
            Leftovers::Remove => {
                let stale = self.manifest.files().filter(|(path, _)| !self.put.contains_key(*path));
                stale.map(|(path, hash)| (path.to_owned(), hash.to_owned())).collect()
            }
        };
        // Old and new are both listed while files move, so that a run killed here leaves no file that nobody owns.
        for (path, put) in &self.put {
            self.manifest.add(path, &put.hash);
        }
        self.manifest.write(&self.folder, &self.staging)?;
        let mut written = Written::default();
        for (path, put) in &self.put {
            let Some(staged) = &put.staged else {
                written.unchanged += 1;
                continue;
            };
            place(staged, &self.folder.join(path))?;
            written.written += 1;
        }
        for (path, hash) in &stale {
            if self.remove(path, hash)? {
                written.removed += 1;
            } else {
                written.kept += 1;
            }
            self.manifest.forget(path);
        }
        self.manifest.write(&self.folder, &self.staging)?;
        Ok(written)
    }

    fn stage(&self, bytes: &[u8]) -> Result<PathBuf, OutputError> {
        let staged = self.staging.join(self.put.len().to_string());
        write(&staged, bytes)?;
        Ok(staged)
    }

    /// Refuses a path whose folders are links, which could lead anywhere, or files.
    fn check_folders(&mut self, path: &str) -> Result<(), OutputError> {
        let mut folder = self.folder.clone();
        let parents = path.rsplit_once('/').map_or("", |(parents, _)| parents);
        for part in parents.split('/').filter(|part| !part.is_empty()) {
            folder.push(part);
            if self.plain.contains(&folder) {
                continue;
            }
            match folder.symlink_metadata() {
                Ok(found) if found.is_symlink() => return Err(OutputError::Linked { path: folder }),
                Ok(found) if !found.is_dir() => return Err(OutputError::InTheWay { path: folder }),
                Ok(_) => {
                    self.plain.insert(folder.clone());
                }
                Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(()),
                Err(error) => return Err(at(Action::Read, &folder)(error)),
            }
        }
        Ok(())
    }

    /// Removes a file of an earlier run and the folders left empty by it; false where it was changed by hand since.
    fn remove(&mut self, path: &str, hash: &str) -> Result<bool, OutputError> {
        let target = self.folder.join(path);
        self.check_folders(path)?;
        let Some(found) = present(&target)? else {
            return Ok(true);
        };
        if manifest::hash(&found) != hash {
            return Ok(false);
        }
        fs::remove_file(&target).map_err(at(Action::Remove, &target))?;
        let mut folder = target.parent();
        // `remove_dir` fails on a folder that still holds something, which is where this ends.
        while let Some(parent) = folder.filter(|parent| **parent != self.folder && fs::remove_dir(parent).is_ok()) {
            folder = parent.parent();
        }
        Ok(true)
    }
}

impl Drop for Output {
    fn drop(&mut self) {
        // What cannot be cleared now is cleared by the next `open`.
        let _ = fs::remove_dir_all(&self.staging);
    }
}

/// Puts a file's new bytes in its place, if it still holds those it was read with: written beside and renamed.
///
/// A link is followed, and the file keeps its permissions.
///
/// # Errors
/// The file changed meanwhile, or cannot be read, written or renamed.
pub fn replace(path: &Path, old: &[u8], new: &[u8]) -> Result<(), OutputError> {
    let target = path.canonicalize().map_err(at(Action::Read, path))?;
    if fs::read(&target).map_err(at(Action::Read, &target))? != old {
        return Err(OutputError::Changed { path: target });
    }
    let mut name = target.file_name().unwrap_or_default().to_os_string();
    name.push(".levelcup-new");
    let beside = target.with_file_name(name);
    write(&beside, new)?;
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

/// The bytes in place; `None` where there is no file.
fn present(target: &Path) -> Result<Option<Vec<u8>>, OutputError> {
    match target.symlink_metadata() {
        Ok(found) if found.is_symlink() => Err(OutputError::Linked { path: target.into() }),
        Ok(found) if !found.is_file() => Err(OutputError::InTheWay { path: target.into() }),
        Ok(_) => fs::read(target).map(Some).map_err(at(Action::Read, target)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(at(Action::Read, target)(error)),
    }
}

fn place(staged: &Path, target: &Path) -> Result<(), OutputError> {
    if let Some(parent) = target.parent() {
        fs::create_dir_all(parent).map_err(at(Action::Create, parent))?;
    }
    fs::rename(staged, target).map_err(at(Action::Rename, target))
}

#[allow(clippy::disallowed_methods, reason = "this is where files are written")]
fn write(path: &Path, bytes: &[u8]) -> Result<(), OutputError> {
    fs::write(path, bytes).map_err(at(Action::Write, path))
}

#[cfg(test)]
mod tests;
