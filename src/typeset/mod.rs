//! Sets a recipe card: Markdown in, PDF out.
//!
//! The stages, each a file: `read` makes blocks of Markdown, with `inline`, `clean` and `fractions` for running text;
//! `text`, `syllables` and `shape` turn words into glyphs; `linebreak` and `lines` break paragraphs; `strips`, `table` and `bar`
//! stack lines; `pages` fills pages, `furniture` surrounds them and `fit` chooses the type size. All that ends in
//! [`Pages`], placed items that `impose` may put on larger sheets and `pdf` writes out.

mod bar;
mod blocks;
mod clean;
mod code;
mod color;
mod columns;
mod fit;
mod flip;
mod fonts;
mod fractions;
mod furniture;
mod impose;
mod inline;
mod layout;
mod linebreak;
mod lines;
mod pages;
mod pdf;
mod placed;
mod read;
mod run;
mod shape;
mod size;
mod strips;
mod syllables;
mod table;
mod text;
mod tree;

pub use color::Rgb;
pub use flip::Flip;
pub use fonts::Face;
pub use impose::impose;
pub use layout::{Foot, Labels, Layout};
pub use placed::{Item, Owner, Page, Pages, Placed, Run};
pub use run::DrawnSign;
pub use shape::Glyph;
pub use size::CardSize;
pub use tree::{NodeId, StructureElement, StructureType, Tree};

use hypher::Lang;

/// A finished card.
#[derive(Clone, Debug)]
pub struct Card {
    /// The PDF file.
    pub pdf: Vec<u8>,
    /// Number of pages; a small card has two.
    pub pages: usize,
    /// Size of running text in points, 7.5 to 11.
    pub text_size: f32,
    /// Characters that the typeface lacks, in order; each stands on the card as a lozenge.
    pub missing: Vec<MissingGlyph>,
    /// Whether a QR code for the link is on the card; a link may be too long for the size.
    pub link_placed: bool,
}

/// A character that the typeface lacks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MissingGlyph {
    /// The character.
    pub character: char,
    /// How often it stands on the card.
    pub times: usize,
}

/// Why a card could not be set.
#[derive(Debug, thiserror::Error)]
pub enum TypesetError {
    /// A card size by a name that is not known.
    #[error("unknown card size `{0}`: there are {names}", names = CardSize::names())]
    UnknownSize(String),
    /// An edge that a sheet does not have.
    #[error("unknown edge `{0}`: a sheet is turned on its long or its short edge")]
    UnknownEdge(String),
    /// Cards too large for a paper size.
    #[error("fewer than two cards of that size fit on {0}")]
    NoRoom(&'static str),
    /// A colour not written as `#rrggbb`.
    #[error("cannot read `{0}` as a colour: write `#` and six hexadecimal digits, as in `#7a3b2e`")]
    UnreadableColour(String),
    /// A face could not be cut down to the glyphs used.
    #[error("cannot embed the face {face}")]
    Embed {
        /// PostScript name of the face.
        face: &'static str,
        /// What the subsetter said.
        #[source]
        source: subsetter::Error,
    },
    /// A face cut down to the glyphs used could not be read back.
    #[error("cannot read back the embedded face {0}")]
    Reread(&'static str),
    /// The PDF could not be put together.
    #[error("cannot write the PDF")]
    Write(#[source] lopdf::Error),
}

/// A card laid out but not yet written, with what the layout met.
#[derive(Clone, Debug)]
pub struct Composed {
    /// The pages.
    pub pages: Pages,
    /// Characters that the typeface lacks, in order.
    pub missing: Vec<MissingGlyph>,
    /// Whether a QR code for the link is on the card.
    pub link_placed: bool,
}

/// Lays out a card.
pub fn compose(markdown: &str, layout: &Layout) -> Composed {
    let content = read::read(markdown, language(&layout.language));
    let fitted = fit::fit(content, layout);
    let missing = fitted.missing.into_iter().map(|(character, times)| MissingGlyph { character, times }).collect();
    Composed { pages: fitted.pages, missing, link_placed: fitted.link_placed }
}

/// Sets a card.
///
/// # Errors
/// `Embed`, `Reread` and `Write` when a font or the file cannot be made; no Markdown brings them about.
pub fn typeset(markdown: &str, layout: &Layout) -> Result<Card, TypesetError> {
    let composed = compose(markdown, layout);
    Ok(Card {
        pdf: write(&composed.pages, layout)?,
        pages: composed.pages.pages.len(),
        text_size: composed.pages.text_size,
        missing: composed.missing,
        link_placed: composed.link_placed,
    })
}

/// Writes laid-out pages as a PDF file.
///
/// # Errors
/// As [`typeset`].
pub fn write(pages: &Pages, layout: &Layout) -> Result<Vec<u8>, TypesetError> {
    pdf::write(pages, layout)
}

/// The language whose syllables are known for a BCP 47 tag.
fn language(tag: &str) -> Option<Lang> {
    let code: [u8; 2] = tag.split(['-', '_']).next()?.to_ascii_lowercase().as_bytes().try_into().ok()?;
    Lang::from_iso(code)
}
