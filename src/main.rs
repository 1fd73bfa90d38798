//! The levelcup program: call a command, exit 0 done, 1 something held back, 2 could not run.

use std::process::ExitCode;

use mimalloc::MiMalloc;

/// A recipe is many small texts, made on one thread and dropped on another, which the usual allocators are slow at.
#[global_allocator]
static ALLOCATOR: MiMalloc = MiMalloc;

fn main() -> ExitCode {
    levelcup::commands::main(std::env::args_os().collect())
}
