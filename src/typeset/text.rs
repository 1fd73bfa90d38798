//! Styled text made ready for line breaking: words, the pieces they are drawn in, and where they may break.
//!
//! All widths are thousandths of an em, so that one preparation serves every type size.

use std::ops::Range;
use std::rc::Rc;

use hypher::Lang;
use unicode_linebreak::{BreakOpportunity, linebreaks};

use super::clean::{MissingGlyphs, clean};
use super::fonts::Figures;
use super::run::{DrawnSign, Stretch, StretchKind, Style, TextRun};
use super::shape::{Shaped, shape};
use super::syllables::syllables;

#[derive(Clone, Debug)]
pub(crate) enum Drawn {
    Glyphs(Rc<Shaped>),
    Mark(DrawnSign),
}

/// Part of a word in one style.
#[derive(Clone, Debug)]
pub(crate) struct WordPart {
    pub(crate) style: Style,
    pub(crate) text: Box<str>,
    pub(crate) drawn: Drawn,
}

impl WordPart {
    pub(crate) fn glyphs(style: Style, text: &str) -> Self {
        let drawn = Drawn::Glyphs(shape(style.face, style.figures, text));
        Self { style, text: text.into(), drawn }
    }

    pub(crate) fn width(&self) -> f32 {
        match &self.drawn {
            Drawn::Glyphs(shaped) => shaped.width,
            Drawn::Mark(_) => DrawnSign::WIDTH,
        }
    }
}

/// Where a word may break inside: bytes before the break, the width up to there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Inside {
    pub(crate) bytes: usize,
    pub(crate) width: f32,
}

/// Text that stays on one line unless it is broken by a hyphen.
#[derive(Clone, Debug)]
pub(crate) struct WordBox {
    pub(crate) pieces: Vec<WordPart>,
    pub(crate) width: f32,
    /// Width of the space that follows; 0 where words touch.
    pub(crate) space: f32,
    /// Whether the line ends here.
    pub(crate) forced: bool,
    /// Ends of syllables, the last excepted.
    pub(crate) syllables: Vec<Inside>,
}

/// When words are hyphenated.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Hyphens {
    /// Only words wider than the measure: headings, cells.
    #[default]
    InNeed,
    /// Wherever the lines gain by it.
    Freely,
}

/// A paragraph, a cell or a heading, ready to be broken into lines.
#[derive(Clone, Debug, Default)]
pub(crate) struct Paragraph {
    pub(crate) words: Vec<WordBox>,
    pub(crate) hyphens: Hyphens,
}

impl Paragraph {
    /// Width of the widest line if lines end only where they must.
    pub(crate) fn natural_width(&self) -> f32 {
        let mut widest = 0.0_f32;
        let (mut line, mut space) = (0.0, 0.0);
        for word in &self.words {
            line += space + word.width;
            space = word.space;
            widest = widest.max(line);
            if word.forced {
                (line, space) = (0.0, 0.0);
            }
        }
        widest
    }

    /// Width of the widest word.
    pub(crate) fn widest_word(&self) -> f32 {
        self.words.iter().map(|word| word.width).fold(0.0, f32::max)
    }
}

/// Longest piece that is shaped at once, in bytes; longer unbroken text is shaped in parts.
const LONGEST_PIECE: usize = 60;

/// Prepares text; `language` `None` leaves words without syllables. Characters that no face has are added to `missing`.
pub(crate) fn prepare(
    spans: &[TextRun],
    language: Option<Lang>,
    hyphens: Hyphens,
    missing: &mut MissingGlyphs,
) -> Paragraph {
    let (plain, stretches) = clean(spans, missing);
    let mut words: Vec<WordBox> = Vec::new();
    let mut start = 0;
    let mut stretch = 0;
    for (end, kind) in linebreaks(&plain) {
        if is_joined(&plain[..end], &plain[end..]) {
            continue;
        }
        let whole = &plain[start..end];
        let word = whole.trim_end_matches([' ', '\n']);
        while stretch + 1 < stretches.len() && stretches[stretch].range.end <= start {
            stretch += 1;
        }
        let pieces = pieces(&plain, start..start + word.len(), &stretches[stretch.min(stretches.len())..]);
        let forced = kind == BreakOpportunity::Mandatory && whole.ends_with('\n');
        let space = if whole.len() > word.len() && !forced {
            let style = pieces.last().map(|piece| piece.style).or(spans.first().map(|span| span.style));
            style.map_or(0.0, |style| shape(style.face, Figures::Running, " ").width)
        } else {
            0.0
        };
        let width = pieces.iter().map(WordPart::width).sum();
        let syllables = language.map_or_else(Vec::new, |language| {
            let ends = syllables(word, language);
            ends.into_iter().map(|bytes| Inside { bytes, width: width_before(&pieces, bytes) }).collect()
        });
        if !pieces.is_empty() || forced {
            words.push(WordBox { pieces, width, space, forced, syllables });
        }
        start = end;
    }
    if let Some(last) = words.last_mut() {
        last.space = 0.0;
        last.forced = true;
    }
    Paragraph { words, hyphens }
}

