//! Embeds the faces a card uses, each cut down to its glyphs (ISO 32000-1, 9.7 to 9.10).

use std::collections::{BTreeMap, BTreeSet};
use std::hash::{Hash, Hasher};

use lopdf::{Dictionary, Document, Object, ObjectId, Stream, StringFormat, dictionary};
use printpdf::{FontId, ToUnicodeCMap};
use subsetter::GlyphRemapper;

use super::super::TypesetError;
use super::super::fonts::Face;
use super::super::placed::{Item, Pages};

/// The faces of a card by name.
pub(super) struct Faces {
    faces: BTreeMap<Face, Embedded>,
}

struct Embedded {
    /// Glyphs of the whole face, in the order that they have in the embedded one.
    glyphs: Vec<u16>,
    /// The face cut down: its table of outlines alone.
    outlines: Vec<u8>,
}

impl Faces {
    /// Cuts down every face that the pages use.
    pub(super) fn of(pages: &Pages) -> Result<Self, TypesetError> {
        let mut used: BTreeMap<Face, BTreeSet<u16>> = BTreeMap::new();
        for placed in pages.pages.iter().flat_map(|page| &page.items) {
            if let Item::Text(run) = &placed.item {
                // The missing glyph comes first in every font.
                used.entry(run.face).or_insert_with(|| BTreeSet::from([0])).extend(run.glyphs.iter().map(|g| g.id));
            }
        }
        let faces = used
            .into_iter()
            .map(|(face, glyphs)| Ok((face, Embedded::new(face, glyphs.into_iter().collect())?)))
            .collect::<Result<_, TypesetError>>()?;
        Ok(Self { faces })
    }

    /// Number of a glyph in the embedded font; 0, the missing glyph, for one that is not used.
    pub(super) fn glyph(&self, face: Face, glyph: u16) -> u16 {
        let place = self.faces.get(&face).and_then(|embedded| embedded.glyphs.binary_search(&glyph).ok());
        place.and_then(|place| u16::try_from(place).ok()).unwrap_or(0)
    }

    /// Adds the faces to a document and names them to its pages; `said` is what a glyph says when it is read out.
    pub(super) fn embed<'s>(
        self,
        file: &mut Document,
        page_ids: &[ObjectId],
        said: impl Fn(Face, u16) -> Option<&'s str>,
    ) {
        let mut names = Dictionary::new();
        for (face, embedded) in self.faces {
            let font = embedded.add(file, face, &|glyph| said(face, glyph));
            names.set(id(face).0, font);
        }
        for page in page_ids {
            let resources = file.get_dictionary(*page).and_then(|page| page.get(b"Resources")?.as_reference());
            if let Ok(resources) = resources.and_then(|id| file.get_dictionary_mut(id)) {
                resources.set("Font", names.clone());
            }
        }
    }
}

/// The name of a face in the page's resources.
pub(super) fn id(face: Face) -> FontId {
    FontId(format!("T{}", face as usize))
}

impl Embedded {
    fn new(face: Face, glyphs: Vec<u16>) -> Result<Self, TypesetError> {
        let remapper = GlyphRemapper::new_from_glyphs_sorted(&glyphs);
        let subset = subsetter::subset(face.bytes(), 0, &remapper)
            .map_err(|source| TypesetError::Embed { face: face.name(), source })?;
        let outlines = table(&subset, *b"CFF ").ok_or(TypesetError::Reread(face.name()))?.to_vec();
        Ok(Self { glyphs, outlines })
    }

    fn add<'s>(self, file: &mut Document, face: Face, said: &dyn Fn(u16) -> Option<&'s str>) -> Object {
        let name = format!("{}+{}", tag(&self.glyphs), face.name());
        let widths = face.font().glyph_metrics();
        let widths: Vec<Object> = self
            .glyphs
            .iter()
            .map(|glyph| Object::Integer(widths.h_advance(u32::from(*glyph).into()) as i64))
            .collect();
        let texts = self.glyphs.iter().enumerate().filter_map(|(place, glyph)| {
            let text = said(*glyph).filter(|text| !text.is_empty())?;
            Some((place as u32, text.chars().map(u32::from).collect()))
        });
        let texts = ToUnicodeCMap { mappings: texts.collect() }.to_cmap_string(&id(face).0);
        let texts = file.add_object(Stream::new(Dictionary::new(), texts.into_bytes()));
        let program = file.add_object(Stream::new(dictionary! { "Subtype" => "CIDFontType0C" }, self.outlines));
        let mut descriptor = descriptor(face, &name);
        descriptor.set("FontFile3", program);
        let descriptor = file.add_object(descriptor);
        let text = |text: &str| Object::String(text.into(), StringFormat::Literal);
        let system = dictionary! { "Registry" => text("Adobe"), "Ordering" => text("Identity"), "Supplement" => 0 };
        let outlines = dictionary! {
            "Type" => "Font",
            "Subtype" => "CIDFontType0",
            "BaseFont" => name.as_str(),
            "CIDSystemInfo" => system,
            "W" => vec![0.into(), widths.into()],
            "FontDescriptor" => descriptor,
        };
        let font = dictionary! {
            "Type" => "Font",
            "Subtype" => "Type0",
            "BaseFont" => name.as_str(),
            "Encoding" => "Identity-H",
            "DescendantFonts" => vec![outlines.into()],
            "ToUnicode" => texts,
        };
        file.add_object(font).into()
    }
}

/// What readers need to know of a face where they cannot use it (ISO 32000-1, 9.8).
fn descriptor(face: Face, name: &str) -> Dictionary {
    const NONSYMBOLIC: i64 = 1 << 5;
    const ITALIC: i64 = 1 << 6;
    let metrics = face.font().metrics();
    let angle = face.font().style_metrics().italic_angle.map_or(0.0, |angle| angle.to_f32());
    let line = metrics.hhea_line.unwrap_or_default();
    let whole = |length: f32| Object::Integer(length.round() as i64);
    let bounds = metrics.bounds;
    let bounds = [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max].map(|side| whole(side.to_f32()));
    // No table has it; as is usual, it is told from the weight.
    let stem = 50.0 + (f32::from(face.weight()) / 65.0).powi(2);
    dictionary! {
        "Type" => "FontDescriptor",
        "FontName" => name,
        "Flags" => NONSYMBOLIC | if angle == 0.0 { 0 } else { ITALIC },
        "FontBBox" => bounds.to_vec(),
        "ItalicAngle" => whole(angle),
        "Ascent" => whole(line.ascender.to_f32()),
        "Descent" => whole(line.descender.to_f32()),
        "CapHeight" => whole(metrics.cap_height.map_or(0.0, |height| height.to_f32())),
        "StemV" => whole(stem),
    }
}

/// A table of an OpenType file (ISO/IEC 14496-22, 4.3: the table directory).
fn table(font: &[u8], name: [u8; 4]) -> Option<&[u8]> {
    let number = |at: usize| Some(u32::from_be_bytes(font.get(at..at + 4)?.try_into().ok()?) as usize);
    let count = u16::from_be_bytes(font.get(4..6)?.try_into().ok()?);
    let records = (0..usize::from(count)).map(|record| 12 + 16 * record);
    let record = records.into_iter().find(|record| font.get(*record..record + 4) == Some(&name))?;
    let start = number(record + 8)?;
    font.get(start..start + number(record + 12)?)
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
