//! The words of hazards: by which each is told, and what is said of it.

use std::collections::BTreeMap;

use super::lexicon::{Lexicon, Phrasebook};
use super::phrases::HazardSection;

/// The words of one hazard.
#[derive(Clone, Debug, Default)]
pub struct HazardWords {
    /// What it is called.
    pub name: String,
    /// What is said of it: always the first, the others where the recipe gives reason; `{names}` is what brings it in.
    pub say: Vec<String>,
    /// By which a title, a summary or a tag tells of it.
    pub titled: Lexicon,
    /// By which an ingredient line tells of it.
    pub line: Lexicon,
    /// By which a step tells of it.
    pub step: Lexicon,
    /// Phrases that hold one of those words and are something else.
    pub unless: Lexicon,
}

impl HazardWords {
    /// What a language says takes the place of its base's; what it is told by is read beside it.
    pub(super) fn add(&mut self, section: &HazardSection, book: &mut Phrasebook) {
        if let Some(name) = &section.name {
            self.name.clone_from(name);
        }
        if !section.say.is_empty() {
            self.say.clone_from(&section.say);
        }
        book.add(&mut self.titled, &section.titled);
        book.add(&mut self.line, &section.line);
        book.add(&mut self.step, &section.step);
        book.add(&mut self.unless, &section.unless);
    }
}

/// The words of all hazards by their names.
pub(super) type Hazards = BTreeMap<String, HazardWords>;
