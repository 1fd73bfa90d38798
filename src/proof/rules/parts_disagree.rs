//! What it finds: parts of one ingredient that are more than all of it, and a rest of what went in whole.
//!
//! Why it matters: half, half and a third cannot all go in, and the reader stands there with an empty bowl.
//!
//! Example: `half of the sugar`, later `the other half of the sugar`, and then `a third of the sugar`
//!
//! Instead: two halves
//!
//! Source: rule of the house.

use crate::facts::{Portion, Share, StepKey};
use crate::measure::Number;
use crate::proof::Context;
use crate::source::Finding;

/// A little more than all, for thirds that are rounded.
const ALL: (i64, i64) = (104, 100);

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    (0..context.recipe.components.len()).filter_map(|component| in_component(context, component)).collect()
}

fn in_component(context: &Context<'_>, component: usize) -> Option<Finding> {
    let (none, one, all) = (Number::from_integer(0), Number::from_integer(1), Number::new(ALL.0, ALL.1));
    let mut taken = vec![none; context.facts.lines[component].len()];
    for taking in context.facts.taken[component].takings.iter().filter(|taking| taking.said) {
        let before = taken[taking.line];
        let too_much = match taking.share {
            Share::Part(Portion::Of(part)) => {
                taken[taking.line] += part;
                taken[taking.line] > all && before > none
            }
            Share::Rest => {
                taken[taking.line] = before.max(one);
                before >= one
            }
            _ => false,
        };
        let said = context.facts.said_under(component, taking.step, StepKey::Do);
        if let Some((said, at)) = said.zip(taking.word).filter(|_| too_much) {
            let name = &context.facts.lines[component][taking.line].ingredient.line.name;
            let message = format!("more than all of the {name} has gone in by now");
            let span = said.span(said.words[at].span.clone());
            return Some(Finding::at(span, message).help("count the parts again; what is left is `the rest`"));
        }
    }
    None
}
