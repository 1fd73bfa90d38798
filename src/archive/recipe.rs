use serde::Serialize;
use tera::Context;

use super::cover::Cover;
use super::frame::{Framer, Head, is_web_address};
use super::{ArchiveError, File, Material, dates};
use crate::sheet::Sheet;

/// Size of the cover on the recipe's own page, in the drawing's own units.
const COVER: (u32, u32) = (480, 400);

/// What the page shows beside the sheet.
#[derive(Serialize)]
struct Extras<'a> {
    cover: Option<Cover>,
    /// Address of the card, ready for a link.
    card: Option<String>,
    published_text: Option<String>,
    /// Dates of the corrections for reading, in the sheet's order.
    corrected_text: Vec<String>,
    /// Whether every line's measures come from the author, so that there is nothing to account for.
    sourced: bool,
    summary: &'a str,
}

/// The page of a recipe.
pub(super) fn page(framer: &Framer<'_>, material: &Material<'_>, sheet: &Sheet) -> Result<File, ArchiveError> {
    let shown = with_safe_links(sheet);
    let extras = Extras {
        cover: Cover::draw(sheet, COVER.0, COVER.1),
        card: material.cards.get(&sheet.slug).map(|card| card_address(card)),
        published_text: sheet.published.as_deref().map(dates::for_reading),
        corrected_text: sheet.corrections.iter().map(|correction| dates::for_reading(&correction.on)).collect(),
        sourced: sheet.components.iter().flat_map(|c| &c.lines).any(|line| line.source.is_some()),
        summary: sheet.summary.as_deref().unwrap_or_default(),
    };
    let mut context = Context::new();
    context.insert("recipe", &shown);
    context.insert("extras", &extras);
    let head = Head { title: &sheet.title, description: extras.summary, here: "", kind: "article" };
    framer.page(&sheet.slug, "archive/recipe.html", &head, context)
}

/// A card's address from the recipe's page, which lies one folder below the root.
fn card_address(card: &str) -> String {
    if is_web_address(card) { card.into() } else { format!("../{card}") }
}

/// The sheet with every address that is no web or mail address emptied, so that templates show it as text.
fn with_safe_links(sheet: &Sheet) -> Sheet {
    let mut shown = sheet.clone();
    let clear = |url: &mut String| {
        if !is_web_address(url) {
            url.clear();
        }
    };
    for link in shown.links.iter_mut().flat_map(|group| &mut group.links) {
        clear(&mut link.url);
    }
    for line in shown.components.iter_mut().flat_map(|component| &mut component.lines) {
        line.link = line.link.take().filter(|url| is_web_address(url));
    }
    if let Some(video) = &mut shown.video {
        clear(&mut video.url);
        video.chapters.iter_mut().for_each(|chapter| clear(&mut chapter.url));
    }
    shown
}
