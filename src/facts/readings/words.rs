//! The words that tell what is at a temperature.

use std::ops::Range;

use super::row::{OneOf, ReadingRow};
use crate::facts::{Facts, Said, Stated, StepKey};
use crate::language::{Sense, clause, sentence, sentence_at};

/// The words that speak of a temperature: a sentence and the clause in it, or a whole step.
pub(super) struct Heard<'f> {
    said: &'f Said<'f>,
    sentence: Range<usize>,
    clause: Range<usize>,
}

impl<'f> Heard<'f> {
    /// The sentence of a temperature; under a key of its own that in which the step states the same one.
    pub(super) fn around<'a: 'f>(facts: &'f Facts<'a>, said: &'f Said<'a>, stated: &Stated) -> Option<Self> {
        if matches!(said.key, StepKey::Do | StepKey::Until) {
            return Some(Self::at(said, stated));
        }
        let order = facts.said_under(said.component, said.step, StepKey::Do)?;
        let same = |other: &&Stated| other.temperature == stated.temperature;
        let ways = order.settings.iter().flat_map(|setting| &setting.ways);
        ways.into_iter().find(same).map(|other| Self::at(order, other))
    }

    /// All that a step is told to do.
    pub(super) fn step<'a: 'f>(facts: &'f Facts<'a>, said: &'f Said<'a>) -> Option<Self> {
        let order = match said.key {
            StepKey::Do => said,
            _ => facts.said_under(said.component, said.step, StepKey::Do)?,
        };
        let all = 0..order.words.len();
        Some(Self { said: order, sentence: all.clone(), clause: all })
    }

    fn at(said: &'f Said<'f>, stated: &Stated) -> Self {
        let sentence = sentence(&said.words, sentence_at(&said.words, stated.span.start));
        let at = said.words.partition_point(|word| word.span.end <= stated.span.start);
        let at = at.min(sentence.end.saturating_sub(1));
        let clause = clause(&said.words, at, |at| said.tells_at(Sense::Then, at));
        Self { said, sentence, clause }
    }

    /// Whether a word of it tells of something.
    pub(super) fn tells(&self, of: Sense) -> bool {
        tells(self.said, &self.sentence, of)
    }

    /// The same of its clause.
    pub(super) fn tells_near(&self, of: Sense) -> bool {
        tells(self.said, &self.clause, of)
    }

    /// Whether its words are those of a row; what makes it something else stands in the clause where that is asked for.
    pub(super) fn fits(&self, row: &ReadingRow) -> bool {
        let one_of = |places: &Range<usize>, of: &OneOf| of.iter().any(|of| tells(self.said, places, *of));
        let judged = if row.near.is_empty() { &self.sentence } else { &self.clause };
        row.told.iter().all(|of| one_of(&self.sentence, of))
            && row.near.iter().all(|of| one_of(&self.clause, of))
            && !row.unless.iter().any(|of| tells(self.said, judged, *of))
    }
}

fn tells(said: &Said<'_>, places: &Range<usize>, of: Sense) -> bool {
    places.clone().any(|at| said.tells_at(of, at))
}
