use clap::Args;

use super::desk::Desk;
use super::settings::Settings;
use super::writing::{self, Target};
use super::{CommandError, Outcome, edition, outputs, post};
use crate::output::Output;
use crate::typeset::CardSize;

/// Proof every recipe, then make everything that goes out
///
/// Descriptions, posts, cards and the archive. Nothing is written from a recipe with an error; what an earlier run
/// made of it stays. Bench cards and sheets of earlier runs go, since they may be out of date: make them afterwards.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  levelcup publish\n  levelcup publish --size letter --out public")]
pub(super) struct Publish {
    /// Size of the cards: 4x6, 5x8, a6, a5, half-letter, letter or a4
    #[arg(long, default_value = "a5", value_name = "SIZE")]
    size: CardSize,
    #[command(flatten)]
    target: Target,
}

pub(super) fn run(command: &Publish, settings: &Settings) -> Result<Outcome, CommandError> {
    let desk = Desk::open(settings, &command.target.files)?;
    let proofed = desk.proofed(&command.target.files)?;
    let (files, found) = writing::make_all(&proofed, "publishing", &|recipe, sheet| {
        let text = outputs::description(&desk, sheet)?;
        let (pdf, missing) = outputs::card(&desk, command.size, outputs::Kind::Kitchen, recipe, sheet)?;
        let mut files = post::posts(&desk, sheet)?;
        files.push((format!("descriptions/{}.txt", sheet.slug), text.into_bytes()));
        files.push((format!("cards/{}.pdf", sheet.slug), pdf.clone()));
        files.push((format!("archive/cards/{}.pdf", sheet.slug), pdf));
        Ok((files, missing))
    })?;
    let whole = command.target.files.is_empty();
    let folder = desk.out(command.target.out.as_deref());
    let output = Output::open(&folder)?;
    for (path, bytes) in &files {
        output.put(path, bytes)?;
    }
    let carded = proofed.iter().filter_map(|one| one.recipe.as_ref()).map(|(recipe, _)| recipe.slug.clone()).collect();
    edition::archive(&desk, &output, &carded)?;
    // What a faulty recipe gave before stays in place.
    let complete = whole && proofed.iter().all(|one| one.recipe.is_some());
    let written = if complete { output.finish()? } else { output.finish_folder("archive")? };
    writing::say(written, &folder)?;
    Ok(Outcome::found(found))
}
