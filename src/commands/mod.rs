//! One file a command: parse its arguments, call the library, print.

mod error;
mod proof;
mod weigh;

use std::path::PathBuf;

use clap::{Parser, Subcommand};

pub use error::CommandError;

/// One recipe file, written by weight, becomes everything that goes out.
#[derive(Debug, Parser)]
#[command(name = "levelcup", version, propagate_version = true, max_term_width = 100)]
pub struct Arguments {
    /// The workspace: the folder that holds `recipes/`
    #[arg(long, global = true, value_name = "DIR", default_value = ".", hide_default_value = true)]
    workspace: PathBuf,
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    Proof(proof::Proof),
    Weigh(weigh::Weigh),
}

/// How a command ended that could run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Nothing to report.
    Clean,
    /// There are findings.
    Findings,
}

impl Outcome {
    fn found(any: bool) -> Self {
        if any { Outcome::Findings } else { Outcome::Clean }
    }
}

/// Runs the command that the arguments name.
///
/// # Errors
/// [`CommandError`] when it could not run: a workspace, file, template or folder that cannot be used.
pub fn run(arguments: Arguments) -> Result<Outcome, CommandError> {
    let folder = &arguments.workspace;
    match arguments.command {
        Command::Proof(command) => proof::run(&command, folder),
        Command::Weigh(command) => weigh::run(&command, folder),
    }
}
