use super::heat::{self, Oven, Setting};
use super::naming::{Named, Names};
use crate::language::{Language, Sense, Word, words};
use crate::recipe::Recipe;
use crate::source::{Source, Span};
use crate::yaml::{Node, Value};

/// Which key of a step a text stands under.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepKey {
    /// `do`, or a step that is one sentence.
    Do,
    /// `oven`.
    Oven,
    /// `heat`.
    Heat,
    /// `until`.
    Until,
    /// `mind`.
    Mind,
}

/// A text of a step, and where it stands.
#[derive(Clone, Debug)]
pub struct Said<'a> {
    /// Index of the component.
    pub component: usize,
    /// Index of the step in the component.
    pub step: usize,
    /// The key.
    pub key: StepKey,
    /// The text as YAML reads it.
    pub text: &'a str,
    /// Its words in order.
    pub words: Vec<Word>,
    /// The temperatures that it states, and what each is for.
    pub settings: Vec<Setting>,
    /// For each word, the lines of its component that it names.
    pub named: Vec<Vec<Named>>,
    language: &'a Language,
    node: &'a Node,
    source: &'a Source,
}

impl Said<'_> {
    /// The place of a part of the text.
    pub fn span(&self, part: Span) -> Span {
        self.node.part(self.source, part)
    }

    /// The language that it is read in.
    pub fn language(&self) -> &Language {
        self.language
    }

    /// Whether it has one of the words that tell of something.
    pub fn tells(&self, of: Sense) -> bool {
        self.language.lexicon(of).find(&self.words).is_some()
    }

    /// Whether one of its words, by its place, tells of something, alone or with those behind it.
    pub fn tells_at(&self, of: Sense, at: usize) -> bool {
        self.language.lexicon(of).at(&self.words, at) > 0
    }

    /// Whether any of some words, in the singular, is said.
    pub fn has(&self, wanted: &[&str]) -> bool {
        self.words.iter().any(|word| wanted.contains(&word.stem.as_str()))
    }
}

const KEYS: [(&str, StepKey); 5] = [
    ("do", StepKey::Do),
    ("oven", StepKey::Oven),
    ("heat", StepKey::Heat),
    ("until", StepKey::Until),
    ("mind", StepKey::Mind),
];

/// Every text of every step, in order.
pub(super) fn said<'a>(recipe: &'a Recipe, names: &[Names], language: &'a Language) -> Vec<Said<'a>> {
    let mut said = Vec::new();
    for (component, (entry, names)) in recipe.components.iter().zip(names).enumerate() {
        let steps = recipe.root.key("components").item(component).key("steps");
        let mut oven = Oven::Off;
        for (step, stated) in entry.steps.iter().enumerate() {
            oven = match (stated.oven.is_some(), oven) {
                (true, _) => Oven::SetHere,
                (false, Oven::Off) => Oven::Off,
                (false, _) => Oven::On,
            };
            for (key, node, text) in texts(steps.item(step)) {
                let words = words(text);
                let settings = heat::settings(text, &words, key, oven, language);
                let named = names.in_text(&words, language);
                said.push(Said {
                    component,
                    step,
                    key,
                    text,
                    words,
                    settings,
                    named,
                    language,
                    node,
                    source: &recipe.source,
                });
            }
        }
    }
    said
}

/// The texts of a step by their keys; a step that is one sentence is what to do.
fn texts(step: &Node) -> Vec<(StepKey, &Node, &str)> {
    let nodes: Vec<(StepKey, &Node)> = match &step.value {
        Value::Scalar(_) => vec![(StepKey::Do, step)],
        _ => KEYS.iter().filter_map(|(name, key)| step.get(name).map(|node| (*key, node))).collect(),
    };
    let mut texts = Vec::with_capacity(nodes.len());
    for (key, node) in nodes {
        if let Value::Scalar(text) = &node.value {
            texts.push((key, node, text.as_str()));
        }
    }
    texts
}
