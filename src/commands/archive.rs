use std::path::{Path, PathBuf};

use clap::Args;

use super::desk::{Desk, show};
use super::{CommandError, Outcome, outputs, writing};
use crate::output::Output;

/// Build the archive site of all recipes
///
/// To `out/archive/`; it works from disk, from any folder of a host, and behind a server. Always of every recipe.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  levelcup archive\n  levelcup archive --out public")]
pub(super) struct Archive {
    /// The folder for outputs instead of `out/` in the workspace
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
}

pub(super) fn run(command: &Archive, folder: &Path) -> Result<Outcome, CommandError> {
    let desk = Desk::open(folder, &[])?;
    let proofed = desk.proofed(&[])?;
    let found = show(proofed.iter().flat_map(|one| one.findings.iter().map(|finding| (&one.source, finding))))?;
    let folder = desk.out(command.out.as_deref());
    let mut output = Output::open(&folder)?;
    for (path, bytes) in outputs::archive(&desk, &proofed, false)? {
        output.put(&format!("archive/{path}"), &bytes)?;
    }
    writing::say(output.finish_part()?, &folder)?;
    Ok(Outcome::found(found))
}
