use std::path::PathBuf;

use crate::archive::ArchiveError;
use crate::kitchen::KitchenError;
use crate::output::OutputError;
use crate::render::TemplateError;
use crate::typeset::TypesetError;
use crate::workspace::{Faulty, WorkspaceError};

/// Why a command could not run.
#[derive(Debug, thiserror::Error)]
pub enum CommandError {
    /// The workspace cannot be used.
    #[error(transparent)]
    Workspace(#[from] WorkspaceError),
    /// A template is wrong.
    #[error("template {0}")]
    Template(#[from] TemplateError),
    /// A card cannot be set.
    #[error(transparent)]
    Typeset(#[from] TypesetError),
    /// The archive cannot be composed.
    #[error(transparent)]
    Archive(#[from] ArchiveError),
    /// The outputs cannot be written.
    #[error(transparent)]
    Output(#[from] OutputError),
    /// A file of the workspace cannot be used.
    #[error("cannot use `{path}`: {cause}")]
    File {
        /// Which.
        path: PathBuf,
        /// Why.
        cause: std::io::Error,
    },
    /// A setting of the command line that does not go with those of the site.
    #[error(transparent)]
    Kitchen(#[from] KitchenError),
    /// Settings, and nothing to do with them.
    #[error("no command is named; `levelcup --help` lists them")]
    NoCommand,
    /// Nothing to explain.
    #[error("no rule is called `{0}`; `levelcup proof --explain` lists them")]
    NoSuchRule(String),
    /// `--stdout` with none or several recipes.
    #[error("`--stdout` prints the output of one recipe; name one FILE")]
    OneFileForStdout,
    /// More batches than a card has room for.
    #[error("a bench card has room for {0} batches")]
    TooManyBatches(usize),
    /// A new workspace would overwrite something.
    #[error("`{0}` holds a workspace already; nothing was changed")]
    NotEmpty(PathBuf),
    /// Standard input or output failed.
    #[error("standard input or output: {0}")]
    Stream(#[from] std::io::Error),
}

impl CommandError {
    /// The files of the workspace that have to be mended first.
    pub fn faulty(&self) -> &[Faulty] {
        match self {
            CommandError::Workspace(WorkspaceError::Faulty(files)) => files,
            _ => &[],
        }
    }

    /// Whether the reader of our output went away, which is no fault.
    pub fn is_broken_pipe(&self) -> bool {
        matches!(self, CommandError::Stream(error) if error.kind() == std::io::ErrorKind::BrokenPipe)
    }
}
