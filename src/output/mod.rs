//! WRITE: files put beside and renamed into place, and only those that levelcup wrote replaced or removed.
//!
//! A run stages every file in a hidden folder first, so that a failed or killed run leaves the last good output.
//! The manifest lists what was written; anything else in the folder is somebody else's and is never touched.

mod compare;
mod error;
mod files;
mod lock;
mod manifest;
mod path;
mod staging;

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Mutex;

use rayon::prelude::*;
use rustc_hash::FxHashSet;

pub use compare::{Differing, compare, strangers};
pub use error::OutputError;
use error::{Action, at};
pub use files::replace;
use files::{found, place, present, write};
pub use lock::Held;
use lock::Lock;
pub use manifest::Hash;
use manifest::{Fingerprint, Listed, Manifest, Time};
use staging::{Staged, Staging, locked};

/// An output folder being written, by this run alone; several of its threads may put files at once.
#[derive(Debug)]
pub struct Output {
    folder: PathBuf,
    staging: Staging,
    manifest: Manifest,
    put: Mutex<BTreeMap<String, Put>>,
    /// Folders known to exist as real folders inside the output folder, relative to it.
    plain: Mutex<FxHashSet<String>>,
    /// Folders known not to exist.
    missing: Mutex<FxHashSet<String>>,
    memories: Mutex<BTreeMap<&'static str, Vec<u8>>>,
    /// Let go last, when staging is cleared.
    lock: Lock,
}

