use std::fmt;
use std::io;
use std::path::{Path, PathBuf};

use thiserror::Error;

/// Why output could not be written.
#[derive(Debug, Error)]
pub enum OutputError {
    /// A file that was read is not what it was.
    #[error("`{path}` was changed by somebody else meanwhile; nothing was written to it")]
    Changed {
        /// The file.
        path: PathBuf,
    },
    /// The file system refused.
    #[error("cannot {action} `{}`: {source}", path.display())]
    Io {
        /// What was tried.
        action: Action,
        /// On what.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// A path that is absolute, climbs, or uses a name kept for levelcup or forbidden on some system.
    #[error("`{path}` is not a path inside the output folder")]
    Outside {
        /// As given.
        path: String,
    },
    /// Another run writes into the folder.
    #[error(
        "{by} of levelcup is writing into `{}`: wait until it has ended, or run this with `--wait`",
        path.display()
    )]
    Held {
        /// The output folder.
        path: PathBuf,
        /// Who holds it: `process 4711`.
        by: String,
    },
    /// Nothing is listed as written.
    #[error("nothing is recorded as written into `{}`: build the archive first; what stands there cannot be compared", path.display())]
    Unrecorded {
        /// The output folder.
        path: PathBuf,
    },
    /// Two files of one run have the same path.
    #[error("two files would both be written to `{path}`")]
    Twice {
        /// As given.
        path: String,
    },
    /// Something stands there that levelcup did not write.
    #[error("`{}` is in the way: levelcup did not write it and leaves it alone; move it or choose another folder", path.display())]
    InTheWay {
        /// What is in the way.
        path: PathBuf,
    },
    /// A symbolic link, which may lead out of the folder.
    #[error("`{}` is a symbolic link, which may lead out of the output folder; remove it or choose another folder", path.display())]
    Linked {
        /// The link.
        path: PathBuf,
    },
    /// The list of written files cannot be understood.
    #[error("`{}` is not a list of files that levelcup wrote: {reason}; remove it if the folder may be written afresh", path.display())]
    Manifest {
        /// The list.
        path: PathBuf,
        /// What is wrong with it.
        reason: String,
    },
}

/// What was tried on a file or folder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Action {
    /// Make a folder.
    Create,
    /// Keep other runs out.
    Lock,
    /// Read a file.
    Read,
    /// Write a file.
    Write,
    /// Move a file into place.
    Rename,
    /// Remove a file or folder.
    Remove,
}

impl fmt::Display for Action {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(match self {
            Self::Create => "create",
            Self::Lock => "lock",
            Self::Read => "read",
            Self::Write => "write",
            Self::Rename => "move a new file to",
            Self::Remove => "remove",
        })
    }
}

/// Adds the place to what the system said.
pub(super) fn at(action: Action, path: &Path) -> impl FnOnce(io::Error) -> OutputError {
    move |source| OutputError::Io { action, path: path.into(), source }
}
