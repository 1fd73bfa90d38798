//! What it finds: a step that speaks of what only a later step of its component does: a line in a state, a thing that is
//! made, jars sealed before the boil.
//!
//! Why it matters: a cook who works down the page stands there with stiff batter and unwhipped whites.
//!
//! Example: `Fold in the whipped whites.` and after it `Whip the whites to soft peaks.`
//!
//! Instead: the steps in the order they are done
//!
//! Source: rule of the house. Silent where a line is listed so (`ghee, melted`), or anything before may have done it.

use crate::facts::{Needs, TooEarly};
use crate::proof::Context;
use crate::source::{Finding, Span};

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    context.facts.too_early().iter().map(|early| finding(context, early)).collect()
}

fn finding(context: &Context<'_>, early: &TooEarly) -> Finding {
    let span = |said: usize, words: &std::ops::Range<usize>| -> (Span, &str) {
        let said = &context.facts.said[said];
        let part = said.words[words.start].span.start..said.words[words.end - 1].span.end;
        (said.span(part.clone()), &said.text[part])
    };
    let (here, phrase) = span(early.said, &early.words);
    let (later, order) = span(early.later, &early.by);
    let (message, label) = match early.needs {
        Needs::State => (format!("`{phrase}`, and only a later step does that"), "done here"),
        Needs::Thing => (format!("`{phrase}` is used before it is made"), "made here"),
        Needs::Boil => (format!("`{phrase}` stands before `{order}`"), "boiled here"),
    };
    Finding::at(here, message).other(later, label).help("move the later step up, or say what was done before")
}
