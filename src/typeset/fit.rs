//! Chooses the type size: the largest at which the content takes the fewest pages.

use super::blocks::Content;
use super::clean::MissingGlyphs;
use super::code::Code;
use super::columns::Columns;
use super::furniture::{Furniture, corner, free_end, place_code};
use super::layout::Layout;
use super::pages::Filling;
use super::placed::Pages;
use super::strips::StripStyle;
use crate::text::web_address;

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
    pub(crate) missing: MissingGlyphs,
}

/// Lays out a card.
pub(crate) fn fit(mut content: Content, layout: &Layout) -> Fitted {
    let columns = Columns::of(&content);
    let mut furniture = Furniture::new(layout, &mut content);
    let address = layout.link.as_deref().and_then(web_address);
    let mut chosen = choose(&content, &columns, layout, &mut furniture, address.as_deref(), 2);
    if chosen.filling.pages.len() > 2 {
        // More than one card: their numbers take more of the foot.
        let many = chosen.filling.pages.len().max(10);
        chosen = choose(&content, &columns, layout, &mut furniture, address.as_deref(), many);
    }
    let Choice { size, mut filling, code } = chosen;
    let link_placed = code.is_some();
    if let (Some((code, page, at)), Some(address)) = (code, &address) {
        let alt = layout.labels.code.replace("{address}", address);
        place_code(&mut filling.pages[page], &mut content.tree, &code, address, alt, at);
    }
    let tallest = filling.area.tallest();
    furniture.furnish(&mut filling, layout, &setting(&content, &columns, layout, size, tallest));
    let (width, height) = layout.size.points();
    let missing = std::mem::take(&mut content.missing);
    let pages = Pages { width, height, text_size: size, pages: filling.pages, tree: content.tree, flip: None };
    Fitted { pages, link_placed, missing }
}

/// The filling chosen, with the code, its page and its place.
struct Choice {
    size: f32,
    filling: Filling,
    code: Option<(Code, usize, (f32, f32))>,
}

/// Chooses type size and place of the code for a foot as wide as `expected` pages need.
fn choose(
    content: &Content,
    columns: &Columns,
    layout: &Layout,
    furniture: &mut Furniture,
    address: Option<&str>,
    expected: usize,
) -> Choice {
    let area = furniture.area(layout, &setting(content, columns, layout, SMALLEST, f32::MAX), expected);
    let set = |step: usize, corner: Option<(f32, f32)>, draft: bool, whole_tables: bool| {
        let setting = setting(content, columns, layout, size(step), area.tallest());
        let mut filling = Filling::new(area, layout.accent);
        filling.fill(content, &mut StripStyle { draft, whole_tables, ..setting }, corner);
        filling
    };
    // A component's ingredients are better seen at once, but not at the price of a page.
    let pages = |whole_tables: bool| set(0, None, true, whole_tables).pages.len();
    let fewest = pages(false);
    let whole_tables = fewest == 1 || pages(true) <= fewest;
    let attempt = |step: usize, corner: Option<(f32, f32)>, draft: bool| set(step, corner, draft, whole_tables);
    let (step, draft) = largest(|step| attempt(step, None, true));
    let Some(code) = address.and_then(|address| Code::new(address, area.width() / 2.0)) else {
        return Choice { size: size(step), filling: attempt(step, None, false), code: None };
    };
    let at_end = |draft: &Filling| free_end(draft, &code).map(|at| (draft.pages.len() - 1, at));
    if let Some((page, at)) = at_end(&draft) {
        return Choice { size: size(step), filling: attempt(step, None, false), code: Some((code, page, at)) };
    }
    let taken = Some(corner(&code));
    let (corner_step, corner_draft) = largest(|step| attempt(step, taken, true));
    if corner_draft.pages.len() > draft.pages.len() {
        // Smaller type may make room at the end where the corner would cost a page.
        for step in (0..step).rev() {
            let smaller = attempt(step, None, true);
            if let Some((page, at)) = at_end(&smaller).filter(|_| smaller.pages.len() <= draft.pages.len()) {
                return Choice { size: size(step), filling: attempt(step, None, false), code: Some((code, page, at)) };
            }
        }
    }
    let at = (area.right - code.length(), area.first_top);
    Choice { size: size(corner_step), filling: attempt(corner_step, taken, false), code: Some((code, 0, at)) }
}

fn size(step: usize) -> f32 {
    SMALLEST + STEP * step as f32
}

fn setting<'a>(content: &'a Content, columns: &'a Columns, layout: &Layout, size: f32, tallest: f32) -> StripStyle<'a> {
    StripStyle {
        size,
        accent: layout.accent,
        tree: &content.tree,
        columns,
        tallest,
        frames: 0,
        draft: false,
        whole_tables: false,
    }
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
