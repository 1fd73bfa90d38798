//! One file a command: parse its arguments, call the library, print.

mod archive;
mod card;
mod describe;
mod desk;
mod edition;
mod error;
mod inspector;
mod ledger;
mod outputs;
mod pantry;
mod post;
mod proof;
mod publish;
mod settings;
mod start;
mod weigh;
mod writing;

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
    Start(start::Start),
    Proof(proof::Proof),
    Weigh(weigh::Weigh),
    Pantry(pantry::Pantry),
    Describe(describe::Describe),
    Post(post::Post),
    Card(card::Card),
    Archive(archive::Archive),
    Publish(publish::Publish),
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
        Command::Start(command) => start::run(&command),
        Command::Proof(command) => proof::run(&command, folder),
        Command::Weigh(command) => weigh::run(&command, folder),
        Command::Pantry(command) => pantry::run(&command, folder),
        Command::Describe(command) => describe::run(&command, folder),
        Command::Post(command) => post::run(&command, folder),
        Command::Card(command) => card::run(&command, folder),
        Command::Archive(command) => archive::run(&command, folder),
        Command::Publish(command) => publish::run(&command, folder),
    }
}
