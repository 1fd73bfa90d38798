//! Several cards on sheets of paper, to be printed on both sides and cut.
//!
//! Cards stand upright, edge to edge, in the middle of the sheet, so that each back lies behind its front whichever edge
//! the sheet is turned on. The sheet lies in the direction that takes more cards.

use super::TypesetError;
use super::color::Rgb;
use super::flip::Flip;
use super::placed::{Item, Owner, Page, Pages, Placed};
use super::size::{CardSize, MM};
use super::tree::{NodeId, Tree};

/// Puts cards on sheets of a paper size, in order, fronts on odd pages and their backs on the pages after them.
///
/// Without any back there are fronts alone. All cards must have one size.
///
/// # Errors
/// `NoRoom` when fewer than two cards of the size fit on the paper, or cards differ in size.
pub fn impose(cards: Vec<Pages>, paper: CardSize, flip: Flip) -> Result<Pages, TypesetError> {
    let (width, height) = cards.first().map_or((f32::MAX, f32::MAX), |card| (card.width, card.height));
    let same = cards.iter().all(|card| card.width == width && card.height == height);
    let grid = Grid::of(paper, width, height).filter(|_| same).ok_or(TypesetError::NoRoom(paper.name()))?;
    let text_size = cards.iter().map(|card| card.text_size).fold(f32::MAX, f32::min);
    let mut tree = Tree::default();
    let mut sides: Vec<Page> = Vec::new();
    for card in cards {
        let first = tree.append(card.tree);
        sides.extend(card.pages.into_iter().map(|page| owned_from(page, first)));
        if sides.len() % 2 == 1 {
            sides.push(Page::default());
        }
    }
    let printed_on_both = sides.iter().skip(1).step_by(2).any(|back| !back.items.is_empty());
    let mut pages = Vec::new();
    let mut sides = sides.into_iter().peekable();
    while sides.peek().is_some() {
        let (mut front, mut back) = (Page::default(), Page::default());
        for (slot, side) in sides.by_ref().take(2 * grid.count()).enumerate() {
            let (page, (x, y)) = if slot % 2 == 0 {
                (&mut front, grid.place(slot / 2))
            } else {
                (&mut back, grid.place_behind(slot / 2, flip))
            };
            page.items.extend(side.items.into_iter().map(|item| Placed { x: item.x + x, y: item.y + y, ..item }));
        }
        front.items.extend(grid.marks());
        pages.push(front);
        if printed_on_both {
            back.items.extend(grid.marks());
            pages.push(back);
        }
    }
    Ok(Pages { width: grid.width, height: grid.height, text_size, pages, tree, flip: Some(flip) })
}

/// A page whose items belong to parts of a tree that was added to another from a place on.
fn owned_from(mut page: Page, first: u32) -> Page {
    for item in &mut page.items {
        if let Owner::Content(NodeId(id)) = &mut item.owner {
            *id += first;
        }
    }
    page
}

/// Where cards stand on a sheet; lengths are points.
#[derive(Clone, Copy, Debug)]
struct Grid {
    width: f32,
    height: f32,
    columns: usize,
    rows: usize,
    card_width: f32,
    card_height: f32,
    left: f32,
    top: f32,
}

/// Paper sizes are rounded to the millimetre, so that four A6 may seem a hair wider than A4.
const HAIR: f32 = 0.2;

/// Space between a card and a mark outside it, and the longest mark.
const MARK_GAP: f32 = 1.0 * MM;
const MARK: f32 = 5.0 * MM;

/// With less room than this beside the cards the marks stand between them, where no card has any text.
const LEAST_OUTSIDE: f32 = 4.0 * MM;

impl Grid {
    /// The grid that takes the most cards, two or more.
    fn of(paper: CardSize, card_width: f32, card_height: f32) -> Option<Self> {
        let (short, long) = paper.points();
        let grid = |width: f32, height: f32| {
            let columns = ((width + HAIR) / card_width) as usize;
            let rows = ((height + HAIR) / card_height) as usize;
            let left = (width - columns as f32 * card_width) / 2.0;
            let top = (height - rows as f32 * card_height) / 2.0;
            Self { width, height, columns, rows, card_width, card_height, left, top }
        };
        let (upright, across) = (grid(short, long), grid(long, short));
        let best = if across.count() > upright.count() { across } else { upright };
        (best.count() >= 2).then_some(best)
    }

    fn count(&self) -> usize {
        self.columns * self.rows
    }

