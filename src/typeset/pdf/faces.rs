//! Embeds the faces a card uses, each cut down to its glyphs.

use std::collections::{BTreeMap, BTreeSet};
use std::hash::{Hash, Hasher};

use printpdf::{FontId, ParsedFont, PdfDocument, PdfFont};
use subsetter::GlyphRemapper;

use super::super::TypesetError;
use super::super::fonts::Face;
use super::super::placed::{Item, Pages};

/// The faces of a card by name.
pub(super) struct Faces {
    faces: BTreeMap<Face, Embedded>,
}

struct Embedded {
    font: ParsedFont,
    remapper: GlyphRemapper,
}

impl Faces {
    /// Cuts down every face that the pages use.
    pub(super) fn of(pages: &Pages) -> Result<Self, TypesetError> {
        let mut used: BTreeMap<Face, BTreeSet<u16>> = BTreeMap::new();
        for placed in pages.pages.iter().flat_map(|page| &page.items) {
            if let Item::Text(run) = &placed.item {
                used.entry(run.face).or_default().extend(run.glyphs.iter().map(|glyph| glyph.id));
            }
        }
        let faces = used
            .into_iter()
            .map(|(face, glyphs)| Ok((face, Embedded::new(face, &glyphs)?)))
            .collect::<Result<_, TypesetError>>()?;
        Ok(Self { faces })
    }

    /// Number of a glyph in the embedded font; 0, the missing glyph, for one that is not used.
    pub(super) fn glyph(&self, face: Face, glyph: u16) -> u16 {
        self.faces.get(&face).and_then(|embedded| embedded.remapper.get(glyph)).unwrap_or(0)
    }

    /// Adds the faces to a document.
    pub(super) fn embed(self, document: &mut PdfDocument) {
        for (face, embedded) in self.faces {
            document.resources.fonts.map.insert(id(face), PdfFont::new(embedded.font));
        }
    }
}

/// The name of a face in the page's resources.
pub(super) fn id(face: Face) -> FontId {
    FontId(format!("T{}", face as usize))
}

impl Embedded {
    fn new(face: Face, glyphs: &BTreeSet<u16>) -> Result<Self, TypesetError> {
        let glyphs: Vec<u16> = glyphs.iter().copied().collect();
        let remapper = GlyphRemapper::new_from_glyphs_sorted(&glyphs);
        let subset = subsetter::subset(face.bytes(), 0, &remapper)
            .map_err(|source| TypesetError::Embed { face: face.name(), source })?;
        let mut font = ParsedFont::from_bytes(&subset, 0, &mut Vec::new()).ok_or(TypesetError::Reread(face.name()))?;
        font.font_name = Some(format!("{}+{}", tag(&glyphs), face.name()));
        // The subset has no OS/2 table to read the weight from.
        font.pdf_font_metrics.us_weight_class = face.weight();
        Ok(Self { font, remapper })
    }
}

/// Six letters that name a subset (ISO 32000-1, 9.6.4), the same for the same glyphs.
fn tag(glyphs: &[u16]) -> String {
    let mut hasher = rustc_hash::FxHasher::default();
    glyphs.hash(&mut hasher);
    let mut rest = hasher.finish();
    let mut letters = String::with_capacity(6);
    for _ in 0..6 {
        letters.push(char::from(b'A' + (rest % 26) as u8));
        rest /= 26;
    }
    letters
}
