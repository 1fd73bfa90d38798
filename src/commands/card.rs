use clap::Args;

use super::desk::Desk;
use super::outputs::CardKind;
use super::settings::Settings;
use super::writing::{self, PrintableTarget};
use super::{CommandError, Outcome, outputs};
use crate::sheet::Factor;
use crate::typeset::{CardSize, Flip};

/// Set the printable card for the kitchen or the bench, as PDF
///
/// To `out/cards/NAME.pdf`; a bench card, with weights first and a column for each batch, to `out/cards/NAME-bench.pdf`;
/// several small cards on sheets to cut to `out/cards/sheets/SIZE-on-PAPER.pdf`.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  levelcup card\n  levelcup card --size 4x6 quay-loaf\n  levelcup card --bench --batch 1,2,4 --size a4\n  levelcup card --size a6 --sheet a4 --flip short\n  levelcup card quay-loaf --stdout > quay-loaf.pdf"
)]
pub(super) struct CardArguments {
    /// Size
    #[arg(long, default_value = "a5", value_name = "SIZE", help = CardSize::names())]
    size: CardSize,
    /// The bench card
    #[arg(long)]
    bench: bool,
    /// Batches on the bench card: numbers or fractions, at most six
    #[arg(long, value_name = "N,N", value_delimiter = ',', default_value = "1,2,4", requires = "bench")]
    batch: Vec<Factor>,
    /// Put small cards together on this paper, with marks to cut along: a4 or letter
    #[arg(long, value_name = "PAPER", value_parser = paper)]
    sheet: Option<CardSize>,
    /// The edge that the printer turns sheets on: long or short
    #[arg(long, value_name = "EDGE", default_value = "long", requires = "sheet")]
    flip: Flip,
    #[command(flatten)]
    target: PrintableTarget,
}

/// More columns of weights leave no room for names on any size.
const MOST_BATCHES: usize = 6;

pub(super) fn run(command: &CardArguments, settings: &Settings) -> Result<Outcome, CommandError> {
    if command.batch.len() > MOST_BATCHES {
        return Err(CommandError::TooManyBatches(MOST_BATCHES));
    }
    let kind = if command.bench { CardKind::Bench(&command.batch) } else { CardKind::Kitchen };
    let desk = Desk::open(settings, &command.target.target.files)?;
    if let Some(paper) = command.sheet {
        let mut proofed = command.target.proofed(&desk)?;
        let (cards, worst) = writing::make_all(&mut proofed, "setting cards", &|one, sheet| {
            let (pages, findings) = outputs::pages(&desk, command.size, kind, one, sheet)?;
            Ok((vec![pages], findings))
        })?;
        let outcome = command.target.target.strictness.outcome(worst);
        if cards.is_empty() {
            return Ok(outcome);
        }
        let path = format!("cards/sheets/{}{}-on-{}.pdf", command.size.name(), kind.ending(), paper.name());
        let files = vec![(path, outputs::sheets(&desk, cards, paper, command.flip)?)];
        writing::deliver(&desk, &command.target, &files)?;
        return Ok(outcome);
    }
    writing::run(&desk, &command.target, "setting cards", |one, sheet| {
        let (pdf, findings) = outputs::card(&desk, command.size, kind, one, sheet)?;
        Ok((vec![(format!("cards/{}{}.pdf", sheet.slug, kind.ending()), pdf)], findings))
    })
}

/// Paper that household and office printers take.
fn paper(name: &str) -> Result<CardSize, String> {
    let paper = name.parse().ok().filter(|size| matches!(size, CardSize::A4 | CardSize::Letter));
    paper.ok_or_else(|| "sheets are a4 or letter".to_owned())
}
