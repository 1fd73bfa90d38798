//! Breaks a prepared text into lines, all lines weighed together.
//!
//! After D. E. Knuth and M. F. Plass, "Breaking paragraphs into lines", Software: Practice and Experience 11 (1981):
//! the breaks chosen are those with the least sum of costs over the paragraph. The costs differ from the paper's, for
//! short ragged texts are the rule here.

use super::text::{Hyphens, Paragraph, anywhere};

/// How lines fill their measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Justification {
    /// Even word spaces, an uneven right edge.
    Ragged,
    /// Word spaces stretched to an even right edge.
    Justified,
    /// As ragged, but with the last line as full as the others, for titles.
    Balanced,
}

/// Where a line ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Break {
    /// Number of the word that holds the break.
    pub(crate) word: usize,
    /// Bytes of that word before the break; `None` at its end.
    pub(crate) bytes: Option<usize>,
    /// Whether a hyphen is drawn at the break.
    pub(crate) hyphen: bool,
}

/// Word spaces shrink by up to this share of their width in justified lines (common practice).
pub(crate) const SHRINK: f32 = 0.22;

/// Word spaces stretch by up to this share before a line counts as loose (common practice).
const STRETCH: f32 = 0.6;

/// A possible break, with widths counted from the start of the text.
#[derive(Clone, Copy)]
struct Candidate {
    at: Break,
    /// Width of all that stands before the break, a hyphen apart.
    before: f32,
    /// Width up to the start of the next line.
    after: f32,
    /// Width of the word spaces before the break.
    spaces: f32,
    /// Width of the word spaces up to the start of the next line.
    spaces_after: f32,
    cost: f32,
    forced: bool,
}

#[derive(Clone, Copy)]
struct Best {
    cost: f32,
    from: usize,
}

/// The ends of the lines of a text in a measure; lengths in thousandths of an em.
///
/// A line is wider than the measure only if a single character is.
pub(crate) fn linebreak(text: &Paragraph, measure: f32, hyphen: f32, fill: Justification) -> Vec<Break> {
    let candidates = candidates(text, measure);
    let mut best: Vec<Best> = Vec::with_capacity(candidates.len());
    // Candidate 0 stands for the start of the text.
    best.push(Best { cost: 0.0, from: 0 });
    let mut first = 0;
    for end in 1..candidates.len() {
        let mut choice = Best { cost: f32::INFINITY, from: end - 1 };
        for start in (first..end).rev() {
            let line = BrokenLine { start: candidates[start], end: candidates[end], measure, hyphen };
            if line.width() > measure * 1.0001 && line.least_width(fill) > measure * 1.0001 {
                // Lines only grow longer towards the front; a hyphen is the one exception, and is bounded.
                if line.width() > measure * 1.3 + hyphen {
                    break;
                }
                continue;
            }
            let cost = best[start].cost + line.cost(fill);
            if cost < choice.cost {
                choice = Best { cost, from: start };
            }
        }
        if choice.cost.is_infinite() {
            choice.cost = best[end - 1].cost + 1e6;
        }
        best.push(choice);
        if candidates[end].forced {
            first = end;
        }
    }
    let mut breaks = Vec::new();
    let mut at = candidates.len() - 1;
    while at > 0 {
        breaks.push(candidates[at].at);
        at = best[at].from;
    }
    breaks.reverse();
    breaks
}

/// All places where a line may end, in order, after one for the start of the text.
fn candidates(text: &Paragraph, measure: f32) -> Vec<Candidate> {
    let mut found = vec![Candidate {
        at: Break { word: 0, bytes: None, hyphen: false },
        before: 0.0,
        after: 0.0,
        spaces: 0.0,
        spaces_after: 0.0,
        cost: 0.0,
        forced: true,
    }];
    let (mut x, mut spaces) = (0.0, 0.0);
    for (index, word) in text.words.iter().enumerate() {
        let mut inside = |bytes: usize, width: f32, hyphen: bool, cost: f32| {
            found.push(Candidate {
                at: Break { word: index, bytes: Some(bytes), hyphen },
                before: x + width,
                after: x + width,
                spaces,
                spaces_after: spaces,
                cost,
                forced: false,
            });
        };
        // As wide as its column, a word fits; lengths are sums of floats.
        if word.width > measure + 0.5 {
            let letters: String = word.pieces.iter().map(|piece| &*piece.text).collect();
            for place in anywhere(word) {
                let syllable = word.syllables.iter().any(|end| end.bytes == place.bytes);
                let held = letters.get(..place.bytes).is_some_and(|before| before.ends_with(['\u{a0}', '–', '-']));
                let cost = if syllable || held { 3.0 } else { 60.0 };
                inside(place.bytes, place.width, syllable && !held, cost);
            }
        } else if text.hyphens == Hyphens::Freely {
            for place in &word.syllables {
                inside(place.bytes, place.width, true, 3.0);
            }
        }
        x += word.width;
        let touches = word.space == 0.0 && !word.forced;
        found.push(Candidate {
            at: Break { word: index, bytes: None, hyphen: false },
            before: x,
            after: x + word.space,
            spaces,
            spaces_after: spaces + word.space,
            // Between touching words, as after a dash, a break is a little worse than at a space.
            cost: if touches { 1.0 } else { 0.0 },
            forced: word.forced,
        });
        x += word.space;
        spaces += word.space;
    }
    found
}

/// The stretch between two breaks.
struct BrokenLine {
    start: Candidate,
    end: Candidate,
    measure: f32,
    hyphen: f32,
}

impl BrokenLine {
    fn width(&self) -> f32 {
        let hyphen = if self.end.at.hyphen { self.hyphen } else { 0.0 };
        (self.end.before - self.start.after + hyphen).max(0.0)
    }

    fn space_width(&self) -> f32 {
        (self.end.spaces - self.start.spaces_after).max(0.0)
    }

    /// Width with the spaces shrunk as far as the fill allows.
    fn least_width(&self, fill: Justification) -> f32 {
        match fill {
            Justification::Ragged | Justification::Balanced => self.width(),
            Justification::Justified => self.width() - SHRINK * self.space_width(),
        }
    }

    fn cost(&self, fill: Justification) -> f32 {
        let slack = self.measure - self.width();
        let share = slack / self.measure.max(1.0);
        // One line more must be worth its room.
        let line = if fill == Justification::Balanced { 200.0 } else { 2.0 };
        let mut cost = line + self.end.cost;
        if self.start.at.hyphen && self.end.at.hyphen {
            cost += 8.0;
        }
        if self.end.forced && fill != Justification::Balanced {
            // A last line of one short word, or of half a word, looks like a slip.
            let short = share > 0.85 && !self.start.forced;
            let overfull = if slack < 0.0 { 20.0 * self.looseness(slack).abs() } else { 0.0 };
            return cost + overfull + if short { 4.0 } else { 0.0 } + if self.start.at.hyphen { 6.0 } else { 0.0 };
        }
        cost + match fill {
            Justification::Ragged | Justification::Balanced => 100.0 * share * share,
            Justification::Justified => (10.0 * self.looseness(slack).abs().powi(3)).min(2000.0),
        }
    }

    /// Slack in units of what the spaces may give: 1 is as loose as should be, -1 as tight as may be.
    fn looseness(&self, slack: f32) -> f32 {
        let give = if slack >= 0.0 { STRETCH } else { SHRINK };
        slack / (give * self.space_width()).max(1.0)
    }
}
