//! From the author's characters to those that the faces can draw.

use std::collections::BTreeMap;

use unicode_normalization::UnicodeNormalization;

use super::fonts::Face;
use super::fractions::{THIN, fractions};
use super::run::{DrawnSign, Stretch, StretchKind, TextRun};
use crate::measure::vulgar;

/// Characters that no face has, each with the times it was met.
pub(crate) type MissingGlyphs = BTreeMap<char, usize>;

/// Letters of the longest word that a number keeps beside it; units are shorter, in every language.
const HELD: usize = 7;

/// The text of all spans with spaces made single, fractions spelled out and every character drawable, and the
/// stretches it is drawn in. The stretches cover the text in order.
pub(crate) fn clean(spans: &[TextRun], missing: &mut MissingGlyphs) -> (String, Vec<Stretch>) {
    let mut cleaner = Cleaner { plain: String::new(), stretches: Vec::new(), missing };
    for span in spans {
        let text = settle(&span.text);
        let (text, ranges) = fractions(&text);
        let mut at = 0;
        for range in ranges {
            cleaner.text(&text[at..range.start], span);
            cleaner.push(&text[range.clone()], span, StretchKind::Fraction);
            at = range.end;
        }
        cleaner.text(&text[at..], span);
    }
    cleaner.trim();
    (cleaner.plain, cleaner.stretches)
}

struct Cleaner<'a> {
    plain: String,
    stretches: Vec<Stretch>,
    missing: &'a mut MissingGlyphs,
}

impl Cleaner<'_> {
    /// Adds text, cut wherever a character is drawn in another way.
    fn text(&mut self, text: &str, span: &TextRun) {
        let mut from = 0;
        for (at, character) in text.char_indices() {
            let end = at + character.len_utf8();
            if is_plain(character, span.style.face) {
                continue;
            }
            self.push(&text[from..at], span, StretchKind::Text);
            from = end;
            self.foreign(character, span);
        }
        self.push(&text[from..], span, StretchKind::Text);
    }

    /// Adds a character that the face lacks: as a shape, in simpler characters, or as a lozenge.
    fn foreign(&mut self, character: char, span: &TextRun) {
        let mut sign = [0; 4];
        let text: &str = character.encode_utf8(&mut sign);
        if let Some(mark) = mark(character) {
            return self.push(text, span, StretchKind::Mark(mark));
        }
        if is_joiner(character) {
            return;
        }
        let simpler: String = text.nfkd().collect();
        if simpler != text && simpler.chars().all(|c| is_plain(c, span.style.face)) {
            return self.push(&simpler, span, StretchKind::Text);
        }
        *self.missing.entry(character).or_default() += 1;
        self.push(text, span, StretchKind::Mark(DrawnSign::Missing));
    }

    /// Adds a stretch, without the spaces that would follow another space.
    fn push(&mut self, text: &str, span: &TextRun, kind: StretchKind) {
        let start = self.plain.len();
        for character in text.chars() {
            let after_space = self.plain.is_empty() || self.plain.ends_with([' ', '\n']);
            match character {
                ' ' if after_space => {}
                '\n' => {
                    self.plain.truncate(self.plain.trim_end_matches(' ').len().max(start));
                    self.plain.push('\n');
                }
                _ => self.plain.push(character),
            }
        }
        let range = start..self.plain.len();
        if range.is_empty() {
            return;
        }
        match self.stretches.last_mut() {
            Some(last) if last.kind == kind && kind == StretchKind::Text && last.style == span.style => {
                last.range.end = range.end;
            }
            _ => self.stretches.push(Stretch { range, style: span.style, kind }),
        }
    }

    fn trim(&mut self) {
        let end = self.plain.trim_end_matches([' ', '\n']).len();
        self.plain.truncate(end);
        for stretch in &mut self.stretches {
            stretch.range.end = stretch.range.end.min(end);
            stretch.range.start = stretch.range.start.min(end);
        }
    }
}

/// White space as plain spaces, apostrophes between letters curved, numbers held to their units.
fn settle(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut characters = text.char_indices().peekable();
    while let Some((at, character)) = characters.next() {
        let next = characters.peek().map(|&(_, next)| next);
        match character {
            '\n' => out.push('\n'),
            ' ' if holds(&out, &text[at + 1..]) => out.push('\u{a0}'),
            '\'' if out.ends_with(char::is_alphabetic) && next.is_some_and(char::is_alphabetic) => out.push('’'),
            '\u{ad}' => {}
            '\u{a0}' | THIN => out.push(character),
            c if c.is_whitespace() => out.push(' '),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

/// Whether the space between two texts holds them on one line: a number and a short word, as `9 min`, `2 cups` and
/// `180 °C`; hours and minutes; a plus sign and what it adds.
fn holds(before: &str, after: &str) -> bool {
    let word = after.split(|c: char| !(c.is_alphanumeric() || c == '°')).next().unwrap_or_default();
    let number = |c: char| c.is_ascii_digit() || vulgar(c).is_some();
    let letters = word.starts_with(|c: char| c.is_alphabetic() || c == '°') && word.chars().count() <= HELD;
    (before.ends_with(number) && letters)
        || (before.ends_with("\u{a0}h") && word.starts_with(number))
        || before.ends_with(" +")
}

/// Whether a face draws a character itself.
fn is_plain(character: char, face: Face) -> bool {
    matches!(character, ' '..='~' | '\n' | '\u{a0}' | '\u{200b}' | THIN)
        || (mark(character).is_none() && !is_joiner(character) && face.covers(character))
}

fn mark(character: char) -> Option<DrawnSign> {
    match character {
        '☐' | '\u{2b1c}' => Some(DrawnSign::Box),
        '☑' | '✅' => Some(DrawnSign::TickedBox),
        '✓' | '✔' => Some(DrawnSign::Tick),
        _ => None,
    }
}

/// Characters that only join or vary their neighbours and leave no mark of their own.
fn is_joiner(character: char) -> bool {
    matches!(character, '\u{200c}'..='\u{200f}' | '\u{2060}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}' | '\u{e0000}'..='\u{e007f}')
}