/// A file of this run.
#[derive(Debug)]
enum Put {
    /// Already right, as it is listed.
    Kept(Listed),
    /// New bytes wait to go into place.
    New(Fingerprint, Staged),
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
    /// Opens the folder, made if it does not exist, and keeps other runs out of it until this one ends.
    ///
    /// # Errors
    /// Another run holds it, it cannot be made, read or written to, or its manifest is not one of ours.
    pub fn open(folder: impl Into<PathBuf>, held: Held) -> Result<Self, OutputError> {
        let folder = folder.into();
        fs::create_dir_all(&folder).map_err(at(Action::Create, &folder))?;
        let lock = Lock::take(&folder, held)?;
        let manifest = Manifest::read(&folder)?;
        let staging = Staging::open(&folder)?;
        Ok(Self {
            folder,
            staging,
            manifest,
            put: Mutex::default(),
            plain: Mutex::default(),
            missing: Mutex::default(),
            memories: Mutex::default(),
            lock,
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
        let mark = Fingerprint::of(bytes);
        let put = match self.missing_folder(path)? {
            Some(missing) => Put::New(mark, self.staging.within(missing, path, bytes)?),
            None => match self.in_place(path, &mark)? {
                Some(listed) => Put::Kept(listed),
                None => Put::New(mark, self.staging.alone(bytes)?),
            },
        };
        self.insert(path, put)?;
        Ok(mark.hash)
    }

    /// Takes a file that an earlier run wrote for one of this run, where it is still in place with the given contents,
    /// or with any that were written where `hash` is none; whether it is.
    ///
    /// # Errors
    /// As [`Self::put`].
    pub fn keep(&self, path: &str, hash: Option<&Hash>) -> Result<bool, OutputError> {
        let Some(listed) = self.manifest.listed(path) else { return Ok(false) };
        if hash.is_some_and(|hash| *hash != listed.mark.hash) || self.missing_folder(path)?.is_some() {
            return Ok(false);
        }
        match self.in_place(path, &listed.mark)? {
            Some(listed) => self.insert(path, Put::Kept(listed)).map(|()| true),
            None => Ok(false),
        }
    }

    fn insert(&self, path: &str, put: Put) -> Result<(), OutputError> {
        match locked(&self.put).insert(path.into(), put) {
            Some(_) => Err(OutputError::Twice { path: path.into() }),
            None => Ok(()),
        }
    }

    /// The file in place, where it holds what is wanted. One with the length and the very time that it was listed with
    /// is not read: nobody wrote to it since.
    fn in_place(&self, path: &str, wanted: &Fingerprint) -> Result<Option<Listed>, OutputError> {
        let target = self.folder.join(path);
        let Some(data) = found(&target)? else { return Ok(None) };
        let (listed, time) = (self.manifest.listed(path), Time::of(&data));
        let untouched = |listed: &Listed| time.is_some() && listed.time == time;
        let same = data.len() == wanted.bytes
            && match listed.filter(untouched) {
                Some(listed) => listed.mark == *wanted,
                None => present(&target)?.is_some_and(|bytes| Fingerprint::of(&bytes) == *wanted),
            };
        match (same, listed) {
            (true, _) => Ok(Some(Listed { mark: *wanted, time })),
            (false, Some(_)) => Ok(None),
            (false, None) => Err(OutputError::InTheWay { path: target }),
        }
    }

    /// As [`recall`] of this folder.
    ///
    /// # Errors
    /// As [`recall`].
    pub fn recall(&self, name: &str) -> Result<Option<Vec<u8>>, OutputError> {
        recall(&self.folder, name)
    }

    /// Writes bytes for [`Self::recall`], after everything is in place.
    pub fn remember(&self, name: &'static str, bytes: Vec<u8>) {
        locked(&self.memories).insert(name, bytes);
    }

    /// Renames everything into place and removes what earlier runs wrote and this one did not make.
    ///
    /// # Errors
    /// A file cannot be renamed or removed, or the manifest cannot be written; a later run repairs what is half done.
    pub fn finish(mut self) -> Result<Written, OutputError> {
        self.settle(Leftovers::Remove(""))
    }

    /// As [`Self::finish`] for a run that made all of one folder: of what it did not make, only what lies there goes.
    ///
    /// # Errors
    /// As [`Self::finish`].
    pub fn finish_folder(mut self, name: &str) -> Result<Written, OutputError> {
        self.settle(Leftovers::Remove(&format!("{name}/")))
    }

    /// As [`Self::finish`] for a run that made only a part of the output: what it did not make stays.
    ///
    /// # Errors
    /// As [`Self::finish`].
    pub fn finish_part(mut self) -> Result<Written, OutputError> {
        self.settle(Leftovers::Keep)
    }

    /// As [`Self::finish_part`], and the files are the reader's from then on: no list is kept of them.
    ///
    /// # Errors
    /// As [`Self::finish`].
    pub fn hand_over(mut self) -> Result<Written, OutputError> {
        let paths: Vec<String> = locked(&self.put).keys().cloned().collect();
        let written = self.settle(Leftovers::Keep)?;
        for path in &paths {
            self.manifest.forget(path);
        }
        if !self.manifest.is_empty() {
            self.manifest.write(&self.folder, self.staging.folder())?;
            return Ok(written);
        }
        Manifest::remove(&self.folder)?;
        let Self { staging, lock, .. } = self;
        drop(staging);
        lock.remove()?;
        Ok(written)
    }

    fn settle(&mut self, leftovers: Leftovers<'_>) -> Result<Written, OutputError> {
        let put = std::mem::take(&mut *locked(&self.put));
        let stale: Vec<(String, Fingerprint)> = match leftovers {
            Leftovers::Keep => Vec::new(),
            Leftovers::Remove(beginning) => {
                let stale = self.manifest.files().filter(|(path, _)| path.starts_with(beginning));
                let stale = stale.filter(|(path, _)| !put.contains_key(*path));
                stale.map(|(path, listed)| (path.to_owned(), listed.mark)).collect()
            }
        };
        let staged: Vec<(&Staged, &str)> =
            put.iter().filter_map(|(path, put)| Some((put.staged()?, &**path))).collect();
        let mut written = Written { written: staged.len(), unchanged: put.len() - staged.len(), ..Written::default() };
        let mut changed = !staged.is_empty() || !stale.is_empty();
        // Old and new are both listed while files move, so that a run killed here leaves no file that nobody owns.
        for (path, put) in &put {
            let listed = put.listed();
            changed |= self.manifest.listed(path) != Some(listed);
            self.manifest.add(path, listed);
        }
        if changed {
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
            for (path, listed) in self.as_found(&put) {
                self.manifest.add(path, listed);
            }
            self.manifest.write(&self.folder, self.staging.folder())?;
        }
        self.write_memories()?;
        Ok(written)
    }

    /// New files with the time that the file system gave them.
    fn as_found<'p>(&self, put: &'p BTreeMap<String, Put>) -> Vec<(&'p str, Listed)> {
        let found = |(path, put): (&'p String, &Put)| match put {
            Put::Kept(_) => None,
            Put::New(mark, _) => {
                let data = self.folder.join(path).symlink_metadata().ok();
                Some((path.as_str(), Listed { mark: *mark, time: data.as_ref().and_then(Time::of) }))
            }
        };
        put.par_iter().filter_map(found).collect()
    }

    /// Last of all, so that it never tells of files that are not in place.
    fn write_memories(&self) -> Result<(), OutputError> {
        for (name, bytes) in std::mem::take(&mut *locked(&self.memories)) {
            let target = memory(&self.folder, name);
            if present(&target)?.as_deref() != Some(&bytes[..]) {
                let staged = self.staging.folder().join(name);
                write(&staged, &bytes)?;
                place(&staged, &target)?;
            }
        }
        Ok(())
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
    fn remove(&self, path: &str, mark: &Fingerprint) -> Result<bool, OutputError> {
        let target = self.folder.join(path);
        if self.missing_folder(path)?.is_some() {
            return Ok(true);
        }
        let Some(found) = present(&target)? else {
            return Ok(true);
        };
        if Fingerprint::of(&found).hash != mark.hash {
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

impl Put {
    fn staged(&self) -> Option<&Staged> {
        match self {
            Self::Kept(_) => None,
            Self::New(_, staged) => Some(staged),
        }
    }

    /// As it is listed before everything is in place.
    fn listed(&self) -> Listed {
        match self {
            Self::Kept(listed) => *listed,
            Self::New(mark, _) => Listed { mark: *mark, time: None },
        }
    }
}

/// What an earlier run into a folder asked to remember under a name; it may be lost at any time.
///
/// # Errors
/// It is there and cannot be read.
pub fn recall(folder: &Path, name: &str) -> Result<Option<Vec<u8>>, OutputError> {
    present(&memory(folder, name))
}

fn memory(folder: &Path, name: &str) -> PathBuf {
    folder.join(format!(".levelcup-{name}"))
}

#[cfg(test)]
mod tests;
