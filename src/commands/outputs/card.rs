use super::super::CommandError;
use super::super::desk::{Desk, Proofed};
use super::super::writing::RecipeOutput;
use super::{Making, OutputRow};
use crate::render;
use crate::sheet::{Factor, Sheet};
use crate::source::{Finding, Source};
use crate::typeset::{self, CardSize, Flip, Foot, Labels, Layout, Pages};

/// The card to print.
pub(super) const OUTPUT: OutputRow =
    OutputRow { folder: "cards", holds: "a card each, to print", in_archive: true, make: kitchen };

fn kitchen(of: &Making<'_>) -> Result<RecipeOutput, CommandError> {
    let (pdf, missing) = card(of.desk, of.size, CardKind::Kitchen, of.one, of.sheet)?;
    Ok((vec![(format!("cards/{}.pdf", of.sheet.slug), pdf)], missing))
}

/// Which card.
#[derive(Clone, Copy, Debug)]
pub(in crate::commands) enum CardKind<'a> {
    /// Both systems side by side.
    Kitchen,
    /// Weights at these batches.
    Bench(&'a [Factor]),
}

impl CardKind<'_> {
    /// What a file's name has after the recipe's.
    pub(in crate::commands) fn ending(self) -> &'static str {
        match self {
            CardKind::Kitchen => "",
            CardKind::Bench(_) => "-bench",
        }
    }
}

/// A card as PDF, and findings for characters that the typeface lacks.
pub(in crate::commands) fn card(
    desk: &Desk,
    size: CardSize,
    kind: CardKind<'_>,
    one: &Proofed,
    sheet: &Sheet,
) -> Result<(Vec<u8>, Vec<Finding>), CommandError> {
    let layout = layout(desk, size, sheet)?;
    let (pages, findings) = laid_out(desk, &layout, kind, one, sheet)?;
    Ok((typeset::write(&pages, &layout)?, findings))
}

/// A card's pages, and findings for characters that the typeface lacks.
pub(in crate::commands) fn pages(
    desk: &Desk,
    size: CardSize,
    kind: CardKind<'_>,
    one: &Proofed,
    sheet: &Sheet,
) -> Result<(Pages, Vec<Finding>), CommandError> {
    laid_out(desk, &layout(desk, size, sheet)?, kind, one, sheet)
}

/// Cards put together on sheets of paper, as one PDF.
pub(in crate::commands) fn sheets(
    desk: &Desk,
    cards: Vec<Pages>,
    paper: CardSize,
    flip: Flip,
) -> Result<Vec<u8>, CommandError> {
    let layout = plain_layout(desk, paper)?;
    Ok(typeset::write(&typeset::impose(cards, paper, flip)?, &layout)?)
}

fn laid_out(
    desk: &Desk,
    layout: &Layout,
    kind: CardKind<'_>,
    one: &Proofed,
    sheet: &Sheet,
) -> Result<(Pages, Vec<Finding>), CommandError> {
    let site = desk.site();
    let markdown = match kind {
        CardKind::Kitchen => render::card(&desk.environment, site, sheet)?,
        CardKind::Bench(factors) => {
            let bench = one.bench(factors).unwrap_or_default();
            render::bench_card(&desk.environment, site, sheet, &bench)?
        }
    };
    let composed = typeset::compose(&markdown, layout);
    let missing = composed.missing.iter().map(|missing| missing_glyph(&one.source, missing.character));
    Ok((composed.pages, missing.collect()))
}

fn layout(desk: &Desk, size: CardSize, sheet: &Sheet) -> Result<Layout, CommandError> {
    let site = desk.site();
    let date = sheet.updated.as_deref().unwrap_or_default();
    Ok(Layout {
        title: sheet.title.clone(),
        subject: sheet.summary.clone().unwrap_or_default(),
        foot: Foot { source: site.name.clone(), date: desk.environment.language().day(date).unwrap_or_default() },
        link: render::page_url(site, sheet).or_else(|| sheet.video.as_ref().map(|video| video.url.clone())),
        date: date.parse().ok(),
        ..plain_layout(desk, size)?
    })
}

/// What all cards of a workspace have in common.
fn plain_layout(desk: &Desk, size: CardSize) -> Result<Layout, CommandError> {
    let site = desk.site();
    Ok(Layout {
        size,
        accent: site.accent.parse()?,
        language: site.language.clone(),
        title: site.name.clone(),
        author: site.author.clone(),
        subject: String::new(),
        foot: Foot::default(),
        link: None,
        date: None,
        labels: Labels::of(desk.environment.language()),
    })
}

fn missing_glyph(source: &Source, character: char) -> Finding {
    let start = source.text().find(character).unwrap_or_default();
    let message = format!("the card's typeface has no `{character}` (U+{:04X})", character as u32);
    Finding::warning("missing-glyph", start..start + character.len_utf8(), message)
        .label("a lozenge stands in its place on the card")
        .help("write it in another way")
}
