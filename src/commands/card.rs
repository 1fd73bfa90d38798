use std::path::Path;

use clap::Args;

use super::desk::Desk;
use super::writing::{self, PrintableTarget};
use super::{CommandError, Outcome, outputs};
use crate::typeset::CardSize;

/// Set the printable card for the kitchen, as PDF
///
/// To `out/cards/NAME.pdf`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  levelcup card\n  levelcup card --size 4x6 quay-loaf\n  levelcup card quay-loaf --stdout > quay-loaf.pdf"
)]
pub(super) struct Card {
    /// 4x6, 5x8, a6, a5, half-letter, letter or a4
    #[arg(long, default_value = "a5", value_name = "SIZE")]
    size: CardSize,
    #[command(flatten)]
    target: PrintableTarget,
}

pub(super) fn run(command: &Card, folder: &Path) -> Result<Outcome, CommandError> {
    let desk = Desk::open(folder, &command.target.target.files)?;
    writing::run(&desk, &command.target, "setting cards", |recipe, sheet| {
        let (pdf, findings) = outputs::card(&desk, command.size, recipe, sheet)?;
        Ok((vec![(format!("cards/{}.pdf", sheet.slug), pdf)], findings))
    })
}
