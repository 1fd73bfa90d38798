use serde::Serialize;
use tera::Context;

use super::cover::Cover;
use super::frame::{Framer, Head};
use super::{ArchiveError, File, Material, dates};
use crate::render::{is_web_address, json_ld, script_json};
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
    /// Whether any measure was computed, and so has an error and a source to show.
    sourced: bool,
    summary: &'a str,
}

/// The page of a recipe.
pub(super) fn page(framer: &Framer<'_>, material: &Material<'_>, sheet: &Sheet) -> Result<File, ArchiveError> {
    let extras = Extras {
        cover: Cover::draw(sheet, COVER.0, COVER.1),
        card: material.cards.get(&sheet.slug).map(|card| card_address(card)),
        published_text: sheet.published.as_deref().map(dates::for_reading),
        corrected_text: sheet.corrections.iter().map(|correction| dates::for_reading(&correction.on)).collect(),
        sourced: sheet.components.iter().flat_map(|c| &c.lines).any(|line| line.source.is_some()),
        summary: sheet.summary.as_deref().unwrap_or_default(),
    };
    let mut context = Context::new();
    context.insert("recipe", sheet);
    context.insert("extras", &extras);
    let fault = |source| ArchiveError::Template { path: format!("{}/index.html", sheet.slug), source };
    let json_ld = json_ld(material.environment, material.site, sheet).map_err(fault)?;
    // As text: the template engine's own maps have no order.
    context.insert("json_ld", &script_json(&json_ld).expect("a struct of texts and numbers is always JSON"));
    let head = Head { title: &sheet.title, description: extras.summary, here: "", kind: "article" };
    framer.page(&sheet.slug, "archive/recipe.html", &head, context)
}

/// A card's address from the recipe's page, which lies one folder below the root.
fn card_address(card: &str) -> String {
    if is_web_address(card) { card.into() } else { format!("../{card}") }
}
