use serde::Serialize;
use tera::Context;

use super::cover::{Cover, CoverPart};
use super::frame::{Framer, Head};
use super::picture;
use super::timetable::Timetable;
use super::{ArchiveError, Material};
use crate::photo::Photo;
use crate::render::{json_ld, photo_url, script_json, shown};
use crate::sheet::Sheet;

/// Size of the cover on the recipe's own page, in the drawing's own units.
const COVER: (u32, u32) = (480, 400);

/// What the page shows beside the sheet.
#[derive(Serialize)]
struct Extras<'a> {
    /// Drawn, where there is no photograph.
    cover: Option<Cover>,
    photo: Option<picture::ShownPhoto<'a>>,
    /// Address of the photograph for other sites.
    image: Option<String>,
    timetable: Option<Timetable>,
    /// Address of the card, ready for a link.
    card: Option<String>,
    /// Day of the newest correction.
    corrected: Option<&'a str>,
    /// Whether any measure was computed, and so has an error and a source to show.
    sourced: bool,
    summary: &'a str,
}

/// The template of the page, on which its key depends.
pub(super) const TEMPLATE: &str = "archive/recipe.html";

/// The page of a recipe.
pub(super) fn page(
    framer: &Framer<'_>,
    material: &Material<'_>,
    sheet: &Sheet,
    parts: &[CoverPart],
    photo: Option<&Photo>,
    card: Option<&str>,
) -> Result<Vec<u8>, ArchiveError> {
    let alt = sheet.photo.as_ref().map(|photo| photo.alt.as_str()).unwrap_or_default();
    let extras = Extras {
        cover: Cover::draw(parts, COVER.0, COVER.1),
        photo: photo.map(|photo| picture::shown(photo, alt)),
        image: sheet.photo.as_ref().and_then(|photo| photo_url(material.site, photo)),
        timetable: Timetable::draw(sheet, material.environment.language()),
        card: card.map(|card| format!("../{card}")),
        corrected: sheet.corrections.iter().map(|correction| correction.on.as_str()).max(),
        sourced: sheet.components.iter().flat_map(|c| &c.lines).any(|line| line.source.is_some()),
        summary: sheet.summary.as_deref().unwrap_or_default(),
    };
    let mut context = Context::new();
    context.insert("extras", &extras);
    let fault = |source| ArchiveError::Template { path: format!("{}/index.html", sheet.slug), source };
    let shown = shown(sheet).map_err(fault)?;
    let json_ld = json_ld(material.environment, material.site, sheet, &shown).map_err(fault)?;
    context.insert_value("recipe", shown);
    // As text: the template engine's own maps have no order.
    context.insert("json_ld", &script_json(&json_ld).expect("a struct of texts and numbers is always JSON"));
    let head = Head { title: &sheet.title, description: extras.summary, here: "", kind: "article" };
    framer.page(&sheet.slug, TEMPLATE, &head, context)
}