/// Whether a break would fall after the dash of a range such as `22–25`, or before the last letters of `hands-on`.
fn is_joined(before: &str, after: &str) -> bool {
    let Some(part) = before.strip_suffix(['–', '-']) else { return false };
    let range = part.ends_with(|c: char| c.is_ascii_digit()) && after.starts_with(|c: char| c.is_ascii_digit());
    let letters = after.chars().take_while(|c| c.is_alphabetic()).count();
    range || (part.ends_with(char::is_alphabetic) && (1..3).contains(&letters))
}

fn pieces(plain: &str, word: Range<usize>, stretches: &[Stretch]) -> Vec<WordPart> {
    let mut pieces = Vec::new();
    for stretch in stretches {
        if stretch.range.start >= word.end {
            break;
        }
        let mut at = stretch.range.start.max(word.start);
        let end = stretch.range.end.min(word.end);
        while at < end {
            let mut to = end.min(at + LONGEST_PIECE);
            while !plain.is_char_boundary(to) {
                to -= 1;
            }
            let text = &plain[at..to];
            pieces.push(match stretch.kind {
                StretchKind::Text => WordPart::glyphs(stretch.style, text),
                StretchKind::Fraction => WordPart::glyphs(Style { figures: Figures::Fraction, ..stretch.style }, text),
                StretchKind::Mark(mark) => {
                    WordPart { style: stretch.style, text: text.into(), drawn: Drawn::Mark(mark) }
                }
            });
            at = to;
        }
    }
    pieces
}

/// Width of the glyphs that stand for the first `bytes` of a word.
fn width_before(pieces: &[WordPart], bytes: usize) -> f32 {
    let mut width = 0.0;
    let mut at = 0;
    for piece in pieces {
        match &piece.drawn {
            Drawn::Mark(_) if at < bytes => width += DrawnSign::WIDTH,
            Drawn::Mark(_) => return width,
            Drawn::Glyphs(shaped) => {
                let mut inside = at;
                for glyph in &shaped.glyphs {
                    if inside >= bytes && glyph.bytes > 0 {
                        return width;
                    }
                    inside += usize::from(glyph.bytes);
                    width += glyph.advance;
                }
            }
        }
        at += piece.text.len();
    }
    width
}

/// Every place between characters of a word where it may break in need, the last excepted.
pub(crate) fn anywhere(word: &WordBox) -> Vec<Inside> {
    let mut found = Vec::new();
    let (mut bytes, mut width) = (0, 0.0);
    for piece in &word.pieces {
        match &piece.drawn {
            Drawn::Mark(_) => {
                bytes += piece.text.len();
                width += DrawnSign::WIDTH;
                found.push(Inside { bytes, width });
            }
            Drawn::Glyphs(shaped) => {
                let end = bytes + piece.text.len();
                for glyph in &shaped.glyphs {
                    if glyph.bytes > 0 && width > 0.0 && found.last().is_none_or(|last: &Inside| last.bytes < bytes) {
                        found.push(Inside { bytes, width });
                    }
                    bytes += usize::from(glyph.bytes);
                    width += glyph.advance;
                }
                bytes = end;
            }
        }
    }
    let whole: usize = word.pieces.iter().map(|piece| piece.text.len()).sum();
    found.retain(|inside| inside.bytes > 0 && inside.bytes < whole);
    found
}

/// The pieces of a word from one byte to another; pieces cut through are shaped anew.
pub(crate) fn cut(word: &WordBox, range: Range<usize>) -> Vec<WordPart> {
    let mut pieces = Vec::new();
    let mut at = 0;
    for piece in &word.pieces {
        let end = at + piece.text.len();
        let from = range.start.clamp(at, end) - at;
        let to = range.end.clamp(at, end) - at;
        if from == 0 && to == piece.text.len() {
            pieces.push(piece.clone());
        } else if from < to
            && let Some(part) = piece.text.get(from..to)
        {
            pieces.push(WordPart::glyphs(piece.style, part));
        }
        at = end;
    }
    pieces
}
