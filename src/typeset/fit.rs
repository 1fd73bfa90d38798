//! Chooses the type size: the largest at which the content takes the fewest pages.

use super::blocks::Content;
use super::clean::Missing;
use super::code::Code;
use super::furniture::{Furniture, corner, free_end, place_code};
use super::layout::Layout;
use super::pages::Filling;
use super::placed::Pages;
use super::strips::Setting;
use super::table::Columns;

/// Smallest type size in points.
const SMALLEST: f32 = 7.5;

/// Steps from the smallest size to the largest, 11 points.
const STEPS: usize = 14;

/// Points in a step.
const STEP: f32 = 0.25;

/// A card laid out, and whether its link is on it.
pub(crate) struct Fitted {
    pub(crate) pages: Pages,
    pub(crate) link_placed: bool,
    pub(crate) missing: Missing,
}

/// Lays out a card.
pub(crate) fn fit(mut content: Content, layout: &Layout) -> Fitted {
    let columns = Columns::of(&content);
    let mut furniture = Furniture::new(layout, &mut content);
    let area = furniture.area(layout, &setting(&content, &columns, layout, SMALLEST, f32::MAX));
    let attempt = |step: usize, corner: Option<(f32, f32)>| {
        let size = SMALLEST + STEP * step as f32;
        let mut filling = Filling::new(area, layout.accent);
        filling.fill(&content, &mut setting(&content, &columns, layout, size, area.tallest()), corner);
        filling
    };
    let address = layout.link.as_deref().and_then(super::inline::address);
    let code = address.as_deref().and_then(|address| Code::new(address, area.width() / 2.0));
    let (mut step, mut filling) = largest(|step| attempt(step, None));
    let mut place = None;
    if let Some(code) = &code {
        place = free_end(&filling, code).map(|at| (filling.pages.len() - 1, at));
        if place.is_none() {
            (step, filling) = largest(|step| attempt(step, Some(corner(code))));
            place = Some((0, (area.right - code.length(), area.first_top)));
        }
    }
    if let (Some(code), Some(address), Some((page, at))) = (&code, &address, place) {
        let alt = layout.labels.code.replace("{address}", address);
        place_code(&mut filling, &mut content.tree, code, address, alt, page, at);
    }
    let text_size = SMALLEST + STEP * step as f32;
    furniture.furnish(&mut filling, layout, &setting(&content, &columns, layout, text_size, area.tallest()));
    let (width, height) = layout.size.points();
    let missing = std::mem::take(&mut content.missing);
    let pages = Pages { width, height, text_size, pages: filling.pages, tree: content.tree };
    Fitted { pages, link_placed: place.is_some(), missing }
}

fn setting<'a>(content: &'a Content, columns: &'a Columns, layout: &Layout, size: f32, tallest: f32) -> Setting<'a> {
    Setting { size, accent: layout.accent, tree: &content.tree, columns, tallest, frames: 0 }
}

/// The largest size at which an attempt takes as few pages as at the smallest, with its result.
fn largest(attempt: impl Fn(usize) -> Filling) -> (usize, Filling) {
    let top = attempt(STEPS);
    if top.pages.len() == 1 {
        return (STEPS, top);
    }
    let mut best = (0, attempt(0));
    let fewest = best.1.pages.len();
    if top.pages.len() <= fewest {
        return (STEPS, top);
    }
    let mut too_large = STEPS;
    while best.0 + 1 < too_large {
        let middle = best.0.midpoint(too_large);
        let tried = attempt(middle);
        if tried.pages.len() <= fewest {
            best = (middle, tried);
        } else {
            too_large = middle;
        }
    }
    best
}
