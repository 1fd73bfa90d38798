use std::path::Path;

use clap::Args;

use super::desk::Desk;
use super::outputs::Kind;
use super::writing::{self, PrintableTarget};
use super::{CommandError, Outcome, outputs};
use crate::sheet::Factor;
use crate::typeset::CardSize;

/// Set the printable card for the kitchen or the bench, as PDF
///
/// To `out/cards/NAME.pdf`; a bench card, with weights first and a column for each batch, to `out/cards/NAME-bench.pdf`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  levelcup card\n  levelcup card --size 4x6 quay-loaf\n  levelcup card --bench --batch 1,2,4 --size a4\n  levelcup card quay-loaf --stdout > quay-loaf.pdf"
)]
pub(super) struct Card {
    /// 4x6, 5x8, a6, a5, half-letter, letter or a4
    #[arg(long, default_value = "a5", value_name = "SIZE")]
    size: CardSize,
    /// The bench card
    #[arg(long)]
    bench: bool,
    /// Batches on the bench card: numbers or fractions, at most six
    #[arg(long, value_name = "N,N", value_delimiter = ',', default_value = "1,2,4", requires = "bench")]
    batch: Vec<Factor>,
    #[command(flatten)]
    target: PrintableTarget,
}

/// More columns of weights leave no room for names on any size.
const MOST_BATCHES: usize = 6;

pub(super) fn run(command: &Card, folder: &Path) -> Result<Outcome, CommandError> {
    if command.batch.len() > MOST_BATCHES {
        return Err(CommandError::TooManyBatches(MOST_BATCHES));
    }
    let kind = if command.bench { Kind::Bench(&command.batch) } else { Kind::Kitchen };
    let desk = Desk::open(folder, &command.target.target.files)?;
    writing::run(&desk, &command.target, "setting cards", |recipe, sheet| {
        let (pdf, findings) = outputs::card(&desk, command.size, kind, recipe, sheet)?;
        Ok((vec![(format!("cards/{}{}.pdf", sheet.slug, kind.ending()), pdf)], findings))
    })
}
