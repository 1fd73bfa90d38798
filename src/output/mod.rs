//! WRITE: files put beside and renamed into place, and only those that levelcup wrote replaced or removed.
//!
//! A run stages every file in a hidden folder first, so that a failed or killed run leaves the last good output.
//! The manifest lists what was written; anything else in the folder is somebody else's and is never touched.

mod error;
mod manifest;
mod path;
mod staging;

use std::collections::BTreeMap;
use std::fs::{self, Metadata};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::SystemTime;

use rustc_hash::FxHashSet;

pub use error::OutputError;
use error::{Action, at};
pub use manifest::Hash;
use manifest::{Manifest, Mark};
use staging::{Staged, Staging};

/// What a caller wants to know again at the next run, in the output folder.
const MEMORY: &str = ".levelcup-memory";

/// An output folder being written; several threads may put files at once.
#[derive(Debug)]
pub struct Output {
    folder: PathBuf,
    staging: Staging,
    manifest: Manifest,
    /// When the manifest was written; a listed file that is not younger is as the manifest says.
    written: Option<SystemTime>,
    put: Mutex<BTreeMap<String, Put>>,
    /// Folders known to exist as real folders inside the output folder, relative to it.
    plain: Mutex<FxHashSet<String>>,
    /// Folders known not to exist.
    missing: Mutex<FxHashSet<String>>,
    memory: Mutex<Option<Vec<u8>>>,
}

/// A file of this run.
#[derive(Debug)]
struct Put {
    mark: Mark,
    /// Where the new bytes wait; `None` where the file in place is already right.
    staged: Option<Staged>,
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
#[derive(Clone, Copy)]
enum Leftovers<'a> {
    /// Those whose path begins so are removed.
    Remove(&'a str),
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
        let staging = Staging::open(&folder)?;
        let written = manifest::written(&folder);
        Ok(Self {
            folder,
            staging,
            manifest,
            written,
            put: Mutex::default(),
            plain: Mutex::default(),
            missing: Mutex::default(),
            memory: Mutex::default(),
        })
    }

    /// Stages a file; nothing is in place before [`Self::finish`].
    ///
    /// `path` is relative to the folder, its parts joined by `/`. Returns the SHA-256 of the bytes.
    ///
    /// # Errors
    /// The path leaves the folder or leads through a symbolic link, was put before, is taken by a file that levelcup
    /// did not write, or the bytes cannot be written.
    pub fn put(&self, path: &str, bytes: &[u8]) -> Result<Hash, OutputError> {
        path::check(path)?;
        let target = self.folder.join(path);
        let missing = self.missing_folder(path)?;
        let mark = Mark::of(bytes);
        let hash = mark.hash;
        let staged = if let Some(missing) = missing {
            Some(self.staging.within(missing, path, bytes)?)
        } else if self.is_in_place(path, &target, Some(&mark))? || present(&target)?.as_deref() == Some(bytes) {
            None
        } else if !self.manifest.lists(path) && found(&target)?.is_some() {
            return Err(OutputError::InTheWay { path: target });
        } else {
            Some(self.staging.alone(bytes)?)
        };
        match locked(&self.put).insert(path.into(), Put { mark, staged }) {
            Some(_) => Err(OutputError::Twice { path: path.into() }),
            None => Ok(hash),
        }
    }

    /// Takes a file that an earlier run wrote for one of this run, where it is still in place with the given contents,
    /// or with any that were written where `hash` is none; whether it is.
    ///
    /// # Errors
    /// As [`Self::put`].
    pub fn keep(&self, path: &str, hash: Option<&Hash>) -> Result<bool, OutputError> {
        let Some(mark) = self.manifest.mark(path).filter(|mark| hash.is_none_or(|hash| mark.hash == *hash)) else {
            return Ok(false);
        };
        if self.missing_folder(path)?.is_some() || !self.is_in_place(path, &self.folder.join(path), None)? {
            return Ok(false);
        }
        match locked(&self.put).insert(path.into(), Put { mark, staged: None }) {
            Some(_) => Err(OutputError::Twice { path: path.into() }),
            None => Ok(true),
        }
    }

    /// What an earlier run asked to remember; it may be lost at any time.
    ///
    /// # Errors
    /// It is there and cannot be read.
    pub fn recall(&self) -> Result<Option<Vec<u8>>, OutputError> {
        present(&self.folder.join(MEMORY))
    }

    /// Writes bytes for [`Self::recall`], after everything is in place.
    pub fn remember(&self, bytes: Vec<u8>) {
        *locked(&self.memory) = Some(bytes);
    }

    /// Paths that earlier runs wrote and that begin so, in order.
    pub fn earlier<'a>(&'a self, beginning: &'a str) -> impl Iterator<Item = &'a str> {
        self.manifest.files().map(|(path, _)| path).filter(move |path| path.starts_with(beginning))
    }

    /// Whether the file in place has what the manifest lists (and `wanted` asks for), told without reading it: it has
    /// the length, and nobody wrote to it after the manifest was written.
    fn is_in_place(&self, path: &str, target: &Path, wanted: Option<&Mark>) -> Result<bool, OutputError> {
        let Some(listed) = self.manifest.mark(path).filter(|listed| wanted.is_none_or(|wanted| wanted == listed))
        else {
            return Ok(false);
        };
        let Some(data) = found(target)? else { return Ok(false) };
        let old = data.modified().ok().zip(self.written).is_some_and(|(file, list)| file <= list);
        Ok(old && data.len() == listed.bytes)
    }

