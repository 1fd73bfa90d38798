//! What surrounds the content: the page foot, the running head, the QR code.

use super::blocks::Content;
use super::code::Code;
use super::color::Rgb;
use super::fonts::{Face, Figures};
use super::layout::Layout;
use super::linebreak::Justification;
use super::pages::{Area, Filling, Position};
use super::placed::{Item, Owner, Page, Placed};
use super::run::{Style, TextRun};
use super::strips::{Look, StripStyle};
use super::text::{Hyphens, Paragraph, prepare};
use super::tree::{NodeId, StructureType, Tree};

/// Most lines that the source may take in the foot; the rest is left out with an ellipsis.
const FOOT_LINES: usize = 3;

/// Space between the content and the foot, in points.
const FOOT_GAP: f32 = 8.0;

/// The texts that repeat, measured before the content is laid out.
pub(crate) struct Furniture {
    /// Source and date are parts of the document; they are read once, at the end.
    source: Paragraph,
    date: Paragraph,
    title: Paragraph,
    look: Look,
    /// Room for the source beside date and card number.
    source_width: f32,
    foot_lines: usize,
}

impl Furniture {
    /// Prepares head and foot; characters that no face has are added to those of the content.
    pub(crate) fn new(layout: &Layout, content: &mut Content) -> Self {
        let size = if layout.size.two_columns() { 8.0 } else { 7.2 };
        let look = Look { size, leading: size * 1.25, color: Rgb::QUIET, fill: Justification::Ragged };
        let foot = &layout.foot;
        let mut part = |words: &str| {
            if words.is_empty() { NodeId::ROOT } else { content.tree.add(NodeId::ROOT, StructureType::Paragraph) }
        };
        let (source, date) = (part(&foot.source), part(&foot.date));
        let title = content.title.clone();
        let mut text = |words: &str, face: Face, owner: NodeId| {
            let style = Style { face, figures: Figures::Running, owner };
            let span = TextRun { text: words.to_owned(), style };
            prepare(&[span], None, Hyphens::InNeed, &mut content.missing)
        };
        Self {
            source: text(&foot.source, Face::Regular, source),
            date: text(&foot.date, Face::Regular, date),
            title: text(&title, Face::Italic, NodeId::ROOT),
            look,
            source_width: 0.0,
            foot_lines: 1,
        }
    }

    /// The area that head and foot leave free on as many pages as are expected.
    pub(crate) fn area(&mut self, layout: &Layout, setting: &StripStyle<'_>, pages: usize) -> Area {
        let (width, height) = layout.size.points();
        let margin = layout.size.margin();
        let inner = width - 2.0 * margin;
        let em = self.look.size / 1000.0;
        let label = self.label(&layout.labels.page(layout.size, 0, pages));
        let beside = (self.date.natural_width() + label.natural_width() + 3000.0) * em;
        self.source_width = (inner - beside).max(inner * 0.4);
        let lines = setting.lines(&self.source, self.look, self.source_width).len();
        self.foot_lines = lines.clamp(1, FOOT_LINES);
        Area {
            left: margin,
            right: width - margin,
            first_top: margin,
            top: margin + self.look.leading + 6.0,
            bottom: height - margin - self.foot_lines as f32 * self.look.leading - FOOT_GAP,
            two_columns: layout.size.two_columns(),
        }
    }

    /// Adds head and foot to every page.
    pub(crate) fn furnish(&self, filling: &mut Filling, layout: &Layout, setting: &StripStyle<'_>) {
        let total = filling.pages.len();
        for page in 0..total {
            let mut items = self.foot(filling.area, layout, setting, page, total);
            if page > 0 {
                items.extend(self.head(filling.area, setting));
            }
            filling.pages[page].items.extend(items);
        }
    }

