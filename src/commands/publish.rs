use std::io::Write;
use std::path::Path;

use clap::Args;

use super::desk::{Desk, Proofed, show};
use super::edition::{self, Built, FileFindings, More};
use super::ledger::album;
use super::outputs::{Making, ROWS, named};
use super::screen::stderr;
use super::settings::Settings;
use super::writing::{self, Target};
use super::{CommandError, Outcome};
use crate::sheet::Sheet;
use crate::source::Level;
use crate::typeset::CardSize;

/// Proof every recipe, then make everything that goes out
///
/// All outputs and the archive.
#[derive(Debug, Args)]
#[command(long_about = about(), after_help = "Examples:\n  levelcup publish\n  levelcup publish --size letter --out public")]
pub(super) struct PublishArguments {
    /// Size of the cards
    #[arg(long, default_value = "a5", value_name = "SIZE", help = format!("Size of the cards: {}", CardSize::names()))]
    size: CardSize,
    #[command(flatten)]
    target: Target,
}

/// The help, which names every output.
fn about() -> String {
    format!(
        "Proof every recipe, then make everything that goes out\n\nThat is {} and the archive. Nothing is written from a \
         recipe with an error; what an earlier run made of it stays. Bench cards and sheets of earlier runs go, since they \
         may be out of date: make them afterwards",
        named()
    )
}

pub(super) fn run(command: &PublishArguments, settings: &Settings) -> Result<Outcome, CommandError> {
    let mut desk = Desk::open(settings, &command.target.files)?;
    let output = command.target.destination.open(&desk)?;
    let folder = command.target.destination.folder(&desk);
    desk.printing(album(&folder));
    let wanted = desk.workspace().recipes(&command.target.files)?.into_iter().map(|file| file.slug).collect();
    let make = |one: &Proofed, sheet: &Sheet| {
        let (files, missing) = files(&Making { desk: &desk, one, sheet, size: command.size })?;
        files.iter().try_for_each(|(path, bytes)| output.put(path, bytes).map(drop))?;
        Ok((missing, Some(format!("cards/{}.pdf", sheet.slug))))
    };
    let whole = command.target.files.is_empty();
    let more = More { of: (!whole).then_some(wanted), make: &make };
    let Built { found, changes } = edition::archive(&desk, &output, Some(&more))?;
    let worst = show(found.iter().flat_map(|(source, findings)| findings.iter().map(move |one| (source, one))))?;
    // What a faulty recipe gave before stays in place.
    let complete = whole && worst < Some(Level::Error);
    let written = if complete { output.finish()? } else { output.finish_folder("archive")? };
    writing::say_changes(&changes)?;
    writing::say(written, &folder)?;
    if whole {
        lead(&folder, &found)?;
    }
    Ok(command.target.strictness.outcome(worst))
}

/// Says what was made of how many recipes, and what to open first.
fn lead(folder: &Path, found: &[FileFindings]) -> Result<(), CommandError> {
    let held = |(_, findings): &&FileFindings| findings.iter().any(|finding| finding.level == Level::Error);
    let back = found.iter().filter(held).count();
    let count = found.len() - back;
    let mut err = stderr();
    let held = if back > 0 { format!("; {back} held back by what is said above") } else { String::new() };
    writeln!(err, "{count} {}{held}", if count == 1 { "recipe is out" } else { "recipes are out" })?;
    let folder = writing::shown(folder).display();
    writeln!(err, "  {folder}/archive/index.html  the site: open it first")?;
    for row in ROWS {
        writeln!(err, "  {folder}/{:<19} {}", format!("{}/", row.folder), row.holds)?;
    }
    Ok(())
}

/// What goes out of a recipe beside its page, and what was found on the way.
fn files(of: &Making<'_>) -> Result<writing::RecipeOutput, CommandError> {
    let (mut files, mut found) = (Vec::new(), Vec::new());
    for row in ROWS {
        let (made, findings) = (row.make)(of)?;
        found.extend(findings);
        if row.in_archive {
            files.extend(made.iter().map(|(path, bytes)| (format!("archive/{path}"), bytes.clone())));
        }
        files.extend(made);
    }
    Ok((files, found))
}
