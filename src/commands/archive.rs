use std::collections::BTreeSet;
use std::io::Write;
use std::path::{Path, PathBuf};

use clap::Args;

use super::desk::{Desk, show};
use super::settings::Settings;
use super::{CommandError, Outcome, edition, writing};
use crate::archive;
use crate::output::Output;

/// Build the archive site of all recipes
///
/// To `out/archive/`; it works from disk, from any folder of a host, and behind a server. Always of every recipe.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  levelcup archive\n  levelcup archive --out public\n  levelcup archive --check")]
pub(super) struct Archive {
    /// The folder for outputs instead of `out/` in the workspace
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Build nothing; follow every link, anchor and picture of the built archive
    #[arg(long)]
    check: bool,
}

pub(super) fn run(command: &Archive, settings: &Settings) -> Result<Outcome, CommandError> {
    let desk = Desk::open(settings, &[])?;
    let folder = desk.out(command.out.as_deref());
    if command.check {
        return check(&desk, &folder.join("archive"));
    }
    let output = Output::open(&folder)?;
    let recipes = edition::archive(&desk, &output, &BTreeSet::new())?;
    let found = show(recipes.iter().flat_map(|(source, findings)| findings.iter().map(move |one| (source, one))))?;
    writing::say(output.finish_folder("archive")?, &folder)?;
    Ok(Outcome::found(found))
}

fn check(desk: &Desk, folder: &Path) -> Result<Outcome, CommandError> {
    let root = archive::root_path(desk.site().url.trim());
    let cause = |cause| CommandError::File { path: folder.into(), cause };
    let checked = archive::check(folder, &root).map_err(cause)?;
    let mut err = anstream::stderr().lock();
    for broken in &checked.broken {
        writeln!(err, "{}: `{}` leads nowhere", broken.page, broken.address)?;
    }
    let (pages, addresses, broken) = (checked.pages, checked.addresses, checked.broken.len());
    writeln!(err, "{pages} pages, {addresses} addresses, {broken} of them broken")?;
    Ok(Outcome::found(broken > 0))
}
