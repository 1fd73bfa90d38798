//! Words by which a step speaks of what an order brings about: a line in a state, or a thing that is made.

use super::lexicon::{Lexicon, Phrasebook};
use super::phrases::ChangeSection;

/// What some words say is there already, and the orders that bring it about.
#[derive(Clone, Copy, Debug, Default)]
pub struct StateChange {
    /// The words for what is there: `whipped`, `syrup`.
    pub said: Lexicon,
    /// The orders that bring it about: `whip`, `boil`.
    pub made_by: Lexicon,
    /// Other orders that may have; too common to be taken for it where it is missed.
    pub or_by: Lexicon,
    /// What it is of, or made from; none where that may be anything.
    pub of: Lexicon,
}

impl StateChange {
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
