use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{Read, Seek, Write};
use std::path::{Path, PathBuf};

use same_file::Handle;

use super::OutputError;
use super::error::{Action, at};
use super::files::found;

/// File name of the lock, in the output folder.
const NAME: &str = ".levelcup-lock";

/// What a run does where another one holds the folder.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Held {
    /// It fails, and says who holds it.
    #[default]
    Refuse,
    /// It waits until the other has ended.
    Wait,
}

/// An output folder held by this run alone. The system lets it go when the run ends, however it ends.
#[derive(Debug)]
pub(super) struct Lock {
    file: File,
    path: PathBuf,
}

impl Lock {
    /// Takes the folder.
    ///
    /// # Errors
    /// [`OutputError::Held`], a lock that is a link, or a file system without locks.
    pub(super) fn take(folder: &Path, held: Held) -> Result<Self, OutputError> {
        let path = folder.join(NAME);
        loop {
            // A link could lead anywhere, and what it leads to would be written over.
            found(&path)?;
            let open = OpenOptions::new().read(true).write(true).create(true).truncate(false).open(&path);
            let mut lock = Self { file: open.map_err(at(Action::Lock, &path))?, path: path.clone() };
            match lock.file.try_lock() {
                Ok(()) => {}
                Err(TryLockError::Error(error)) => return Err(at(Action::Lock, &path)(error)),
                Err(TryLockError::WouldBlock) if held == Held::Refuse => {
                    return Err(OutputError::Held { path: folder.into(), by: lock.holder() });
                }
                Err(TryLockError::WouldBlock) => lock.file.lock().map_err(at(Action::Lock, &path))?,
            }
            if lock.is_in_place()? {
                lock.sign().map_err(at(Action::Lock, &path))?;
                return Ok(lock);
            }
        }
    }

    /// Takes the lock's file out of a folder that is no output folder any more.
    pub(super) fn remove(self) -> Result<(), OutputError> {
        fs::remove_file(&self.path).map_err(at(Action::Remove, &self.path))
    }

    /// Whether the file is still the folder's lock: the run that held it may have taken it out.
    fn is_in_place(&self) -> Result<bool, OutputError> {
        let Ok(there) = Handle::from_path(&self.path) else { return Ok(false) };
        let own = self.file.try_clone().and_then(Handle::from_file).map_err(at(Action::Lock, &self.path))?;
        Ok(there == own)
    }

    /// Writes down who holds the folder.
    fn sign(&mut self) -> std::io::Result<()> {
        self.file.set_len(0)?;
        self.file.rewind()?;
        write!(self.file, "process {}", std::process::id())
    }

    fn holder(&mut self) -> String {
        let mut text = String::new();
        // Some systems let nobody read what is locked, and a run that has just begun has not signed yet.
        let read = Read::by_ref(&mut self.file).take(64).read_to_string(&mut text);
        let signed = read.is_ok() && text.strip_prefix("process ").is_some_and(|id| id.parse::<u32>().is_ok());
        if signed { text } else { "another run".into() }
    }
}
