//! One file a command: parse its arguments, call the library, print.

mod answers;
mod archive;
mod card;
mod describe;
mod desk;
mod edition;
mod error;
mod ledger;
mod outputs;
mod pantry;
mod post;
mod proof;
mod publish;
mod screen;
mod settings;
mod start;
mod strictness;
mod weigh;
mod writing;

use std::ffi::OsString;
use std::io::Write;
use std::process::ExitCode;

use clap::{Parser, Subcommand};

use crate::source::{Level, shown};
use screen::complain;

pub use error::CommandError;
use settings::Settings;

/// One recipe file, written by weight, becomes everything that goes out.
#[derive(Debug, Parser)]
#[command(
    name = "levelcup",
    version,
    propagate_version = true,
    arg_required_else_help = true,
    max_term_width = 100,
    after_help = "Exit codes: 0 done, with or without warnings; 1 something was held back by an error, could not be read \
                  or was not found; 2 could not run. `proof` exits 1 for warnings too."
)]
struct Arguments {
    #[command(flatten)]
    settings: Settings,
    /// Print the licences of all that the program is built of
    #[arg(long, exclusive = true)]
    licences: bool,
    #[command(subcommand)]
    command: Option<Command>,
}

/// Of all that is linked, on every platform; a test holds it against what cargo links.
const NOTICES: &str = include_str!("notices.txt");

#[derive(Debug, Subcommand)]
enum Command {
    Start(start::StartArguments),
    Proof(proof::ProofArguments),
    Weigh(weigh::WeighArguments),
    Pantry(pantry::PantryArguments),
    Describe(describe::DescribeArguments),
    Post(post::PostArguments),
    Card(card::CardArguments),
    Archive(archive::ArchiveArguments),
    Publish(publish::PublishArguments),
}

/// How a command ended that could run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Outcome {
    /// It did what was asked, with or without a word of warning.
    Done,
    /// Something was held back by an error, could not be read or was not found.
    HeldBack,
}

impl Outcome {
    fn held_back(any: bool) -> Self {
        if any { Outcome::HeldBack } else { Outcome::Done }
    }

    /// By the worst finding; held back where that is as bad as `least`, or worse.
    fn of(worst: Option<Level>, least: Level) -> Self {
        Self::held_back(worst.is_some_and(|worst| worst >= least))
    }
}

/// Runs the command that the arguments name, the program's own name first among them, and says how it ended.
pub fn main(arguments: Vec<OsString>) -> ExitCode {
    let arguments = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(answer) => return answered(&answer),
    };
    match run(arguments) {
        Ok(Outcome::Done) => ExitCode::SUCCESS,
        Ok(Outcome::HeldBack) => ExitCode::from(1),
        Err(error) if error.is_broken_pipe() => ExitCode::SUCCESS,
        Err(error) => {
            screen::draw(error.faulty());
            complain(&error.to_string());
            ExitCode::from(2)
        }
    }
}

/// Prints help, or what is wrong with the arguments, which may hold the names of files.
fn answered(answer: &clap::Error) -> ExitCode {
    let said = answer.render().to_string();
    if shown(&said) == said {
        // Nothing can be done where standard error is gone.
        let _ = answer.print();
    } else {
        complain(&said);
    }
    if answer.use_stderr() { ExitCode::from(2) } else { ExitCode::SUCCESS }
}

/// # Errors
/// [`CommandError`] when it could not run: a workspace, file, template or folder that cannot be used.
fn run(arguments: Arguments) -> Result<Outcome, CommandError> {
    let settings = &arguments.settings;
    let Some(command) = arguments.command else {
        if !arguments.licences {
            return Err(CommandError::NoCommand);
        }
        let mut out = screen::stdout();
        out.write_all(NOTICES.as_bytes())?;
        out.flush()?;
        return Ok(Outcome::Done);
    };
    match command {
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
