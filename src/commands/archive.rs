use std::io::Write;
use std::path::Path;

use clap::Args;

use super::desk::{Desk, show};
use super::edition::{self, Built};
use super::ledger::album;
use super::screen::stderr;
use super::settings::Settings;
use super::strictness::Strictness;
use super::writing::{self, Destination};
use super::{CommandError, Outcome};
use crate::{archive, output};

/// Build the archive site of all recipes
///
/// To `out/archive/`; it works from disk, from any folder of a host, and behind a server. Always of every recipe.
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  levelcup archive\n  levelcup archive --out public\n  levelcup archive --check")]
pub(super) struct ArchiveArguments {
    #[command(flatten)]
    destination: Destination,
    #[command(flatten)]
    strictness: Strictness,
    /// Build nothing; follow every link, anchor and picture of the built archive, and compare every file with what was
    /// written
    #[arg(long)]
    check: bool,
}

pub(super) fn run(command: &ArchiveArguments, settings: &Settings) -> Result<Outcome, CommandError> {
    let mut desk = Desk::open(settings, &[])?;
    let folder = command.destination.folder(&desk);
    if command.check {
        return check(&desk, &folder);
    }
    let output = command.destination.open(&desk)?;
    desk.printing(album(&folder));
    let Built { found, changes } = edition::archive(&desk, &output, None)?;
    let worst = show(found.iter().flat_map(|(source, findings)| findings.iter().map(move |one| (source, one))))?;
    writing::say_changes(&changes)?;
    writing::say(output.finish_folder(FOLDER)?, &folder)?;
    Ok(command.strictness.outcome(worst))
}

/// The archive's folder in that of the outputs.
const FOLDER: &str = "archive";

fn check(desk: &Desk, out: &Path) -> Result<Outcome, CommandError> {
    let folder = out.join(FOLDER);
    let root = archive::root_path(desk.site().url.trim());
    let cause = |cause| CommandError::File { path: folder.clone(), cause };
    let differing = output::compare(out, &format!("{FOLDER}/"))?;
    let checked = archive::check(&folder, &root).map_err(cause)?;
    let mut err = stderr();
    for broken in &checked.broken {
        writeln!(err, "{}: `{}` leads nowhere", broken.page, broken.address)?;
    }
    for file in &differing {
        let what = if file.missing { "is missing" } else { "is not as it was written" };
        writeln!(
            err,
            "{}: {what}",
            file.path.strip_prefix(FOLDER).map_or(&*file.path, |path| path.trim_start_matches('/'))
        )?;
    }
    for path in output::strangers(out, FOLDER)? {
        writeln!(err, "{path}: levelcup has not listed this page; remove it, unless it is your own")?;
    }
    let (pages, addresses, broken) = (checked.pages, checked.addresses, checked.broken.len());
    write!(err, "{pages} pages, {addresses} addresses, {broken} of them broken; ")?;
    match differing.len() {
        0 => writeln!(err, "every file is as it was written")?,
        1 => writeln!(err, "1 file is not as it was written; build the archive again to mend it")?,
        count => writeln!(err, "{count} files are not as they were written; build the archive again to mend them")?,
    }
    Ok(Outcome::held_back(broken + differing.len() > 0))
}
