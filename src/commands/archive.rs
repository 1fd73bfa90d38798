use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use clap::Args;

use super::desk::{Desk, show};
use super::{CommandError, Outcome, edition, writing};
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
    let folder = desk.out(command.out.as_deref());
    let output = Output::open(&folder)?;
    let recipes = edition::archive(&desk, &output, &BTreeSet::new())?;
    let found = show(recipes.iter().flat_map(|(source, findings)| findings.iter().map(move |one| (source, one))))?;
    writing::say(output.finish_folder("archive")?, &folder)?;
    Ok(Outcome::found(found))
}
