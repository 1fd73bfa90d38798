//! Words by which a step speaks of what an order brings about: a line in a state, or a thing that is made.

use serde::Deserialize;

use super::lexicon::{Lexicon, Phrasebook};

/// A change as a language's file has it.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub(super) struct ChangeSection {
    said: Vec<String>,
    made_by: Vec<String>,
    or_by: Vec<String>,
    of: Vec<String>,
}

/// What some words say is there already, and the orders that bring it about.
#[derive(Clone, Copy, Debug, Default)]
pub struct Change {
    /// The words for what is there: `whipped`, `syrup`.
    pub said: Lexicon,
    /// The orders that bring it about: `whip`, `boil`.
    pub made_by: Lexicon,
    /// Other orders that may have; too common to be taken for it where it is missed.
    pub or_by: Lexicon,
    /// What it is of, or made from; none where that may be anything.
    pub of: Lexicon,
}

impl Change {
    pub(super) fn of(section: &ChangeSection, book: &mut Phrasebook) -> Self {
        let mut add = |phrases: &[String]| {
            let mut lexicon = Lexicon::default();
            book.add(&mut lexicon, phrases);
            lexicon
        };
        let (said, made_by) = (add(&section.said), add(&section.made_by));
        Self { said, made_by, or_by: add(&section.or_by), of: add(&section.of) }
    }
}
