use super::heat::{self, Oven, Setting};
use super::naming::{Named, Names};
use super::step_key::StepKey;
use crate::language::{Language, Sense, Word};
use crate::measure::Duration;
use crate::recipe::Recipe;
use crate::source::{Source, Span};
use crate::text::{Quantity, durations, quantities};
use crate::yaml::{Node, Value};

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
    /// The amounts with a unit that it states.
    pub quantities: Vec<Quantity>,
    /// The lengths of time that it states, with their places in the text.
    pub durations: Vec<(Span, Duration)>,
    /// For each word, the lines of its component that it names.
    pub named: Vec<Vec<Named>>,
    /// For each word, whether it is left out: `everything except the nuts`.
    pub excepted: Vec<bool>,
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
                let words = language.read(text);
                let settings = heat::settings(text, &words, key, oven, language);
                let named = names.in_text(&words, language);
                let excepted = excepted(&words, language);
                said.push(Said {
                    component,
                    step,
                    key,
                    text,
                    settings,
                    quantities: quantities(text, &words, language),
                    durations: durations(text, &words, language),
                    words,
                    named,
                    excepted,
                    language,
                    node,
                    source: &recipe.source,
                });
            }
        }
    }
    said
}

/// The words that are left out, behind `except` and the like up to the end of the clause; where a part is said, `except
/// for 20 g of the sugar`, none is.
fn excepted(words: &[Word], language: &Language) -> Vec<bool> {
    let mut excepted = vec![false; words.len()];
    let tells = |of: Sense, at: usize| language.lexicon(of).at(words, at) > 0;
    for at in 0..words.len() {
        let from = at + language.lexicon(Sense::Except).at(words, at);
        let ends = |place: &usize| {
            let word = &words[*place];
            let other = [Sense::WeakEnd, Sense::ClauseVerb, Sense::Mixes].into_iter().any(|of| tells(of, *place));
            word.sentence != words[at].sentence
                || word.before.contains([',', ';', ':', '(', ')'])
                || other
                    && !tells(Sense::Linking, *place)
                    && !tells(Sense::Article, *place)
                    && !tells(Sense::And, *place)
        };
        let to = (from..words.len()).find(ends).unwrap_or(words.len());
        let part = |place: usize| {
            words[place].written.starts_with(char::is_numeric)
                || [Sense::Half, Sense::Third, Sense::Quarter, Sense::SomeOf].into_iter().any(|of| tells(of, place))
        };
        if from > at && !(from..to).any(part) {
            excepted[from..to].fill(true);
        }
    }
    excepted
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
