use super::words::{Word, words};
use crate::recipe::{Node, Recipe, Value};
use crate::source::{Source, Span};

/// Which key of a step a text stands under.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
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
    pub key: Key,
    /// The text as YAML reads it.
    pub text: &'a str,
    /// Its words in order.
    pub words: Vec<Word>,
    node: &'a Node,
    source: &'a Source,
}

impl Said<'_> {
    /// The place of a part of the text.
    pub fn span(&self, part: Span) -> Span {
        self.node.part(self.source, part)
    }

    /// Whether any of some words, in the singular, is said.
    pub fn has(&self, wanted: &[&str]) -> bool {
        self.words.iter().any(|word| wanted.contains(&word.stem.as_str()))
    }
}

const KEYS: [(&str, Key); 5] =
    [("do", Key::Do), ("oven", Key::Oven), ("heat", Key::Heat), ("until", Key::Until), ("mind", Key::Mind)];

/// Every text of every step, in order.
pub(super) fn said(recipe: &Recipe) -> Vec<Said<'_>> {
    let mut said = Vec::new();
    for component in 0..recipe.components.len() {
        let steps = recipe.root.key("components").item(component).key("steps");
        for step in 0..recipe.components[component].steps.len() {
            let step_node = steps.item(step);
            let nodes: Vec<(Key, &Node)> = match &step_node.value {
                Value::Scalar(_) => vec![(Key::Do, step_node)],
                _ => KEYS.iter().filter_map(|(name, key)| step_node.get(name).map(|node| (*key, node))).collect(),
            };
            for (key, node) in nodes {
                if let Value::Scalar(text) = &node.value {
                    said.push(Said { component, step, key, text, words: words(text), node, source: &recipe.source });
                }
            }
        }
    }
    said
}
