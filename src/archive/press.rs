use std::collections::BTreeMap;
use std::sync::{Mutex, MutexGuard, PoisonError};

use super::ArchiveError;
use super::memory::Made;
use super::page::ArchiveFile;
use crate::output::Output;
use crate::trace::Key;

/// Where files go, what the last build made, and what this one has.
pub(super) struct Press<'a> {
    output: &'a Output,
    folder: &'a str,
    earlier: BTreeMap<String, Made>,
    made: Mutex<BTreeMap<String, Made>>,
}

impl<'a> Press<'a> {
    pub(super) fn new(output: &'a Output, folder: &'a str, earlier: BTreeMap<String, Made>) -> Self {
        Self { output, folder, earlier, made: Mutex::default() }
    }

    /// The files of the last build.
    pub(super) fn earlier(&self) -> &BTreeMap<String, Made> {
        &self.earlier
    }

    /// The files of this build.
    pub(super) fn made(self) -> BTreeMap<String, Made> {
        self.made.into_inner().unwrap_or_else(PoisonError::into_inner)
    }

    /// Whether this build has a file already.
    pub(super) fn has(&self, path: &str) -> bool {
        self.noted().contains_key(path)
    }

    /// Takes a file of the last build, where it was made from the same and is still in place; whether it is.
    pub(super) fn keep(&self, path: &str, key: Key) -> Result<bool, ArchiveError> {
        let Some(made) = self.earlier.get(path).filter(|made| made.key == key) else { return Ok(false) };
        let kept = self.output.keep(&self.inside(path), Some(&made.hash))?;
        if kept {
            self.noted().insert(path.into(), *made);
        }
        Ok(kept)
    }

    /// Takes a file of an earlier build, whatever it was made from; whether there is one.
    pub(super) fn leave(&self, path: &str) -> Result<bool, ArchiveError> {
        let kept = self.output.keep(&self.inside(path), None)?;
        if let Some(made) = self.earlier.get(path).filter(|_| kept) {
            self.noted().insert(path.into(), *made);
        }
        Ok(kept)
    }

    /// Puts a file that was made.
    pub(super) fn put(&self, path: &str, key: Key, bytes: &[u8]) -> Result<(), ArchiveError> {
        let hash = self.output.put(&self.inside(path), bytes)?;
        self.noted().insert(path.into(), Made { key, hash });
        Ok(())
    }

    /// Keeps a page, or makes and puts it.
    pub(super) fn file(&self, page: &ArchiveFile<'_>) -> Result<(), ArchiveError> {
        if self.keep(&page.path, page.key)? {
            return Ok(());
        }
        self.put(&page.path, page.key, &(page.make)()?)
    }

    fn inside(&self, path: &str) -> String {
        format!("{}/{path}", self.folder)
    }

    fn noted(&self) -> MutexGuard<'_, BTreeMap<String, Made>> {
        self.made.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
