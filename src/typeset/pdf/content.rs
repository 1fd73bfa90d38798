//! Walks the items of a page and writes its content.

use std::collections::BTreeMap;
use std::collections::hash_map::Entry;

use printpdf::{
    Color, DictItem, Line, LineCapStyle, LinePoint, Op, PaintMode, PdfFontHandle, Point, Polygon, PolygonRing, Pt,
    WindingOrder,
};

use rustc_hash::FxHashMap;

use super::super::color::Rgb;
use super::super::fonts::Face;
use super::super::placed::{Item, Owner, Page, Pages, Placed, Run};
use super::super::run::DrawnSign;
use super::super::shape::Glyph;
use super::super::tree::NodeId;
use super::faces::{Faces, id};
use super::parts::{LinkArea, MarkedContent};
use super::structure::tag_name;

/// Writes pages one by one and notes what it tagged.
pub(super) struct Emitter<'a> {
    pages: &'a Pages,
    faces: &'a Faces,
    pub(super) marked: Vec<MarkedContent>,
    pub(super) links: Vec<LinkArea>,
    ops: Vec<Op>,
    in_text: bool,
    /// Where the last text on the page starts, from the left and from below, in hundredths of a point, so that steps
    /// from one text to the next add up exactly.
    cursor: [i32; 2],
    font: Option<(Face, f32)>,
    fill: Option<Rgb>,
    /// What each glyph says when it is read out: a font holds one text for a glyph.
    pub(super) said: FxHashMap<(Face, u16), Box<str>>,
}

impl<'a> Emitter<'a> {
    pub(super) fn new(pages: &'a Pages, faces: &'a Faces) -> Self {
        Self {
            pages,
            faces,
            marked: Vec::new(),
            links: Vec::new(),
            ops: Vec::new(),
            in_text: false,
            cursor: [0, 0],
            font: None,
            fill: None,
            said: FxHashMap::default(),
        }
    }

    /// The operations of a page: ornaments, then the content in reading order, then head and foot.
    pub(super) fn page(&mut self, index: usize) -> Vec<Op> {
        (self.font, self.fill, self.in_text) = (None, None, false);
        let page: &'a Page = &self.pages.pages[index];
        for (owner, subtype) in [(Owner::Ornament, None), (Owner::Head, Some("Header")), (Owner::Foot, Some("Footer"))]
        {
            let items: Vec<&Placed> = page.items.iter().filter(|placed| placed.owner == owner).collect();
            if owner == Owner::Head {
                self.content(page, index);
            }
            for placed in items {
                let mut properties = artifact(subtype);
                properties.extend(self.stands_for(&placed.item).as_deref().map(actual_text));
                self.open("Artifact", properties);
                self.item(placed);
                self.close();
            }
        }
        std::mem::take(&mut self.ops)
    }

    fn content(&mut self, page: &Page, index: usize) {
        let mut open: Option<(NodeId, bool)> = None;
        let mut number = 0;
        for placed in &page.items {
            let Owner::Content(owner) = placed.owner else { continue };
            if let Item::Link { width, height } = placed.item {
                let top = self.pages.height - placed.y;
                let rectangle = [placed.x, top - height, placed.x + width, top].map(hundredths);
                self.links.push(LinkArea { page: index, rectangle, link: owner, after: self.marked.len() });
                continue;
            }
            let actual = self.stands_for(&placed.item);
            if actual.is_some() || open != Some((owner, false)) {
                if open.is_some() {
                    self.close();
                }
                let mut properties = BTreeMap::from([("MCID".to_owned(), DictItem::Int(number))]);
                properties.extend(actual.as_deref().map(actual_text));
                // Readers look for such characters in spans alone; what the part is, the structure says.
                let tag = if actual.is_some() { "Span" } else { tag_name(self.pages.tree.node(owner).role) };
                self.open(tag, properties);
                self.marked.push(MarkedContent { page: index, number, owner });
                number += 1;
                open = Some((owner, actual.is_some()));
            }
            self.item(placed);
        }
        if open.is_some() {
            self.close();
        }
    }

    fn open(&mut self, tag: &str, properties: BTreeMap<String, DictItem>) {
        self.end_text();
        self.ops.push(Op::BeginMarkedContentWithProperties {
            tag: tag.to_owned(),
            properties: DictItem::Dict { map: properties },
        });
    }

    fn close(&mut self) {
        self.end_text();
        self.ops.push(Op::EndMarkedContent);
    }

    fn begin_text(&mut self) {
        if !self.in_text {
            self.ops.push(Op::StartTextSection);
            self.in_text = true;
            self.cursor = [0, 0];
        }
    }

    fn end_text(&mut self) {
        if self.in_text {
            self.ops.push(Op::EndTextSection);
            self.in_text = false;
        }
    }

