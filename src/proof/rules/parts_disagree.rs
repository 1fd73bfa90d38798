//! What it finds: parts of one ingredient that are more than all of it, and a rest of what went in whole.
//!
//! Why it matters: half, half and a third cannot all go in, and the reader stands there with an empty bowl.
//!
//! Example: `half of the sugar`, later `the other half of the sugar`, and then `a third of the sugar`
//!
//! Instead: two halves
//!
//! Source: rule of the house.

use crate::facts::{Said, StepKey};
use crate::language::{Sense, Word};
use crate::proof::Context;
use crate::source::Finding;

/// A little more than all, for thirds that are rounded.
const ALL: f64 = 1.04;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    (0..context.recipe.components.len()).filter_map(|component| in_component(context, component)).collect()
}

fn in_component(context: &Context<'_>, component: usize) -> Option<Finding> {
    let mut taken = vec![0.0; context.facts.lines[component].len()];
    for said in context.said_in(component).filter(|said| said.key == StepKey::Do) {
        for at in 0..said.words.len() {
            let Some(named) = said.named[at].iter().find(|named| named.surely) else { continue };
            if at > 0 && said.named[at - 1].iter().any(|before| before.line == named.line) {
                continue;
            }
            let Some(part) = part_before(context, said, at) else { continue };
            let before = taken[named.line];
            taken[named.line] += part.unwrap_or(0.0);
            let too_much = match part {
                Some(_) => taken[named.line] > ALL && before > 0.0,
                None => before >= 1.0,
            };
            if too_much {
                let name = &context.facts.lines[component][named.line].ingredient.line.name;
                let message = format!("more than all of the {name} has gone in by now");
                let span = said.span(said.words[at].span.clone());
                return Some(Finding::at(span, message).help("count the parts again; what is left is `the rest`"));
            }
        }
    }
    None
}

/// The part of a name that the words before it state: `two thirds of the` is 0.67, `all of the` 1; of a rest nothing is
/// known (`Some(None)`).
fn part_before(context: &Context<'_>, said: &Said<'_>, at: usize) -> Option<Option<f64>> {
    let words = &said.words;
    let from = at.saturating_sub(5);
    let same = |place: usize| {
        (place + 1..=at).all(|at| words[at].before.trim().is_empty() && words[at].sentence == words[place].sentence)
    };
    let place = (from..at).rev().find(|place| {
        same(*place)
            && (fraction(context, &words[*place]).is_some()
                || is(context, Sense::RestAlone, &words[*place])
                || is(context, Sense::All, &words[*place]))
    })?;
    if (from..at).any(|other| same(other) && is(context, Sense::RestAlone, &words[other])) {
        return Some(None);
    }
    let part = match fraction(context, &words[place]) {
        Some(part) => {
            let count = place
                .checked_sub(1)
                .filter(|before| same(*before))
                .and_then(|before| context.language().count(&words[before].written));
            part * count.unwrap_or(1).clamp(1, 9) as f64
        }
        // `all the butter`, next to the name.
        None => {
            let near = at - place <= 3;
            return near.then_some(Some(1.0));
        }
    };
    (part <= 1.0).then_some(Some(part))
}

fn is(context: &Context<'_>, of: Sense, word: &Word) -> bool {
    context.language().lexicon(of).has(&word.stem)
}

fn fraction(context: &Context<'_>, word: &Word) -> Option<f64> {
    let parts = [(Sense::Half, 0.5), (Sense::Third, 1.0 / 3.0), (Sense::Quarter, 0.25)];
    parts.into_iter().find(|(of, _)| is(context, *of, word)).map(|(_, part)| part)
}
