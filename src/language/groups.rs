//! Words by which a step speaks of several ingredients at once.

use super::lexicon::{Lexicon, Phrasebook};
use super::phrases::GroupSection;
use super::word::Word;

/// Ingredients that go by one word: `the spices`, `the aromatics`.
#[derive(Clone, Debug, Default)]
pub struct Group {
    /// Whether its word means all of them, so that a step that says it takes them; else it may mean what is made of some.
    pub takes: bool,
    /// The words for all of them.
    pub said: Lexicon,
    /// The pantry's families that belong to it.
    families: Vec<String>,
    /// Names that belong to it, whatever their family.
    names: Lexicon,
}

impl Group {
    pub(super) fn of(section: &GroupSection, book: &mut Phrasebook) -> Self {
        let (mut said, mut names) = (Lexicon::default(), Lexicon::default());
        book.add(&mut said, &section.said);
        book.add(&mut names, &section.names);
        Self { takes: section.takes, said, families: section.families.clone(), names }
    }

    /// Whether an ingredient belongs to it, by its family or its name.
    pub fn holds(&self, family: Option<&str>, name: &[Word]) -> bool {
        let of_family = family.is_some_and(|family| self.families.iter().any(|known| known == family));
        of_family || self.names.find(name).is_some()
    }
}
