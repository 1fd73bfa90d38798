//! The levelcup program: parse arguments, call a command, print one error, exit 0 done, 1 something held back, 2 could not run.

use std::process::ExitCode;

use clap::Parser;
use levelcup::commands::{Arguments, Outcome, run};
use mimalloc::MiMalloc;

/// A recipe is many small texts, made on one thread and dropped on another, which the usual allocators are slow at.
#[global_allocator]
static ALLOCATOR: MiMalloc = MiMalloc;

fn main() -> ExitCode {
    match run(Arguments::parse()) {
        Ok(Outcome::Done) => ExitCode::SUCCESS,
        Ok(Outcome::HeldBack) => ExitCode::from(1),
        Err(error) if error.is_broken_pipe() => ExitCode::SUCCESS,
        Err(error) => {
            anstream::eprintln!("levelcup: {error}");
            ExitCode::from(2)
        }
    }
}