    /// Top left corner of a card's front, by rows.
    fn place(&self, slot: usize) -> (f32, f32) {
        self.corner(slot % self.columns, slot / self.columns)
    }

    /// Top left corner of a card's back: turned on an upright edge columns change places, on a level edge rows do.
    fn place_behind(&self, slot: usize, flip: Flip) -> (f32, f32) {
        let (column, row) = (slot % self.columns, slot / self.columns);
        let upright_edge = (self.height > self.width) == (flip == Flip::Long);
        if upright_edge {
            self.corner(self.columns - 1 - column, row)
        } else {
            self.corner(column, self.rows - 1 - row)
        }
    }

    fn corner(&self, column: usize, row: usize) -> (f32, f32) {
        (self.left + column as f32 * self.card_width, self.top + row as f32 * self.card_height)
    }

    /// Hairlines at both ends of every cut.
    fn marks(&self) -> Vec<Placed> {
        let mut marks = Vec::new();
        for column in 0..=self.columns {
            let (x, _) = self.corner(column, 0);
            if x > HAIR && x < self.width - HAIR {
                for (from, to) in ends(self.top, self.height) {
                    marks.push(mark(x - HAIRLINE / 2.0, (from + to) / 2.0, HAIRLINE, to - from));
                }
            }
        }
        for row in 0..=self.rows {
            let (_, y) = self.corner(0, row);
            if y > HAIR && y < self.height - HAIR {
                for (from, to) in ends(self.left, self.width) {
                    marks.push(mark(from, y, to - from, HAIRLINE));
                }
            }
        }
        marks
    }
}

/// Thickness of a mark in points.
const HAIRLINE: f32 = 0.25;

fn mark(x: f32, y: f32, width: f32, thickness: f32) -> Placed {
    Placed { x, y, owner: Owner::Ornament, item: Item::Rule { width, thickness, color: Rgb::BLACK } }
}

/// Where the marks of a cut begin and end along it, near either edge of the sheet.
fn ends(margin: f32, length: f32) -> [(f32, f32); 2] {
    let (from, to) = if margin >= LEAST_OUTSIDE {
        ((margin - MARK_GAP - MARK).max(0.0), margin - MARK_GAP)
    } else {
        (margin.max(0.0), margin.max(0.0) + MARK)
    };
    [(from, to), (length - to, length - from)]
}

#[cfg(test)]
mod tests {
    use super::{Flip, Grid};
    use crate::typeset::CardSize;

    fn grid(card: CardSize, paper: CardSize) -> Option<(usize, usize, bool)> {
        let (width, height) = card.points();
        Grid::of(paper, width, height).map(|grid| (grid.columns, grid.rows, grid.width > grid.height))
    }

    #[test]
    fn sheets_lie_so_that_most_cards_fit() {
        use CardSize::{A4, A5, A6, HalfLetter, In4x6, In5x8, Letter};
        assert_eq!(grid(A6, A4), Some((2, 2, false)));
        assert_eq!(grid(A5, A4), Some((2, 1, true)));
        assert_eq!(grid(HalfLetter, Letter), Some((2, 1, true)));
        assert_eq!(grid(In4x6, Letter), Some((2, 1, false)));
        assert_eq!(grid(In5x8, Letter), Some((2, 1, true)));
        assert_eq!(grid(In5x8, A4), Some((2, 1, true)));
        assert_eq!((grid(HalfLetter, A4), grid(A4, A4), grid(Letter, A4)), (None, None, None));
    }

    /// A card's back lies behind its front: mirrored on the axis that the sheet is turned on.
    #[test]
    fn backs_lie_behind_their_fronts() {
        for (card, paper) in
            [(CardSize::A6, CardSize::A4), (CardSize::A5, CardSize::A4), (CardSize::In4x6, CardSize::Letter)]
        {
            let (width, height) = card.points();
            let grid = Grid::of(paper, width, height).expect("they fit");
            for flip in [Flip::Long, Flip::Short] {
                let upright_edge = (grid.height > grid.width) == (flip == Flip::Long);
                for slot in 0..grid.count() {
                    let ((x, y), (back_x, back_y)) = (grid.place(slot), grid.place_behind(slot, flip));
                    let mirrored =
                        if upright_edge { (grid.width - x - width, y) } else { (x, grid.height - y - height) };
                    assert!(
                        (back_x - mirrored.0).abs() < 0.01 && (back_y - mirrored.1).abs() < 0.01,
                        "{slot} {flip:?}"
                    );
                }
            }
        }
    }
}