    fn item(&mut self, placed: &Placed) {
        let (x, y) = (placed.x, self.pages.height - placed.y);
        match &placed.item {
            Item::Text(run) => self.glyphs(run, x, y),
            Item::Mark { mark, size, color, .. } => {
                self.end_text();
                self.mark(*mark, *size, *color, x, y);
            }
            Item::Rule { width, thickness, color } => {
                self.end_text();
                self.stroke(*thickness, *color);
                self.line(&[(x, y), (x + width, y)], false);
            }
            Item::Frame { width, height, thickness, color } => {
                self.end_text();
                self.stroke(*thickness, *color);
                self.line(&[(x, y), (x + width, y), (x + width, y - height), (x, y - height)], true);
            }
            Item::Code { side, modules, module } => {
                self.end_text();
                self.fill(Rgb::BLACK);
                for (row, from, to) in dark_bars(modules, *side) {
                    let (left, bottom) = (x + from as f32 * module, y - (row + 1) as f32 * module);
                    let sides = [left, bottom, (to - from) as f32 * module, *module];
                    self.operator("re", sides.map(|side| DictItem::Real(hundredths(side))).to_vec());
                }
                self.operator("f", Vec::new());
            }
            Item::Link { .. } => {}
        }
    }

    /// The characters that an item stands for, where they are not what its glyphs say.
    ///
    /// Such an item is a sequence of marked content of its own: readers that use poppler lose what follows a nested one.
    fn stands_for(&mut self, item: &Item) -> Option<String> {
        match item {
            Item::Text(run) => {
                let differs = self.differs(run);
                if run.soft_hyphen {
                    Some("\u{ad}".into())
                } else {
                    differs.then(|| says(run).map(|(_, says)| says).collect())
                }
            }
            Item::Mark { text, .. } => Some(text.to_string()),
            _ => None,
        }
    }

    /// Whether a glyph of a run says something else than when it was met for the first time, which is noted.
    fn differs(&mut self, run: &Run) -> bool {
        let mut differs = false;
        for (glyph, says) in says(run) {
            match self.said.entry((run.face, glyph.id)) {
                Entry::Occupied(said) => differs |= **said.get() != *says,
                Entry::Vacant(entry) => {
                    entry.insert(says.into());
                }
            }
        }
        differs
    }

    fn glyphs(&mut self, run: &Run, x: f32, y: f32) {
        self.begin_text();
        if self.font != Some((run.face, run.size)) {
            let font = PdfFontHandle::External(id(run.face));
            self.ops.push(Op::SetFont { font, size: Pt(run.size) });
            self.font = Some((run.face, run.size));
        }
        self.fill(run.color);
        let (from, to) = (self.cursor, [x, y].map(whole_hundredths));
        let step = |axis: usize| Pt((to[axis] - from[axis]) as f32 / 100.0);
        self.ops.push(Op::SetTextCursor { pos: Point { x: step(0), y: step(1) } });
        self.cursor = to;
        let mut rise = 0.0;
        let mut shown = GlyphRun::default();
        for glyph in &run.glyphs {
            if glyph.rise != rise {
                self.show(&mut shown);
                self.ops.push(Op::SetLineOffset { multiplier: hundredths(glyph.rise * run.size / 1000.0) });
                rise = glyph.rise;
            }
            shown.back(hundredths(-glyph.shift));
            shown.codes.extend(self.faces.glyph(run.face, glyph.id).to_be_bytes());
            shown.back(hundredths(glyph.natural - glyph.advance + glyph.shift));
        }
        self.show(&mut shown);
        if rise != 0.0 {
            self.ops.push(Op::SetLineOffset { multiplier: 0.0 });
        }
    }

    /// Shows glyphs with the steps between them (ISO 32000-1, 9.4.3). The library's own way makes an object of every
    /// glyph.
    fn show(&mut self, shown: &mut GlyphRun) {
        let parts = shown.taken();
        if !parts.is_empty() {
            self.operator("TJ", vec![DictItem::Array(parts)]);
        }
    }

    /// An operator that the library has no name for.
    fn operator(&mut self, name: &str, operands: Vec<DictItem>) {
        self.ops.push(Op::Unknown { key: name.to_owned(), value: operands });
    }

    /// Draws a sign on the baseline `y`, in the room that the text has left for it.
    fn mark(&mut self, mark: DrawnSign, size: f32, color: Rgb, x: f32, y: f32) {
        let at = |dx: f32, dy: f32| (x + dx * size, y + dy * size);
        let boxed = [at(0.06, -0.05), at(0.70, -0.05), at(0.70, 0.59), at(0.06, 0.59)];
        let tick = [at(0.19, 0.27), at(0.33, 0.10), at(0.60, 0.46)];
        if mark == DrawnSign::Missing {
            self.fill(color);
            self.polygon(vec![ring(&[at(0.40, 0.02), at(0.66, 0.28), at(0.40, 0.54), at(0.14, 0.28)])]);
            return;
        }
        self.stroke(size * 0.055, color);
        if mark != DrawnSign::Tick {
            self.line(&boxed, true);
        }
        if mark != DrawnSign::Box {
            self.stroke(size * 0.085, color);
            self.line(&tick, false);
        }
    }

