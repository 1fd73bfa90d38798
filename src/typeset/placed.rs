//! What layout ends in: pages of items at fixed points. Export walks them and decides no position.

use super::color::Rgb;
use super::flip::Flip;
use super::fonts::Face;
use super::run::DrawnSign;
use super::shape::Glyph;
use super::tree::{NodeId, Tree};

/// A card laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Pages {
    /// Width of every page in points.
    pub width: f32,
    /// Height of every page in points.
    pub height: f32,
    /// Size of running text in points.
    pub text_size: f32,
    /// The pages in order; never empty.
    pub pages: Vec<Page>,
    /// The logical structure that items point into.
    pub tree: Tree,
    /// For sheets printed on both sides, the edge they are turned on.
    pub flip: Option<Flip>,
}

/// One side of a card or one sheet of paper.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Page {
    /// Items in painting order; those of the content are in reading order.
    pub items: Vec<Placed>,
}

/// An item at a point, counted in points from the top left corner of the page, downwards.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// Distance of its left edge from the left edge of the page.
    pub x: f32,
    /// Distance of its top, or the baseline of text and signs, from the top of the page.
    pub y: f32,
    /// What it belongs to.
    pub owner: Owner,
    /// What is drawn.
    pub item: Item,
}

/// What an item belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Owner {
    /// A part of the document.
    Content(NodeId),
    /// Lines and frames that say nothing.
    Ornament,
    /// The running head, repeated from page to page.
    Head,
    /// The page foot.
    Foot,
}

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// Text on one line in one face.
    Text(Run),
    /// A sign drawn as a shape, standing on the baseline `y`.
    Mark {
        /// Which sign.
        mark: DrawnSign,
        /// Size of the text it stands in.
        size: f32,
        /// Its colour.
        color: Rgb,
        /// The character it stands for.
        text: String,
    },
    /// A level line, centred on the item's `y`.
    Rule {
        /// Length in points.
        width: f32,
        /// Thickness in points.
        thickness: f32,
        /// Its colour.
        color: Rgb,
    },
    /// A ruled box; its lines are centred on its edges.
    Frame {
        /// Width in points.
        width: f32,
        /// Height in points.
        height: f32,
        /// Thickness of the lines in points.
        thickness: f32,
        /// Colour of the lines.
        color: Rgb,
    },
    /// A QR code without its quiet zone.
    Code {
        /// Modules on a side.
        side: usize,
        /// Rows from the top, `true` for dark.
        modules: Vec<bool>,
        /// Length of a module in points.
        module: f32,
    },
    /// An area that opens the address of the link that owns it.
    Link {
        /// Width in points.
        width: f32,
        /// Height in points.
        height: f32,
    },
}

/// Text on one line in one face.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// The face.
    pub face: Face,
    /// Type size in points.
    pub size: f32,
    /// Ink.
    pub color: Rgb,
    /// The characters, in the order of the glyphs.
    pub text: String,
    /// The glyphs; their `bytes` share out the text.
    pub glyphs: Vec<Glyph>,
    /// Width in points, without a space at the end.
    pub width: f32,
    /// Whether this is the hyphen of a word broken at the line's end.
    pub soft_hyphen: bool,
}

impl Item {
    /// Width in points.
    pub fn width(&self) -> f32 {
        match self {
            Self::Text(run) => run.width,
            Self::Mark { size, .. } => size * DrawnSign::WIDTH / 1000.0,
            Self::Rule { width, .. } | Self::Frame { width, .. } | Self::Link { width, .. } => *width,
            Self::Code { side, module, .. } => *side as f32 * module,
        }
    }

    /// Height above and below the item's `y`, in points.
    pub fn extent(&self) -> (f32, f32) {
        match self {
            Self::Text(run) => (run.size * 0.75, run.size * 0.25),
            Self::Mark { size, .. } => (size * 0.75, size * 0.1),
            Self::Rule { thickness, .. } => (thickness / 2.0, thickness / 2.0),
            Self::Frame { height, thickness, .. } => (thickness / 2.0, height + thickness / 2.0),
            Self::Code { side, module, .. } => (0.0, *side as f32 * module),
            Self::Link { height, .. } => (0.0, *height),
        }
    }
}
