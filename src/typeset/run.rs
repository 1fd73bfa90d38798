//! Text in one style, as it is written and as it is drawn.

use std::ops::Range;

use super::fonts::{Face, Figures};
use super::tree::NodeId;

/// How a stretch of text is set, and to which part of the document it belongs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Style {
    pub(crate) face: Face,
    pub(crate) figures: Figures,
    pub(crate) owner: NodeId,
}

/// Text in one style, as the author wrote it; `\n` forces a new line.
#[derive(Clone, Debug)]
pub(crate) struct TextRun {
    pub(crate) text: String,
    pub(crate) style: Style,
}

/// A sign that the typeface lacks and that is drawn as a shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DrawnSign {
    /// An empty box to tick.
    Box,
    /// A ticked box.
    TickedBox,
    /// A tick.
    Tick,
    /// A lozenge in place of a character that no face has.
    Missing,
}

impl DrawnSign {
    /// Room that the mark takes along the line, in thousandths of an em.
    pub(crate) const WIDTH: f32 = 860.0;
}

/// A stretch of the cleaned text that is drawn in one way.
#[derive(Clone, Debug)]
pub(crate) struct Stretch {
    pub(crate) range: Range<usize>,
    pub(crate) style: Style,
    pub(crate) kind: StretchKind,
}

/// How a stretch of text is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum StretchKind {
    /// Letters, figures and spaces.
    Text,
    /// A fraction: figures, U+2044, figures.
    Fraction,
    /// One character drawn as a shape.
    Mark(DrawnSign),
}
