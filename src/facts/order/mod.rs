//! Which steps of a component stand before the step that they need.
//!
//! Found is only what a later step surely does and no earlier one may have done: where anything before could have brought
//! it about, in whatever words, nothing is said.

mod jars;
mod orders;
mod states;
mod things;

use std::ops::Range;

use super::{Facts, Said, StepKey};
use crate::language::sentence;

/// What stands too early.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Needs {
    /// A line in a state that a later step brings it to: `the whipped whites`.
    State,
    /// A thing that a later step makes: `the cold syrup`.
    Thing,
    /// Jars are sealed, and a later step boils what is in them.
    Boil,
}

/// A place that speaks of what only a later step brings about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TooEarly {
    /// What is needed there.
    pub needs: Needs,
    /// Index of the text in [`Facts::said`].
    pub said: usize,
    /// The words that speak of it, by their places in the text.
    pub words: Range<usize>,
    /// Index of the later text in [`Facts::said`].
    pub later: usize,
    /// The words of that which bring it about.
    pub by: Range<usize>,
}

/// What stands too early in all components, each thing once.
pub(super) fn too_early(facts: &Facts<'_>) -> Vec<TooEarly> {
    let components = 0..facts.recipe.components.len();
    let of = |component: usize| {
        let own = Own::of(facts, component);
        let mut found = states::too_early(&own);
        found.extend(things::too_early(&own));
        found.extend(jars::too_early(&own));
        found
    };
    components.flat_map(of).collect()
}

/// A component and its texts.
struct Own<'f, 'a> {
    facts: &'f Facts<'a>,
    component: usize,
    /// What its steps say, with the places in [`Facts::said`].
    said: Vec<(usize, &'f Said<'a>)>,
}

/// A sentence of a text.
#[derive(Clone)]
struct Sentence<'f, 'a> {
    /// Index of the text in [`Facts::said`].
    index: usize,
    said: &'f Said<'a>,
    places: Range<usize>,
}

impl<'f, 'a> Own<'f, 'a> {
    fn of(facts: &'f Facts<'a>, component: usize) -> Self {
        let said = facts.said.iter().enumerate().filter(|(_, said)| said.component == component).collect();
        Self { facts, component, said }
    }

    /// What its steps are told to do.
    fn orders(&self) -> impl Iterator<Item = (usize, &'f Said<'a>)> + '_ {
        self.said.iter().copied().filter(|(_, said)| said.key == StepKey::Do)
    }

    /// The sentences of the orders of all later steps.
    fn later(&self, step: usize) -> impl Iterator<Item = Sentence<'f, 'a>> + '_ {
        self.orders().filter(move |(_, said)| said.step > step).flat_map(|(index, said)| sentences(index, said))
    }

    /// The sentences of all that is said in steps up to this one, under any key.
    fn until(&self, step: usize) -> impl Iterator<Item = Sentence<'f, 'a>> + '_ {
        let earlier = self.said.iter().copied().filter(move |(_, said)| said.step <= step);
        earlier.flat_map(|(index, said)| sentences(index, said))
    }
}

fn sentences<'f, 'a>(index: usize, said: &'f Said<'a>) -> Vec<Sentence<'f, 'a>> {
    let count = said.words.last().map_or(0, |last| last.sentence + 1);
    let of = |number: usize| Sentence { index, said, places: sentence(&said.words, number) };
    (0..count).map(of).filter(|sentence| !sentence.places.is_empty()).collect()
}