    /// Renames everything into place and removes what earlier runs wrote and this one did not make.
    ///
    /// # Errors
    /// A file cannot be renamed or removed, or the manifest cannot be written; a later run repairs what is half done.
    pub fn finish(self) -> Result<Written, OutputError> {
        self.settle(Leftovers::Remove(""))
    }

    /// As [`Self::finish`] for a run that made all of one folder: of what it did not make, only what lies there goes.
    ///
    /// # Errors
    /// As [`Self::finish`].
    pub fn finish_folder(self, name: &str) -> Result<Written, OutputError> {
        self.settle(Leftovers::Remove(&format!("{name}/")))
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
        let paths: Vec<String> = locked(&self.put).keys().cloned().collect();
        let written = self.settle(Leftovers::Keep)?;
        let mut output = Self::open(&folder)?;
        for path in &paths {
            output.manifest.forget(path);
        }
        output.manifest.write(&folder, output.staging.folder())?;
        if output.manifest.files().next().is_none() {
            Manifest::remove(&folder)?;
        }
        Ok(written)
    }

    fn settle(mut self, leftovers: Leftovers<'_>) -> Result<Written, OutputError> {
        let put = std::mem::take(&mut *locked(&self.put));
        let stale: Vec<(String, Mark)> = match leftovers {
            Leftovers::Keep => Vec::new(),
            Leftovers::Remove(beginning) => {
                let stale = self.manifest.files().filter(|(path, _)| path.starts_with(beginning));
                stale.filter(|(path, _)| !put.contains_key(*path)).map(|(path, mark)| (path.to_owned(), mark)).collect()
            }
        };
        let changed = put.iter().any(|(path, put)| self.manifest.mark(path) != Some(put.mark));
        let staged: Vec<(&Staged, &str)> =
            put.iter().filter_map(|(path, put)| Some((put.staged.as_ref()?, path.as_str()))).collect();
        let mut written = Written { written: staged.len(), unchanged: put.len() - staged.len(), ..Written::default() };
        if !changed && staged.is_empty() && stale.is_empty() {
            self.write_memory()?;
            return Ok(written);
        }
        // Old and new are both listed while files move, so that a run killed here leaves no file that nobody owns.
        for (path, put) in &put {
            self.manifest.add(path, if put.staged.is_some() { put.mark.unsure() } else { put.mark });
        }
        self.manifest.write(&self.folder, self.staging.folder())?;
        self.staging.place(&staged, &self.folder)?;
        for (path, mark) in &stale {
            if self.remove(path, mark)? {
                written.removed += 1;
            } else {
                written.kept += 1;
            }
            self.manifest.forget(path);
        }
        for (path, put) in &put {
            self.manifest.add(path, put.mark);
        }
        self.manifest.write(&self.folder, self.staging.folder())?;
        self.write_memory()?;
        Ok(written)
    }

    /// Last of all, so that it never tells of files that are not in place.
    fn write_memory(&self) -> Result<(), OutputError> {
        let Some(bytes) = locked(&self.memory).take() else { return Ok(()) };
        let place = self.folder.join(MEMORY);
        if present(&place)?.as_deref() == Some(&bytes[..]) {
            return Ok(());
        }
        let staged = self.staging.folder().join("memory");
        write(&staged, &bytes)?;
        self::place(&staged, &place)
    }

    /// The first folder of a path that does not exist; refuses one whose folders are links, which could lead anywhere,
    /// or files.
    fn missing_folder<'p>(&self, path: &'p str) -> Result<Option<&'p str>, OutputError> {
        for (end, _) in path.match_indices('/') {
            let name = &path[..end];
            if locked(&self.plain).contains(name) {
                continue;
            }
            if locked(&self.missing).contains(name) {
                return Ok(Some(name));
            }
            let folder = self.folder.join(name);
            match folder.symlink_metadata() {
                Ok(found) if found.is_symlink() => return Err(OutputError::Linked { path: folder }),
                Ok(found) if !found.is_dir() => return Err(OutputError::InTheWay { path: folder }),
                Ok(_) => {
                    locked(&self.plain).insert(name.to_owned());
                }
                Err(error) if error.kind() == io::ErrorKind::NotFound => {
                    locked(&self.missing).insert(name.to_owned());
                    return Ok(Some(name));
                }
                Err(error) => return Err(at(Action::Read, &folder)(error)),
            }
        }
        Ok(None)
    }

    /// Removes a file of an earlier run and the folders left empty by it; false where it was changed by hand since.
    fn remove(&self, path: &str, mark: &Mark) -> Result<bool, OutputError> {
        let target = self.folder.join(path);
        if self.missing_folder(path)?.is_some() {
            return Ok(true);
        }
        let Some(found) = present(&target)? else {
            return Ok(true);
        };
        if Mark::of(&found).hash != mark.hash {
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

/// What one thread puts is whole even where another one panicked.
fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The file in place; `None` where there is none.
fn found(target: &Path) -> Result<Option<Metadata>, OutputError> {
    match target.symlink_metadata() {
        Ok(found) if found.is_symlink() => Err(OutputError::Linked { path: target.into() }),
        Ok(found) if !found.is_file() => Err(OutputError::InTheWay { path: target.into() }),
        Ok(found) => Ok(Some(found)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(at(Action::Read, target)(error)),
    }
}

/// The bytes in place; `None` where there is no file.
fn present(target: &Path) -> Result<Option<Vec<u8>>, OutputError> {
    match found(target)? {
        Some(_) => fs::read(target).map(Some).map_err(at(Action::Read, target)),
        None => Ok(None),
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
