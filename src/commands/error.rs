use crate::workspace::WorkspaceError;

/// Why a command could not run.
#[derive(Debug, thiserror::Error)]
pub enum CommandError {
    /// The workspace cannot be used.
    #[error(transparent)]
    Workspace(#[from] WorkspaceError),
    /// Standard input or output failed.
    #[error("standard input or output: {0}")]
    Stream(#[from] std::io::Error),
}

impl CommandError {
    /// Whether the reader of our output went away, which is no fault.
    pub fn is_broken_pipe(&self) -> bool {
        matches!(self, CommandError::Stream(error) if error.kind() == std::io::ErrorKind::BrokenPipe)
    }
}
