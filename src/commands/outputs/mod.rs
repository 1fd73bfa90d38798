//! What goes out of a recipe beside its page: a file and a row each. `publish` walks the rows.
//!
//! A file has the output as its `OUTPUT`; a text by a template of its own is made by [`crate::render::recipe_text`].

use super::CommandError;
use super::desk::{Desk, Proofed};
use super::writing::RecipeOutput;
use crate::sheet::Sheet;
use crate::typeset::CardSize;

pub(super) use card::{CardKind, card, pages, sheets};

/// All that an output may be made of.
#[derive(Clone, Copy)]
pub(super) struct Making<'a> {
    pub(super) desk: &'a Desk,
    pub(super) one: &'a Proofed,
    pub(super) sheet: &'a Sheet,
    /// Of what is printed.
    pub(super) size: CardSize,
}

/// An output.
pub(super) struct OutputRow {
    /// Where it goes, in the folder of outputs.
    pub(super) folder: &'static str,
    /// What is there, for whoever published.
    pub(super) holds: &'static str,
    /// Whether the archive has its own of it, at the same path.
    pub(super) in_archive: bool,
    /// Its files by path, the first of which is printed where one is asked for; and what was found on the way.
    pub(super) make: fn(&Making<'_>) -> Result<RecipeOutput, CommandError>,
}

/// Declares the outputs, each a file beside this one.
macro_rules! outputs {
    ($($file:ident)*) => {
        $(mod $file;)*

        /// The outputs, in the order that they are told in.
        pub(super) const ROWS: &[OutputRow] = &[$($file::OUTPUT,)*];
    };
}

outputs! { card description post }

pub(super) const DESCRIPTION: OutputRow = description::OUTPUT;
pub(super) const POST: OutputRow = post::OUTPUT;

/// The outputs as one list of words: `cards, descriptions, posts`.
pub(super) fn named() -> String {
    ROWS.iter().map(|row| row.folder).collect::<Vec<_>>().join(", ")
}
