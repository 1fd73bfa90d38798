//! From strips to pages: where columns end and pages turn.

use super::blocks::{Block, Content};
use super::color::Rgb;
use super::placed::{Item, Owner, Page, Placed};
use super::strips::{Frame, Strip, StripStyle, set_gap};

/// The part of a page that content may fill. Lengths are points from the top left corner.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Area {
    pub(crate) left: f32,
    pub(crate) right: f32,
    /// Top on the first page.
    pub(crate) first_top: f32,
    /// Top on later pages, below the running head.
    pub(crate) top: f32,
    pub(crate) bottom: f32,
    pub(crate) two_columns: bool,
}

impl Area {
    pub(crate) fn width(&self) -> f32 {
        self.right - self.left
    }

    pub(crate) fn tallest(&self) -> f32 {
        self.bottom - self.first_top.max(self.top)
    }

    fn top_of(&self, page: usize) -> f32 {
        if page == 0 { self.first_top } else { self.top }
    }
}

/// Share of the width that the narrow column of a two-column page takes.
const SIDE_SHARE: f32 = 0.4;

/// Space between the columns of a two-column page, in points.
const GUTTER: f32 = 20.0;

/// How much lower a heading's baseline lies than that of running text that begins at the same height, in ems.
const HEADING_DROP: f32 = 0.1;

/// A place in the stack of pages; later is greater.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub(crate) struct Position {
    pub(crate) page: usize,
    pub(crate) y: f32,
}

/// Pages being filled.
pub(crate) struct Filling {
    pub(crate) area: Area,
    pub(crate) pages: Vec<Page>,
    accent: Rgb,
    /// Where the narrow and the wide column end.
    pub(crate) ends: [Option<(Position, f32, f32)>; 2],
}

impl Filling {
    pub(crate) fn new(area: Area, accent: Rgb) -> Self {
        Self { area, pages: vec![Page::default()], accent, ends: [None, None] }
    }

    /// Fills pages with a whole card. `corner` is kept free at the right of the first page's top: width and height.
    pub(crate) fn fill(
        &mut self,
        content: &Content,
        setting: &mut StripStyle<'_>,
        corner: Option<(f32, f32)>,
    ) -> Position {
        let mut at = self.opening(&content.opening, setting, corner);
        let two_columns = self.area.two_columns && content.has_side();
        for section in &content.sections {
            at = if two_columns {
                let (aside, main): (Vec<_>, Vec<_>) = section.blocks.iter().partition(|block| block.stands_aside());
                self.side_by_side(&section.heading, &aside, &main, setting, at)
            } else {
                let (left, width) = (self.area.left, self.area.width());
                let mut strips = setting.block(&section.heading, left, width);
                strips.extend(setting.blocks(&section.blocks, left, width));
                let end = self.pour(strips, at);
                self.ends = [None, Some((end, left, self.area.right))];
                end
            };
        }
        at
    }

    fn opening(&mut self, blocks: &[Block], setting: &mut StripStyle<'_>, corner: Option<(f32, f32)>) -> Position {
        let (left, right) = (self.area.left, self.area.right);
        let start = Position { page: 0, y: self.area.first_top };
        let width = right - left - corner.map_or(0.0, |(width, _)| width);
        // Beside the corner stands text; a bar is as wide as the card.
        let beside = blocks.iter().position(|block| matches!(block, Block::Bar(_))).unwrap_or(blocks.len());
        let mut end = self.pour(setting.blocks(&blocks[..beside], left, width), start);
        if let Some((_, height)) = corner
            && end.page == 0
        {
            end.y = end.y.max(start.y + height);
        }
        let end = self.pour(setting.blocks(&blocks[beside..], left, right - left), end);
        self.ends = [None, Some((end, left, right))];
        end
    }

