//! From blocks to strips: rows as wide as their column, stacked but not yet on a page.

use super::blocks::{Block, ListItem, TextRole};
use super::color::Rgb;
use super::columns::Columns;
use super::linebreak::Justification;
use super::lines::{PartDrawn, TextLine, breaks, lines};
use super::placed::{Item, Owner, Placed, Run};
use super::run::DrawnSign;
use super::text::Paragraph;
use super::tree::{StructureType, Tree};

/// A row that is never cut. Items are placed from its top left corner.
#[derive(Clone, Debug, Default)]
pub(crate) struct Strip {
    pub(crate) height: f32,
    /// Space above, given up at the top of a column.
    pub(crate) gap: f32,
    pub(crate) items: Vec<Placed>,
    /// Whether the next strip must stand in the same column.
    pub(crate) keep: bool,
    /// The ruled box that the strip stands in.
    pub(crate) frame: Option<Frame>,
}

/// A ruled box around strips that follow one another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Frame {
    pub(crate) number: usize,
    pub(crate) x: f32,
    pub(crate) width: f32,
}

/// How a text looks. Lengths are points.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Look {
    pub(crate) size: f32,
    pub(crate) leading: f32,
    pub(crate) color: Rgb,
    pub(crate) fill: Justification,
}

/// Measures wider than this, in ems, are set with an even right edge.
const JUSTIFIED_FROM: f32 = 44.0;

/// What strips are made with.
pub(crate) struct StripStyle<'a> {
    /// Size of running text in points.
    pub(crate) size: f32,
    pub(crate) accent: Rgb,
    pub(crate) tree: &'a Tree,
    pub(crate) columns: &'a Columns,
    /// Height of the tallest column: a row higher than this has to be cut.
    pub(crate) tallest: f32,
    /// Boxes made so far.
    pub(crate) frames: usize,
    /// Whether only heights are wanted: lines are counted, not set.
    pub(crate) draft: bool,
    /// Whether tables that take less than half a column stay whole.
    pub(crate) whole_tables: bool,
}

