//! From text to glyphs, with a store of words already shaped.

use std::cell::RefCell;
use std::rc::Rc;

use harfrust::{Buffer, Direction, Script, ShapeOptions, ShaperFont};
use rustc_hash::FxHashMap;

use super::fonts::{Face, Figures};

/// A glyph with its place in the run. Lengths are thousandths of an em.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glyph {
    /// Glyph number in the whole face.
    pub id: u16,
    /// Step to the next glyph, with kerning.
    pub advance: f32,
    /// Step that the font's width table gives, without kerning.
    pub natural: f32,
    /// Shift of this glyph alone to the right.
    pub shift: f32,
    /// Shift of this glyph alone upwards.
    pub rise: f32,
    /// Bytes of the text that this glyph stands for; 0 for the later glyphs of a cluster.
    pub bytes: u8,
}

/// A word in glyphs.
#[derive(Debug, Default)]
pub(crate) struct Shaped {
    pub(crate) glyphs: Vec<Glyph>,
    /// Width in thousandths of an em of the text around, which is not that of the glyphs of a fraction.
    pub(crate) width: f32,
}

/// Words kept before the store is emptied; a long archive repeats most of its words.
const STORE_LIMIT: usize = 20_000;

/// Shaped words of one face and numeral style.
type Store = FxHashMap<Box<str>, Rc<Shaped>>;

#[derive(Default)]
struct Shaper {
    buffer: Buffer,
    stores: [[Store; 4]; 4],
    words: usize,
}

thread_local! {
    static SHAPER: RefCell<Shaper> = RefCell::default();
}

/// The glyphs of a word in a face.
pub(crate) fn shape(face: Face, figures: Figures, text: &str) -> Rc<Shaped> {
    SHAPER.with_borrow_mut(|shaper| shaper.shape(face, figures, text))
}

impl Shaper {
    fn shape(&mut self, face: Face, figures: Figures, text: &str) -> Rc<Shaped> {
        if let Some(shaped) = self.stores[face as usize][figures as usize].get(text) {
            return Rc::clone(shaped);
        }
        let shaped = Rc::new(self.shape_anew(face, figures, text));
        if self.words >= STORE_LIMIT {
            self.stores = Default::default();
            self.words = 0;
        }
        self.words += 1;
        self.stores[face as usize][figures as usize].insert(text.into(), Rc::clone(&shaped));
        shaped
    }

    fn shape_anew(&mut self, face: Face, figures: Figures, text: &str) -> Shaped {
        let buffer = &mut self.buffer;
        buffer.clear();
        buffer.push_str(text);
        buffer.guess_segment_properties();
        let neutral = buffer.script().is_none_or(|script| script == Script::LATIN || is_neutral(script));
        if neutral {
            buffer.set_script(Some(Script::LATIN));
            buffer.set_direction(Direction::LeftToRight);
        }
        let plan = neutral.then(|| face.plan(figures));
        let options = ShapeOptions::new().plan(plan).features(figures.features());
        let font = ShaperFont::new(face.font());
        match harfrust::shape(&font, buffer, options) {
            Ok(()) => collect(&font, buffer, text, figures),
            // Unreachable with the properties set above; an empty word keeps the page whole.
            Err(_) => Shaped::default(),
        }
    }
}

fn is_neutral(script: Script) -> bool {
    [Script::COMMON, Script::INHERITED, Script::UNKNOWN].contains(&script)
}

/// Reads the shaper's output; each cluster's text goes to its first glyph.
fn collect(font: &ShaperFont<'_, '_>, buffer: &Buffer, text: &str, figures: Figures) -> Shaped {
    let infos = buffer.glyph_infos();
    let mut starts: Vec<usize> = infos.iter().map(|info| info.cluster as usize).collect();
    starts.sort_unstable();
    starts.dedup();
    let mut previous = None;
    let glyphs: Vec<Glyph> = infos
        .iter()
        .zip(buffer.glyph_positions())
        .map(|(info, position)| {
            let start = info.cluster as usize;
            let first = previous != Some(start);
            previous = Some(start);
            let end = starts.iter().copied().find(|&next| next > start).unwrap_or(text.len());
            let bytes = if first { u8::try_from(end - start).unwrap_or(u8::MAX) } else { 0 };
            Glyph {
                id: info.glyph_id as u16,
                advance: position.x_advance as f32 + figures.tracking(),
                natural: font.default_glyph_h_advance(info.glyph_id.into()) as f32,
                shift: position.x_offset as f32,
                rise: position.y_offset as f32,
                bytes,
            }
        })
        .collect();
    let width = glyphs.iter().map(|glyph| glyph.advance).sum::<f32>() * figures.scale();
    Shaped { glyphs, width }
}