    /// A component on a two-column page: heading across, then ingredients beside method. Without ingredients the
    /// heading itself stands beside the method.
    fn side_by_side(
        &mut self,
        heading: &Block,
        aside: &[&Block],
        main: &[&Block],
        setting: &mut StripStyle<'_>,
        at: Position,
    ) -> Position {
        let side = (self.area.width() - GUTTER) * SIDE_SHARE;
        let (left, right) = (self.area.left, self.area.right);
        let wide = left + side + GUTTER;
        let across = if aside.is_empty() { side } else { right - left };
        let mut heading = setting.block(heading, left, across);
        if let Some(last) = heading.last_mut() {
            last.keep = false;
        }
        let mut narrow_strips = stack(setting, aside, left, side);
        let mut wide_strips = stack(setting, main, wide, right - wide);
        if aside.is_empty() && !main.is_empty() {
            // The first line of the method stands on the line of the heading.
            let gap = heading.first().map_or(0.0, |strip| strip.gap);
            set_gap(&mut wide_strips, gap + setting.size * HEADING_DROP);
            narrow_strips = std::mem::take(&mut heading);
        }
        let height: f32 = heading.iter().map(|strip| strip.gap + strip.height).sum();
        let lead = lead(&narrow_strips).max(lead(&wide_strips));
        let mut at = at;
        if at.y > self.area.top_of(at.page) && at.y + height + lead > self.area.bottom {
            at = self.turn(at);
        }
        let start = self.pour(heading, at);
        let narrow_end = self.pour(narrow_strips, start);
        let wide_end = self.pour(wide_strips, start);
        self.ends = [Some((narrow_end, left, left + side)), Some((wide_end, wide, right))];
        if narrow_end > wide_end { narrow_end } else { wide_end }
    }

    /// Places strips from a position on and returns where they end.
    pub(crate) fn pour(&mut self, strips: Vec<Strip>, start: Position) -> Position {
        let mut at = start;
        let mut box_open: Option<(Frame, Position)> = None;
        let mut strips = strips.into_iter().peekable();
        while strips.peek().is_some() {
            let mut group: Vec<Strip> = Vec::new();
            for strip in strips.by_ref() {
                let keep = strip.keep;
                group.push(strip);
                if !keep {
                    break;
                }
            }
            let top = self.area.top_of(at.page);
            let height: f32 = group.iter().map(|strip| strip.gap + strip.height).sum();
            let height = if at.y > top { height } else { height - group[0].gap };
            if at.y > top && at.y + height > self.area.bottom + 0.01 {
                self.close(&mut box_open, at);
                at = self.turn(at);
            }
            for strip in group {
                at = self.place(strip, at, &mut box_open);
            }
        }
        self.close(&mut box_open, at);
        at
    }

    fn place(&mut self, strip: Strip, at: Position, box_open: &mut Option<(Frame, Position)>) -> Position {
        let mut at = at;
        if box_open.is_some_and(|(frame, _)| strip.frame != Some(frame)) {
            self.close(box_open, at);
        }
        let above = if at.y > self.area.top_of(at.page) { strip.gap } else { 0.0 };
        if at.y + above + strip.height > self.area.bottom + 0.01 && at.y > self.area.top_of(at.page) {
            // A group higher than a page is cut here.
            self.close(box_open, at);
            at = self.turn(at);
        } else {
            at.y += above;
        }
        if let (Some(frame), None) = (strip.frame, *box_open) {
            *box_open = Some((frame, at));
        }
        for mut placed in strip.items {
            placed.y += at.y;
            self.pages[at.page].items.push(placed);
        }
        at.y += strip.height;
        at
    }

    /// Draws the box that is open, down to a position on its page.
    fn close(&mut self, box_open: &mut Option<(Frame, Position)>, at: Position) {
        if let Some((frame, top)) = box_open.take() {
            let item = Item::Frame { width: frame.width, height: at.y - top.y, thickness: 0.6, color: self.accent };
            let placed = Placed { x: frame.x, y: top.y, owner: Owner::Ornament, item };
            self.pages[top.page].items.push(placed);
        }
    }

    /// The top of the next page, made if there is none.
    fn turn(&mut self, at: Position) -> Position {
        let page = at.page + 1;
        if self.pages.len() <= page {
            self.pages.push(Page::default());
        }
        Position { page, y: self.area.top_of(page) }
    }
}

/// Strips of blocks in a column; columns side by side begin on one line.
fn stack(setting: &mut StripStyle<'_>, blocks: &[&Block], x: f32, width: f32) -> Vec<Strip> {
    let mut strips = setting.blocks(blocks.iter().copied(), x, width);
    set_gap(&mut strips, setting.size * 0.3);
    strips
}

/// Height of the strips that must stand together at the start.
fn lead(strips: &[Strip]) -> f32 {
    let mut height = 0.0;
    for strip in strips {
        height += strip.gap + strip.height;
        if !strip.keep {
            break;
        }
    }
    height
}