    fn fill(&mut self, color: Rgb) {
        if self.fill != Some(color) {
            self.ops.push(Op::SetFillColor { col: rgb(color) });
            self.fill = Some(color);
        }
    }

    fn stroke(&mut self, thickness: f32, color: Rgb) {
        self.ops.push(Op::SetOutlineThickness { pt: Pt(hundredths(thickness)) });
        self.ops.push(Op::SetOutlineColor { col: rgb(color) });
        self.ops.push(Op::SetLineCapStyle { cap: LineCapStyle::Butt });
    }

    fn line(&mut self, points: &[(f32, f32)], closed: bool) {
        let line = Line { points: ring(points).points, is_closed: closed };
        self.ops.push(Op::DrawLine { line });
    }

    fn polygon(&mut self, rings: Vec<PolygonRing>) {
        let polygon = Polygon { rings, mode: PaintMode::Fill, winding_order: WindingOrder::NonZero };
        self.ops.push(Op::DrawPolygon { polygon });
    }
}

/// Glyphs to be shown together: strings of their codes, and between them steps back in thousandths of an em.
#[derive(Default)]
struct GlyphRun {
    parts: Vec<DictItem>,
    codes: Vec<u8>,
}

impl GlyphRun {
    fn back(&mut self, step: f32) {
        if step != 0.0 {
            self.end_string();
            let whole = step as i64;
            self.parts.push(if whole as f32 == step { DictItem::Int(whole) } else { DictItem::Real(step) });
        }
    }

    fn end_string(&mut self) {
        if !self.codes.is_empty() {
            self.parts.push(DictItem::String { data: std::mem::take(&mut self.codes), literal: false });
        }
    }

    fn taken(&mut self) -> Vec<DictItem> {
        self.end_string();
        std::mem::take(&mut self.parts)
    }
}

/// The glyphs of a run with the characters that each says.
fn says(run: &Run) -> impl Iterator<Item = (&Glyph, &str)> {
    let mut at = 0;
    run.glyphs.iter().map(move |glyph| {
        let end = at + usize::from(glyph.bytes);
        let says = match run.text.get(at..end).unwrap_or_default() {
            // Fixed spaces share the glyph of the common one.
            "\u{a0}" | "\u{202f}" => " ",
            says => says,
        };
        at = end;
        (glyph, says)
    })
}

/// The property that tells what a sequence stands for.
fn actual_text(text: &str) -> (String, DictItem) {
    let mut data = vec![0xfe, 0xff];
    data.extend(text.encode_utf16().flat_map(u16::to_be_bytes));
    ("ActualText".to_owned(), DictItem::String { data, literal: false })
}

/// Properties of what is no part of the document.
fn artifact(subtype: Option<&str>) -> BTreeMap<String, DictItem> {
    let name = |name: &str| DictItem::Name(name.as_bytes().to_vec());
    match subtype {
        Some(subtype) => {
            BTreeMap::from([("Type".to_owned(), name("Pagination")), ("Subtype".to_owned(), name(subtype))])
        }
        None => BTreeMap::from([("Type".to_owned(), name("Layout"))]),
    }
}

/// Stretches of dark modules: row, first column, column after the last.
fn dark_bars(modules: &[bool], side: usize) -> impl Iterator<Item = (usize, usize, usize)> + '_ {
    modules.chunks(side).enumerate().flat_map(|(row, cells)| {
        let mut bars = Vec::new();
        let mut column = 0;
        for bar in cells.chunk_by(|a, b| a == b) {
            if bar[0] {
                bars.push((row, column, column + bar.len()));
            }
            column += bar.len();
        }
        bars
    })
}

fn ring(points: &[(f32, f32)]) -> PolygonRing {
    let point =
        |&(x, y): &(f32, f32)| LinePoint { p: Point { x: Pt(hundredths(x)), y: Pt(hundredths(y)) }, bezier: false };
    PolygonRing { points: points.iter().map(point).collect() }
}

fn rgb(color: Rgb) -> Color {
    let [r, g, b] = [color.red, color.green, color.blue].map(|channel| (channel * 1000.0).round() / 1000.0);
    Color::Rgb(printpdf::Rgb { r, g, b, icc_profile: None })
}

/// Rounded to a hundredth of a point: finer than any printer, and short in the file.
fn hundredths(length: f32) -> f32 {
    whole_hundredths(length) as f32 / 100.0
}

fn whole_hundredths(length: f32) -> i32 {
    (length * 100.0).round() as i32
}
