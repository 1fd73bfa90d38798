//! Which orders a sentence gives, and what each is given for.

use super::Sentence;
use crate::facts::Said;
use crate::language::{Lexicon, Sense};
use crate::pantry::is_droppable;

impl Sentence<'_, '_> {
    /// The places at which it has one of some words.
    pub(super) fn places_of(&self, words: Lexicon) -> impl Iterator<Item = usize> + '_ {
        self.places.clone().filter(move |at| words.at(&self.said.words[..self.places.end], *at) > 0)
    }

    pub(super) fn tells(&self, of: Sense) -> bool {
        self.places.clone().any(|at| self.said.tells_at(of, at))
    }

    /// The places at which it gives one of some orders: not behind `until`, nor as a thing, `on the toast`.
    pub(super) fn orders(&self, words: Lexicon) -> impl Iterator<Item = usize> + '_ {
        let sign = self.places.clone().find(|at| self.said.tells_at(Sense::Until, *at)).unwrap_or(self.places.end);
        self.places_of(words).filter(move |at| *at < sign && !self.is_thing(*at))
    }

    fn is_thing(&self, at: usize) -> bool {
        let Some(before) = at.checked_sub(1).filter(|before| self.places.contains(before)) else { return false };
        let joined = self.said.words[at].before == " ";
        let denied = self.said.tells_at(Sense::Without, before);
        let thing = self.said.tells_at(Sense::WeakEnd, before)
            && !self.said.tells_at(Sense::And, before)
            && !self.said.tells_at(Sense::Purpose, before);
        joined && (denied || thing && !self.said.language().is_head_first())
    }

    /// The words that an order is given for: what is named behind it, up to another clause or a preposition.
    pub(super) fn objects(&self, order: usize, length: usize) -> Vec<usize> {
        let mut objects = Vec::new();
        for at in order + length..self.places.end {
            let word = &self.said.words[at];
            let comma = word.before.contains(',');
            if word.before.contains([';', ':', '(', ')', '–', '—']) || comma && objects.is_empty() {
                break;
            }
            if is_noun(self.said, at) {
                objects.push(at);
            } else if !is_between(self.said, at) {
                break;
            }
        }
        objects
    }
}

/// Whether a word names a line, or some together, or a part of an egg.
pub(super) fn is_noun(said: &Said<'_>, at: usize) -> bool {
    let group = || said.language().groups().iter().any(|group| group.said.at(&said.words, at) > 0);
    !said.named[at].is_empty() || is_of_egg(said, at) || group()
}

pub(super) fn is_of_egg(said: &Said<'_>, at: usize) -> bool {
    said.tells_at(Sense::White, at) || said.tells_at(Sense::Yolk, at)
}

/// Words between an order and what it is given for, and between the parts of that.
fn is_between(said: &Said<'_>, at: usize) -> bool {
    let word = &said.words[at];
    let senses = [Sense::Article, Sense::The, Sense::And, Sense::Linking, Sense::NotAlone];
    // `whip with the sugar` is told of what stands before.
    let preposition = said.tells_at(Sense::AddsIn, at) && !said.tells_at(Sense::Article, at);
    !preposition && (is_droppable(&word.stem) || senses.into_iter().any(|of| said.tells_at(of, at)))
}
