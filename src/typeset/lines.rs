//! From breaks to lines of positioned runs.

use std::ops::Range;

use super::fonts::Figures;
use super::linebreak::{Break, Justification, SHRINK, linebreak};
use super::run::{DrawnSign, Style};
use super::shape::{Glyph, shape};
use super::text::{Drawn, Paragraph, WordPart, cut};

/// A line of text; lengths are thousandths of an em.
#[derive(Clone, Debug, Default)]
pub(crate) struct TextLine {
    pub(crate) parts: Vec<LinePart>,
    /// Width without a space at the end.
    pub(crate) width: f32,
}

/// A stretch of a line in one style.
#[derive(Clone, Debug)]
pub(crate) struct LinePart {
    pub(crate) x: f32,
    pub(crate) style: Style,
    pub(crate) text: String,
    pub(crate) drawn: PartDrawn,
}

#[derive(Clone, Debug)]
pub(crate) enum PartDrawn {
    Glyphs { glyphs: Vec<Glyph>, width: f32 },
    Hyphen { glyphs: Vec<Glyph>, width: f32 },
    Mark(DrawnSign),
}

/// Breaks a text in a measure and sets its lines. `measure` is in thousandths of an em.
pub(crate) fn lines(text: &Paragraph, measure: f32, fill: Justification) -> Vec<TextLine> {
    let breaks = breaks(text, measure, fill);
    let mut set = Vec::with_capacity(breaks.len());
    let mut from = (0, 0);
    for end in breaks {
        set.push(line(text, from, end, measure, fill));
        from = match end.bytes {
            Some(bytes) => (end.word, bytes),
            None => (end.word + 1, 0),
        };
    }
    set
}

/// The ends of the lines of a text in a measure.
pub(crate) fn breaks(text: &Paragraph, measure: f32, fill: Justification) -> Vec<Break> {
    let Some(style) = text.words.iter().find_map(|word| word.pieces.first()).map(|piece| piece.style) else {
        return Vec::new();
    };
    // Nothing to weigh where all fits on one line.
    let single = text.words.iter().rev().skip(1).all(|word| !word.forced) && text.natural_width() <= measure;
    if single {
        return vec![Break { word: text.words.len() - 1, bytes: None, hyphen: false }];
    }
    linebreak(text, measure, shape(style.face, style.figures, "-").width, fill)
}

/// The line from a word and a byte in it to a break.
fn line(text: &Paragraph, from: (usize, usize), end: Break, measure: f32, fill: Justification) -> TextLine {
    let mut setter = Setter::default();
    let last = text.words.get(end.word).is_none_or(|word| word.forced && end.bytes.is_none());
    for index in from.0..=end.word {
        let Some(word) = text.words.get(index) else { break };
        let start = if index == from.0 { from.1 } else { 0 };
        let stop = if index == end.word { end.bytes.unwrap_or(usize::MAX) } else { usize::MAX };
        if start == 0 && stop == usize::MAX {
            word.pieces.iter().for_each(|piece| setter.piece(piece));
        } else {
            cut(word, Range { start, end: stop }).iter().for_each(|piece| setter.piece(piece));
        }
        if index < end.word && word.space > 0.0 {
            setter.space(word.space);
        }
    }
    let trailing = text.words.get(end.word).is_some_and(|word| end.bytes.is_none() && word.space > 0.0);
    setter.finish(end.hyphen, trailing, (fill == Justification::Justified && !last).then_some(measure))
}

#[derive(Default)]
struct Setter {
    parts: Vec<LinePart>,
    x: f32,
    /// Part and glyph numbers of the word spaces, for stretching.
    spaces: Vec<(usize, usize)>,
    space_width: f32,
}

impl Setter {
    fn piece(&mut self, piece: &WordPart) {
        match &piece.drawn {
            Drawn::Mark(mark) => {
                self.parts.push(LinePart {
                    x: self.x,
                    style: piece.style,
                    text: piece.text.to_string(),
                    drawn: PartDrawn::Mark(*mark),
                });
                self.x += DrawnSign::WIDTH;
            }
            Drawn::Glyphs(shaped) => self.glyphs(piece.style, &piece.text, &shaped.glyphs, shaped.width),
        }
    }

    fn glyphs(&mut self, style: Style, text: &str, added: &[Glyph], added_width: f32) {
        match self.parts.last_mut() {
            Some(LinePart { style: last, text: letters, drawn: PartDrawn::Glyphs { glyphs, width }, .. })
                if last.face == style.face
                    && last.owner == style.owner
                    && last.figures.scale() == style.figures.scale() =>
            {
                letters.push_str(text);
                glyphs.extend_from_slice(added);
                *width += added_width;
            }
            _ => self.parts.push(LinePart {
                x: self.x,
                style,
                text: text.to_owned(),
                drawn: PartDrawn::Glyphs { glyphs: added.to_vec(), width: added_width },
            }),
        }
        self.x += added_width;
    }

    fn space(&mut self, width: f32) {
        let Some(style) = self.parts.last().map(|part| part.style) else {
            self.x += width;
            return;
        };
        let style = Style { figures: Figures::Running, ..style };
        let space = shape(style.face, style.figures, " ");
        self.glyphs(style, " ", &space.glyphs, space.width);
        self.space_width += space.width;
        if let Some(LinePart { drawn: PartDrawn::Glyphs { glyphs, .. }, .. }) = self.parts.last() {
            self.spaces.push((self.parts.len() - 1, glyphs.len() - 1));
        }
    }

