use std::fmt;
use std::sync::{Arc, OnceLock};

use super::changes::Change;
use super::groups::Group;
use super::hazards::Hazards;
use super::lexicon::{Lexicon, Phrasebook};
use super::section::sections;
use super::sense::Sense;

/// The words and phrases of a language by which a recipe tells of something, ready to be found.
pub(super) struct Telling {
    pub(super) phrases: Phrasebook,
    /// By the places of the senses.
    pub(super) senses: Vec<Lexicon>,
    pub(super) groups: Vec<Group>,
    pub(super) states: Vec<Change>,
    pub(super) makes: Vec<Change>,
    pub(super) hazards: Hazards,
}

impl Telling {
    /// Those of a language's file and of its base's; of a tag that is none, nothing.
    pub(super) fn of(tag: &str) -> Self {
        let mut phrases = Phrasebook::default();
        let (mut senses, mut groups) = (vec![Lexicon::default(); Sense::ALL.len()], Vec::new());
        let (mut states, mut makes) = (Vec::new(), Vec::new());
        let mut hazards = Hazards::new();
        for section in sections(tag).unwrap_or_default() {
            for (sense, words) in &section.senses {
                phrases.add(&mut senses[*sense as usize], words);
            }
            groups.extend(section.groups.iter().map(|group| Group::of(group, &mut phrases)));
            states.extend(section.states.iter().map(|change| Change::of(change, &mut phrases)));
            makes.extend(section.makes.iter().map(|change| Change::of(change, &mut phrases)));
            for (name, words) in &section.hazards {
                hazards.entry(name.clone()).or_default().add(words, &mut phrases);
            }
        }
        Self { phrases, senses, groups, states, makes, hazards }
    }
}

/// The telling of a language, made when a recipe is first read by it; copies share it.
#[derive(Clone, Default)]
pub(super) struct Lazily(Arc<OnceLock<Telling>>);

impl Lazily {
    pub(super) fn of(&self, tag: &str) -> &Telling {
        self.0.get_or_init(|| Telling::of(tag))
    }
}

/// Always the same: two languages are told apart by their other fields, whether they have read a recipe yet or not.
impl fmt::Debug for Lazily {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("telling")
    }
}
