//! What surrounds the content: the page foot, the running head, the QR code.

use super::blocks::Content;
use super::code::Code;
use super::color::Rgb;
use super::fonts::{Face, Figures};
use super::layout::Layout;
use super::pages::{Area, Filling, Position};
use super::placed::{Item, Owner, Placed};
use super::strips::{Look, Setting};
use super::text::{Span, Style, Text, prepare};
use super::tree::{NodeId, Role, Tree};

/// Most lines that the source may take in the foot; the rest is left out with an ellipsis.
const FOOT_LINES: usize = 3;

/// Space between the content and the foot, in points.
const FOOT_GAP: f32 = 8.0;

/// The texts that repeat, measured before the content is laid out.
pub(crate) struct Furniture {
    source: Text,
    title: Text,
    look: Look,
    foot_lines: usize,
}

impl Furniture {
    /// Prepares head and foot; characters that no face has are added to those of the content.
    pub(crate) fn new(layout: &Layout, content: &mut Content) -> Self {
        let size = if layout.size.two_columns() { 8.0 } else { 7.2 };
        let look = Look { size, leading: size * 1.25, color: Rgb::QUIET, justify: false };
        let title = content.title.clone();
        let mut text = |words: &str, face: Face| {
            let style = Style { face, figures: Figures::Running, owner: NodeId::ROOT };
            prepare(&[Span { text: words.to_owned(), style }], None, &mut content.missing)
        };
        Self {
            source: text(&layout.foot.source, Face::Regular),
            title: text(&title, Face::Italic),
            look,
            foot_lines: 0,
        }
    }

    /// The area that head and foot leave free.
    pub(crate) fn area(&mut self, layout: &Layout, setting: &Setting<'_>) -> Area {
        let (width, height) = layout.size.points();
        let margin = layout.size.margin();
        let inner = width - 2.0 * margin;
        let lines = setting.lines(&self.source, self.look, self.source_width(inner)).len();
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

    /// Room for the source beside date and card number.
    fn source_width(&self, inner: f32) -> f32 {
        inner * 0.56
    }

    /// Adds head and foot to every page.
    pub(crate) fn furnish(&self, filling: &mut Filling, layout: &Layout, setting: &Setting<'_>) {
        let total = filling.pages.len();
        for page in 0..total {
            let mut items = self.foot(filling.area, layout, setting, page, total);
            if page > 0 {
                items.extend(self.head(filling.area, setting));
            }
            filling.pages[page].items.extend(items);
        }
    }

    fn foot(&self, area: Area, layout: &Layout, setting: &Setting<'_>, page: usize, total: usize) -> Vec<Placed> {
        let top = area.bottom + FOOT_GAP;
        let mut items = Vec::new();
        let lines = setting.lines(&self.source, self.look, self.source_width(area.width()));
        for (index, line) in lines.iter().take(self.foot_lines).enumerate() {
            let y = top + index as f32 * self.look.leading;
            items.extend(setting.line(line, self.look, area.left, y));
            if index + 1 == self.foot_lines && lines.len() > self.foot_lines {
                let x = area.left + line.width * self.look.size / 1000.0;
                items.extend(self.words("…", setting, |_| x, y));
            }
        }
        let label = layout.labels.page(layout.size, page, total);
        let right: Vec<&str> =
            [layout.foot.date.as_str(), &label].into_iter().filter(|words| !words.is_empty()).collect();
        let right = right.join("  ·  ");
        items.extend(self.words(&right, setting, |width| area.right - width, top));
        items.iter_mut().for_each(|item| item.owner = Owner::Foot);
        items
    }

    /// The title in small on later pages, above a hairline.
    fn head(&self, area: Area, setting: &Setting<'_>) -> Vec<Placed> {
        let top = area.first_top;
        let mut items = Vec::new();
        let lines = setting.lines(&self.title, self.look, area.width() * 0.95);
        if let Some(line) = lines.first() {
            items.extend(setting.line(line, self.look, area.left, top));
            if lines.len() > 1 {
                let x = area.left + line.width * self.look.size / 1000.0;
                items.extend(self.words("…", setting, |_| x, top));
            }
        }
        items.push(setting.hairline(area.left, top + self.look.leading + 1.0, area.width()));
        items.iter_mut().for_each(|item| item.owner = Owner::Head);
        items
    }

    /// A few words on one line; `left` gives their place from their width.
    fn words(&self, words: &str, setting: &Setting<'_>, left: impl Fn(f32) -> f32, y: f32) -> Vec<Placed> {
        let style = Style { face: Face::Regular, figures: Figures::Running, owner: NodeId::ROOT };
        let text = prepare(&[Span { text: words.to_owned(), style }], None, &mut Default::default());
        let lines = setting.lines(&text, self.look, f32::MAX);
        lines.first().map_or_else(Vec::new, |line| {
            let x = left(line.width * self.look.size / 1000.0);
            setting.line(line, self.look, x, y)
        })
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
    filling: &mut Filling,
    tree: &mut Tree,
    code: &Code,
    address: &str,
    alt: String,
    page: usize,
    at: (f32, f32),
) {
    let link = tree.add_with(NodeId::ROOT, Role::Link, address.to_owned());
    let figure = tree.add_with(link, Role::Figure, alt);
    let (x, y) = at;
    let items = &mut filling.pages[page].items;
    items.push(Placed { x, y, owner: Owner::Content(figure), item: code.item() });
    let area = Item::Link { width: code.length(), height: code.length() };
    items.push(Placed { x, y, owner: Owner::Content(link), item: area });
}