    fn foot(&self, area: Area, layout: &Layout, setting: &StripStyle<'_>, page: usize, total: usize) -> Vec<Placed> {
        let top = area.bottom + FOOT_GAP;
        let em = self.look.size / 1000.0;
        let mut items = Vec::new();
        let lines = setting.lines(&self.source, self.look, self.source_width);
        for (index, line) in lines.iter().take(self.foot_lines).enumerate() {
            let y = top + index as f32 * self.look.leading;
            items.extend(setting.line(line, self.look, area.left, y));
            if index + 1 == self.foot_lines && lines.len() > self.foot_lines {
                items.extend(self.ellipsis(setting, area.left + line.width * em, y));
            }
        }
        let label = self.label(&layout.labels.page(layout.size, page, total));
        let label_left = area.right - label.natural_width() * em;
        let parted = if label.words.is_empty() || self.date.words.is_empty() { 0.0 } else { 250.0 * em };
        let date_left = label_left - parted - self.date.natural_width() * em;
        items.extend(self.one_line(&self.date, setting, date_left, top));
        if page + 1 < total {
            items.iter_mut().for_each(|item| item.owner = Owner::Foot);
        }
        let mut label = self.one_line(&label, setting, label_left, top);
        label.iter_mut().for_each(|item| item.owner = Owner::Foot);
        items.append(&mut label);
        items
    }

    /// A card number as it stands in the foot, parted from the date by a dot.
    fn label(&self, words: &str) -> Paragraph {
        let dot = if words.is_empty() || words == "…" || self.date.words.is_empty() { "" } else { "· " };
        let style = Style { face: Face::Regular, figures: Figures::Running, owner: NodeId::ROOT };
        let span = TextRun { text: format!("{dot}{words}"), style };
        prepare(&[span], None, Hyphens::InNeed, &mut Default::default())
    }

    /// The title in small on later pages, above a hairline.
    fn head(&self, area: Area, setting: &StripStyle<'_>) -> Vec<Placed> {
        let top = area.first_top;
        let mut items = Vec::new();
        let lines = setting.lines(&self.title, self.look, area.width() * 0.95);
        if let Some(line) = lines.first() {
            items.extend(setting.line(line, self.look, area.left, top));
            if lines.len() > 1 {
                let x = area.left + line.width * self.look.size / 1000.0;
                items.extend(self.ellipsis(setting, x, top));
            }
        }
        items.push(setting.hairline(area.left, top + self.look.leading + 1.0, area.width()));
        items.iter_mut().for_each(|item| item.owner = Owner::Head);
        items
    }

    /// The sign that something was left out, at a place in the foot.
    fn ellipsis(&self, setting: &StripStyle<'_>, x: f32, y: f32) -> Vec<Placed> {
        let mut items = self.one_line(&self.label("…"), setting, x, y);
        items.iter_mut().for_each(|item| item.owner = Owner::Foot);
        items
    }

    fn one_line(&self, text: &Paragraph, setting: &StripStyle<'_>, x: f32, y: f32) -> Vec<Placed> {
        let lines = setting.lines(text, self.look, f32::MAX);
        lines.first().map_or_else(Vec::new, |line| setting.line(line, self.look, x, y))
    }
}

/// Room that a code in the top right corner takes from the opening: width and height.
pub(crate) fn corner(code: &Code) -> (f32, f32) {
    (code.length() + code.quiet() + 4.0, code.length() + code.quiet())
}

/// A free place for the code at the foot of the last page: its left and top.
pub(crate) fn free_end(filling: &Filling, code: &Code) -> Option<(f32, f32)> {
    let last = filling.pages.len() - 1;
    let area = filling.area;
    let y = area.bottom - code.length();
    let fits = |(end, left, right): (Position, f32, f32)| {
        let top = if end.page < last { area.top } else { end.y };
        (top + code.quiet() <= y && right - left >= code.length()).then_some((left, right))
    };
    let [narrow, wide] = filling.ends;
    if let Some((_, right)) = wide.and_then(fits) {
        return Some((right - code.length(), y));
    }
    narrow.and_then(fits).map(|(left, _)| (left, y))
}

/// Adds the code to a page, as a link and a figure.
pub(crate) fn place_code(
    page: &mut Page,
    tree: &mut Tree,
    code: &Code,
    address: &str,
    alt: String,
    (x, y): (f32, f32),
) {
    let link = tree.add_with(NodeId::ROOT, StructureType::Link, address.to_owned());
    let figure = tree.add_with(link, StructureType::Figure, alt);
    page.items.push(Placed { x, y, owner: Owner::Content(figure), item: code.item() });
    let area = Item::Link { width: code.length(), height: code.length() };
    page.items.push(Placed { x, y, owner: Owner::Content(link), item: area });
}
