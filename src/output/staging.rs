use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};

use rayon::prelude::*;
use rustc_hash::FxHashSet;

use super::error::{Action, OutputError, at};
use super::files::{place, write};

/// What the names of staging folders begin with; they stand inside the output folder, so that renaming stays on one
/// disk.
const NAME: &str = ".levelcup-new";

/// Where new bytes wait until all are made.
#[derive(Debug)]
pub(super) struct Staging {
    folder: PathBuf,
    count: AtomicUsize,
    /// Folders that were made here.
    made: Mutex<FxHashSet<PathBuf>>,
}

/// A file that waits.
#[derive(Debug)]
pub(super) enum Staged {
    /// On its own.
    Alone(PathBuf),
    /// In a folder that the output does not have yet, and that goes into place as a whole; the folder's path.
    Within(String),
}

impl Staging {
    /// A staging folder of this run alone; those that killed runs left are cleared.
    ///
    /// Only the run that holds the output folder may open one.
    pub(super) fn open(output: &Path) -> Result<Self, OutputError> {
        clear(output)?;
        for number in 0_u32.. {
            let folder = output.join(format!("{NAME}-{}-{number}", std::process::id()));
            match fs::create_dir(&folder) {
                Ok(()) => return Ok(Self { folder, count: AtomicUsize::default(), made: Mutex::default() }),
                // Something of somebody else's, which is left alone.
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {}
                Err(error) => return Err(at(Action::Create, &folder)(error)),
            }
        }
        unreachable!("no folder holds four thousand million files of one beginning")
    }

    pub(super) fn folder(&self) -> &Path {
        &self.folder
    }

    /// Keeps the bytes of a file whose folder is in place.
    pub(super) fn alone(&self, bytes: &[u8]) -> Result<Staged, OutputError> {
        let number = self.count.fetch_add(1, Ordering::Relaxed);
        // A folder for each thread: in one, they would wait for each other at every file.
        let folder = self.folder.join(rayon::current_thread_index().unwrap_or_default().to_string());
        self.make(&folder)?;
        let path = folder.join(number.to_string());
        write(&path, bytes)?;
        Ok(Staged::Alone(path))
    }

    /// Keeps the bytes of a file under its own path, below the first of its folders that the output does not have.
    pub(super) fn within(&self, missing: &str, path: &str, bytes: &[u8]) -> Result<Staged, OutputError> {
        let waiting = self.waiting(path);
        self.make(waiting.parent().unwrap_or(&self.folder))?;
        write(&waiting, bytes)?;
        Ok(Staged::Within(missing.into()))
    }

    /// Puts everything into its place below the output folder.
    pub(super) fn place(&self, staged: &[(&Staged, &str)], output: &Path) -> Result<(), OutputError> {
        let whole: BTreeSet<&str> = staged.iter().filter_map(|(staged, _)| staged.folder()).collect();
        let mut placed = BTreeSet::new();
        for folder in whole {
            let target = output.join(folder);
            match target.symlink_metadata() {
                Err(error) if error.kind() == io::ErrorKind::NotFound => {
                    fs::rename(self.waiting(folder), &target).map_err(at(Action::Rename, &target))?;
                    placed.insert(folder);
                }
                // Somebody made the folder meanwhile: its files go one by one.
                Ok(_) => {}
                Err(error) => return Err(at(Action::Read, &target)(error)),
            }
        }
        staged.par_iter().try_for_each(|(staged, path)| match staged {
            Staged::Alone(waiting) => place(waiting, &output.join(path)),
            Staged::Within(folder) if placed.contains(folder.as_str()) => Ok(()),
            Staged::Within(_) => place(&self.waiting(path), &output.join(path)),
        })
    }

    fn waiting(&self, path: &str) -> PathBuf {
        self.folder.join("whole").join(path)
    }

    fn make(&self, folder: &Path) -> Result<(), OutputError> {
        if !locked(&self.made).contains(folder) {
            fs::create_dir_all(folder).map_err(at(Action::Create, folder))?;
            locked(&self.made).insert(folder.into());
        }
        Ok(())
    }
}

impl Staged {
    fn folder(&self) -> Option<&str> {
        match self {
            Staged::Alone(_) => None,
            Staged::Within(folder) => Some(folder),
        }
    }
}

/// Removes the staging folders of runs that were killed. What is no folder was not made here, and stays.
fn clear(output: &Path) -> Result<(), OutputError> {
    for entry in fs::read_dir(output).map_err(at(Action::Read, output))? {
        let entry = entry.map_err(at(Action::Read, output))?;
        let staging = entry.file_name().to_string_lossy().starts_with(NAME);
        if staging && entry.file_type().is_ok_and(|kind| kind.is_dir()) {
            fs::remove_dir_all(entry.path()).map_err(at(Action::Remove, &entry.path()))?;
        }
    }
    Ok(())
}

impl Drop for Staging {
    fn drop(&mut self) {
        // What cannot be cleared now is cleared by the next run.
        let _ = fs::remove_dir_all(&self.folder);
    }
}

/// What one thread puts is whole even where another one panicked.
pub(super) fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