impl StripStyle<'_> {
    /// How running text looks.
    pub(crate) fn body(&self) -> Look {
        Look { size: self.size, leading: self.size * 1.27, color: Rgb::BLACK, fill: Justification::Justified }
    }

    fn look(&self, role: TextRole) -> Look {
        let body = self.body();
        let size = self.size;
        match role {
            TextRole::Title => {
                Look { size: size * 1.95, leading: size * 2.1, color: Rgb::BLACK, fill: Justification::Balanced }
            }
            TextRole::Summary => Look { fill: Justification::Ragged, ..body },
            TextRole::Meta => {
                Look { size: size * 0.92, leading: size * 1.22, color: Rgb::QUIET, fill: Justification::Ragged }
            }
            TextRole::Heading => {
                Look { size: size * 1.16, leading: size * 1.4, color: self.accent, fill: Justification::Balanced }
            }
            TextRole::Subheading => Look { fill: Justification::Ragged, ..body },
            TextRole::Body => body,
        }
    }

    /// Space above a text, in points.
    fn gap(&self, role: TextRole) -> f32 {
        self.size
            * match role {
                TextRole::Title => 0.0,
                TextRole::Summary => 0.55,
                TextRole::Meta => 0.4,
                TextRole::Heading => 1.05,
                TextRole::Subheading => 0.7,
                TextRole::Body => 0.45,
            }
    }

    /// Strips of blocks in a column that begins at `x`.
    pub(crate) fn blocks<'b>(&mut self, blocks: impl IntoIterator<Item = &'b Block>, x: f32, width: f32) -> Vec<Strip> {
        let mut strips: Vec<Strip> = Vec::new();
        let mut leads_in = false;
        for block in blocks {
            if let Some(last) = strips.last_mut() {
                // A line that leads in to a list or a table stays with it.
                last.keep |= leads_in && matches!(block, Block::List(_) | Block::Table(_));
            }
            leads_in = matches!(block, Block::Text { .. });
            let boxed = strips.last().is_some_and(|strip| strip.frame.is_some());
            let start = strips.len();
            strips.extend(self.block(block, x, width));
            if boxed && let Some(strip) = strips.get_mut(start) {
                strip.gap = strip.gap.max(self.size * 0.8);
            }
        }
        strips
    }

    /// Strips of one block; the first carries the space above.
    pub(crate) fn block(&mut self, block: &Block, x: f32, width: f32) -> Vec<Strip> {
        match block {
            Block::Text { text, role, .. } => self.text_block(text, *role, x, width),
            Block::Table(table) => self.table(table, x, width),
            Block::Bar(bar) => self.bar(bar, x, width),
            Block::List(entries) => self.list(entries, x, width),
            Block::Caution(blocks) => self.caution(blocks, x, width),
            Block::Rule => vec![Strip {
                height: self.size * 0.6,
                gap: self.size * 0.5,
                items: vec![self.hairline(x, self.size * 0.3, width)],
                ..Strip::default()
            }],
        }
    }

    fn text_block(&mut self, text: &Paragraph, role: TextRole, x: f32, width: f32) -> Vec<Strip> {
        let mut strips = self.text(text, self.look(role), x, width);
        set_gap(&mut strips, self.gap(role));
        match role {
            TextRole::Title => {
                strips.iter_mut().for_each(|strip| strip.keep = true);
                let rule = Item::Rule { width, thickness: 0.9, color: self.accent };
                let item = Placed { x, y: self.size * 0.35, owner: Owner::Ornament, item: rule };
                strips.push(Strip { height: self.size * 0.5, items: vec![item], ..Strip::default() });
            }
            TextRole::Heading | TextRole::Subheading => strips.iter_mut().for_each(|strip| strip.keep = true),
            TextRole::Summary | TextRole::Meta | TextRole::Body => {}
        }
        strips
    }

    /// A strip a line. First and last lines keep company: no line of a paragraph of four stands alone.
    pub(crate) fn text(&self, text: &Paragraph, look: Look, x: f32, width: f32) -> Vec<Strip> {
        let set = self.lines(text, look, width);
        let count = set.len();
        set.iter()
            .enumerate()
            .map(|(index, line)| Strip {
                height: look.leading,
                items: self.line(line, look, x, 0.0),
                keep: index + 1 < count && (index == 0 || index + 2 == count),
                ..Strip::default()
            })
            .collect()
    }

    pub(crate) fn lines(&self, text: &Paragraph, look: Look, width: f32) -> Vec<TextLine> {
        let narrow = look.fill == Justification::Justified && width < JUSTIFIED_FROM * look.size;
        let fill = if narrow { Justification::Ragged } else { look.fill };
        let measure = width / look.size * 1000.0;
        if self.draft {
            vec![TextLine::default(); breaks(text, measure, fill).len()]
        } else {
            lines(text, measure, fill)
        }
    }

    /// The items of a line whose top is at `y`.
    pub(crate) fn line(&self, line: &TextLine, look: Look, x: f32, y: f32) -> Vec<Placed> {
        let em = look.size / 1000.0;
        let baseline = y + look.leading / 2.0 + look.size * 0.225;
        let mut items = Vec::with_capacity(line.parts.len());
        for part in &line.parts {
            let owner = Owner::Content(part.style.owner);
            let left = x + part.x * em;
            let (glyphs, width, soft_hyphen) = match &part.drawn {
                PartDrawn::Mark(mark) => {
                    let color = if *mark == DrawnSign::Missing { look.color } else { self.accent };
                    let item = Item::Mark { mark: *mark, size: look.size, color, text: part.text.clone() };
                    items.push(Placed { x: left, y: baseline, owner, item });
                    continue;
                }
                PartDrawn::Glyphs { glyphs, width } => (glyphs.clone(), width * em, false),
                PartDrawn::Hyphen { glyphs, width } => (glyphs.clone(), width * em, true),
            };
            let linked = self.tree.node(part.style.owner).role == StructureType::Link;
            let run = Run {
                face: part.style.face,
                size: look.size * part.style.figures.scale(),
                color: if linked { self.accent } else { look.color },
                text: part.text.clone(),
                glyphs,
                width,
                soft_hyphen,
            };
            items.push(Placed { x: left, y: baseline, owner, item: Item::Text(run) });
            if linked {
                let area = Item::Link { width, height: look.size };
                items.push(Placed { x: left, y: baseline - look.size * 0.75, owner, item: area });
            }
        }
        items
    }

    fn list(&mut self, entries: &[ListItem], x: f32, width: f32) -> Vec<Strip> {
        let look = Look { color: self.accent, fill: Justification::Ragged, ..self.body() };
        let widest = entries.iter().map(|entry| entry.label.natural_width()).fold(0.0, f32::max);
        let labels = widest * self.size / 1000.0;
        let gutter = (labels + self.size * 0.6).max(self.size * 1.1).min(width / 3.0);
        let mut strips = Vec::new();
        for (index, entry) in entries.iter().enumerate() {
            let mut body = self.blocks(&entry.blocks, x + gutter, width - gutter);
            if body.is_empty() {
                body.push(Strip { height: look.leading, ..Strip::default() });
            }
            for label in self.lines(&entry.label, look, gutter).iter().take(1) {
                let left = x + (labels - label.width * self.size / 1000.0).max(0.0);
                // The label is read before the entry.
                body[0].items.splice(0..0, self.line(label, look, left, 0.0));
            }
            let gap = match (index, entry.check) {
                (0, _) => 0.55,
                (_, true) => 0.1,
                _ => 0.36,
            };
            set_gap(&mut body, self.size * gap);
            strips.append(&mut body);
        }
        strips
    }

    fn caution(&mut self, blocks: &[Block], x: f32, width: f32) -> Vec<Strip> {
        let (side, end) = (self.size * 0.75, self.size * 0.45);
        self.frames += 1;
        let frame = Frame { number: self.frames, x, width };
        let mut strips = self.blocks(blocks, x + side, width - 2.0 * side);
        let Some(first) = strips.first_mut() else { return strips };
        first.gap = self.size * 0.7;
        first.height += end;
        first.items.iter_mut().for_each(|item| item.y += end);
        if let Some(last) = strips.last_mut() {
            last.height += end;
        }
        let height: f32 = strips.iter().map(|strip| strip.gap + strip.height).sum();
        let count = strips.len();
        for (index, strip) in strips.iter_mut().enumerate() {
            strip.frame = Some(frame);
            // A box that takes less than half a column stays whole.
            strip.keep |= index + 1 < count && height < self.tallest / 2.0;
        }
        strips
    }

    /// A thin line in a light tint of the accent.
    pub(crate) fn hairline(&self, x: f32, y: f32, width: f32) -> Placed {
        let item = Item::Rule { width, thickness: 0.4, color: self.accent.tint(0.6) };
        Placed { x, y, owner: Owner::Ornament, item }
    }
}

/// Sets the space above the first strip.
pub(crate) fn set_gap(strips: &mut [Strip], gap: f32) {
    if let Some(first) = strips.first_mut() {
        first.gap = gap;
    }
}
