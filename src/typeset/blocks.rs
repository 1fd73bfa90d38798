//! The parts of a card, as read from its Markdown and ready to be laid out.

use super::clean::MissingGlyphs;
use super::text::Paragraph;
use super::tree::{NodeId, Tree};

/// Everything that a card's Markdown says.
#[derive(Debug, Default)]
pub(crate) struct Content {
    /// The words of the title, for the running head.
    pub(crate) title: String,
    /// Title, summary, meta line and whatever else stands before the first component.
    pub(crate) opening: Vec<Block>,
    pub(crate) sections: Vec<CardSection>,
    pub(crate) tree: Tree,
    pub(crate) missing: MissingGlyphs,
}

/// A component: its heading and what stands below it.
#[derive(Debug)]
pub(crate) struct CardSection {
    pub(crate) heading: Block,
    pub(crate) blocks: Vec<Block>,
}

/// A part that is laid out by itself.
#[derive(Debug)]
pub(crate) enum Block {
    Text { text: Paragraph, role: TextRole },
    Table(Table),
    Bar(Bar),
    List(Vec<ListItem>),
    Caution(Vec<Block>),
    Rule,
}

/// What a text is on the card.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum TextRole {
    Title,
    Summary,
    /// Yield, times: one quiet line.
    Meta,
    /// A component's heading.
    Heading,
    /// A heading within a component.
    Subheading,
    Body,
}

/// A table; every row has the same number of cells.
#[derive(Debug)]
pub(crate) struct Table {
    pub(crate) right_aligned: Vec<bool>,
    /// The first row holds the column headings.
    pub(crate) rows: Vec<Vec<Paragraph>>,
}

/// An entry of a list.
#[derive(Debug)]
pub(crate) struct ListItem {
    /// A number, a bullet or a box.
    pub(crate) label: Paragraph,
    /// Whether the label is a box to tick.
    pub(crate) check: bool,
    pub(crate) blocks: Vec<Block>,
}

/// The most columns of a table that fit the narrow column of a page: weight, cups, ingredient.
const WIDEST_ASIDE: usize = 3;

impl Content {
    /// Whether any component has ingredients or things to gather, which then stand in a column of their own; tables
    /// too wide for that column, such as those of several batches, keep all of the page.
    pub(crate) fn has_side(&self) -> bool {
        let mut blocks = self.sections.iter().flat_map(|section| &section.blocks);
        let wide = |block: &Block| matches!(block, Block::Table(table) if table.right_aligned.len() > WIDEST_ASIDE);
        blocks.clone().any(Block::stands_aside) && !blocks.any(wide)
    }
}

impl Block {
    /// Whether the block belongs in the narrow column of a two-column page: tables and check lists.
    pub(crate) fn stands_aside(&self) -> bool {
        match self {
            Self::Table(_) => true,
            Self::List(entries) => entries.iter().all(|entry| entry.check),
            _ => false,
        }
    }
}

/// A bar and its legend: one figure.
#[derive(Debug)]
pub(crate) struct Bar {
    pub(crate) owner: NodeId,
    /// At least two.
    pub(crate) shares: Vec<BarShare>,
}

/// A share with its words in the legend.
#[derive(Debug)]
pub(crate) struct BarShare {
    /// Above 0, in any unit.
    pub(crate) part: f32,
    pub(crate) label: Paragraph,
}
