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

use clap::{Parser, Subcommand};

pub use error::CommandError;
use settings::Settings;

/// One recipe file, written by weight, becomes everything that goes out.
#[derive(Debug, Parser)]
#[command(name = "levelcup", version, propagate_version = true, max_term_width = 100)]
pub struct Arguments {
    #[command(flatten)]
    settings: Settings,
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
    let settings = &arguments.settings;
    match arguments.command {
        Command::Start(command) => start::run(&command, settings),
        Command::Proof(command) => proof::run(&command, settings),
        Command::Weigh(command) => weigh::run(&command, settings),
        Command::Pantry(command) => pantry::run(&command, settings),
        Command::Describe(command) => describe::run(&command, settings),
        Command::Post(command) => post::run(&command, settings),
        Command::Card(command) => card::run(&command, settings),
        Command::Archive(command) => archive::run(&command, settings),
        Command::Publish(command) => publish::run(&command, settings),
    }
}