    fn finish(mut self, hyphen: bool, trailing: bool, justify: Option<f32>) -> TextLine {
        if hyphen && let Some(style) = self.parts.last().map(|part| part.style) {
            let shaped = shape(style.face, style.figures, "-");
            let drawn = PartDrawn::Hyphen { glyphs: shaped.glyphs.clone(), width: shaped.width };
            self.parts.push(LinePart { x: self.x, style, text: "-".to_owned(), drawn });
            self.x += shaped.width;
        }
        if let Some(measure) = justify {
            self.justify(measure - self.x);
        }
        if trailing && let Some(style) = self.parts.last().map(|part| part.style) {
            // Readers that take the text out of the page need the space; it adds no width.
            let style = Style { figures: Figures::Running, ..style };
            let space = shape(style.face, style.figures, " ");
            self.glyphs(style, " ", &space.glyphs, 0.0);
        }
        TextLine { parts: self.parts, width: self.x }
    }

    /// Shares out the slack of a line over its spaces, unless that would leave gaps.
    fn justify(&mut self, slack: f32) {
        let per_width = slack / self.space_width.max(1.0);
        if self.spaces.is_empty() || !(-SHRINK - 0.01..=1.6).contains(&per_width) {
            return;
        }
        let each = slack / self.spaces.len() as f32;
        for &(part, glyph) in &self.spaces {
            if let PartDrawn::Glyphs { glyphs, width } = &mut self.parts[part].drawn {
                glyphs[glyph].advance += each;
                *width += each;
            }
        }
        let mut x = 0.0;
        for part in &mut self.parts {
            part.x = x;
            x += match &part.drawn {
                PartDrawn::Glyphs { width, .. } | PartDrawn::Hyphen { width, .. } => *width,
                PartDrawn::Mark(_) => DrawnSign::WIDTH,
            };
        }
        self.x = x;
    }
}

#[cfg(test)]
mod tests {
    use hypher::Lang;

    use super::super::fonts::{Face, Figures};
    use super::super::run::{Style, TextRun};
    use super::super::text::{Hyphens, Paragraph, prepare};
    use super::super::tree::NodeId;
    use super::{Justification, TextLine, lines};

    const STEP: &str = "Whisk the yolks with the sugar until the whisk leaves a trail, pour the infused cream over them \
        and strain the custard immediately through a fine sieve.";

    fn text(words: &str, hyphens: Hyphens) -> Paragraph {
        let style = Style { face: Face::Regular, figures: Figures::Running, owner: NodeId::ROOT };
        prepare(&[TextRun { text: words.into(), style }], Some(Lang::English), hyphens, &mut Default::default())
    }

    fn set(words: &str, measure: f32, fill: Justification) -> Vec<String> {
        let set = lines(&text(words, Hyphens::Freely), measure, fill);
        assert!(set.iter().all(|line| line.width <= measure * 1.001), "{words}");
        set.iter().map(words_of).collect()
    }

    fn words_of(line: &TextLine) -> String {
        let text: String = line.parts.iter().map(|part| part.text.as_str()).collect();
        text.trim_end().replace('\u{a0}', " ")
    }

    #[test]
    fn lines_keep_every_word_and_the_measure() {
        for measure in [2_000.0, 5_000.0, 9_000.0, 17_000.0, 30_000.0, 100_000.0] {
            for fill in [Justification::Ragged, Justification::Justified, Justification::Balanced] {
                let joined = set(STEP, measure, fill).join(" ").replace("- ", "");
                assert_eq!(joined.replace(' ', ""), STEP.replace(' ', ""), "{measure}");
            }
        }
    }

    #[test]
    fn justified_lines_end_together() {
        let set = lines(&text(STEP, Hyphens::Freely), 24_000.0, Justification::Justified);
        let (_, others) = set.split_last().expect("lines");
        assert!(others.len() >= 2 && others.iter().all(|line| (line.width - 24_000.0).abs() < 1.0));
    }

    #[test]
    fn titles_are_balanced() {
        assert_eq!(
            set("Quince and brown butter tart", 10_500.0, Justification::Balanced),
            ["Quince and", "brown butter tart"]
        );
        assert_eq!(set("Quince tart", 10_500.0, Justification::Balanced), ["Quince tart"]);
    }

    #[test]
    fn a_word_wider_than_the_measure_breaks() {
        let set = set(&"x".repeat(40), 4_000.0, Justification::Ragged);
        assert!(set.len() > 3 && set.concat().len() == 40, "{set:?}");
    }

    #[test]
    fn numbers_stay_with_their_units() {
        for measure in [6_000.0, 8_000.0, 10_000.0] {
            let set = set(
                "Bake at 180 °C for 22–25 min, then add 1 1/4 cups + 2 tbsp of milk, 2 h 30 min",
                measure,
                Justification::Ragged,
            );
            for held in ["180 °C", "22–25 min,", "+ 2 tbsp"] {
                assert!(set.iter().any(|line| line.contains(held)), "{held} in {set:?}");
            }
        }
    }

    #[test]
    fn short_ends_of_compounds_stay() {
        assert_eq!(set("Start hands-on work", 6_000.0, Justification::Ragged), ["Start", "hands-on", "work"]);
    }

    #[test]
    fn a_break_in_the_text_ends_the_line() {
        assert_eq!(set("one\ntwo  three ", 90_000.0, Justification::Ragged), ["one", "two three"]);
    }
}
