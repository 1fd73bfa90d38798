//! What it finds: `the rest` or `the remaining` of an ingredient of which no part was used before.
//!
//! Why it matters: the reader has used all of it, or asks how much should be left.
//!
//! Example: `Whisk the yolks with the sugar.` and later `Add the remaining sugar.`
//!
//! Instead: `Whisk the yolks with half of the sugar.`
//!
//! Source: rule of the house. A fraction, an amount, or a verb that takes only some (`dust`, `brush`) is a first part.

use crate::facts::{Portion, Said, Share, StepKey, Taking};
use crate::language::Sense;
use crate::proof::Context;
use crate::recipe::Ingredient;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let components = 0..context.recipe.components.len();
    components.flat_map(|component| in_component(context, component)).collect()
}

fn in_component(context: &Context<'_>, component: usize) -> Vec<Finding> {
    let takings = &context.facts.taken[component].takings;
    let rest = takings.iter().enumerate().filter(|(_, taking)| taking.share == Share::Rest && taking.said);
    let without = rest.filter(|(at, taking)| !is_left(context, component, &takings[..*at], taking));
    without.filter_map(|(at, taking)| finding(context, component, &takings[..at], taking)).collect()
}

/// Whether what went before leaves a rest: a part of the line, any of its twin, or words that leave it open.
fn is_left(context: &Context<'_>, component: usize, before: &[Taking], rest: &Taking) -> bool {
    let lines = &context.facts.lines[component];
    let own = lines[rest.line].row.map(|row| &row.id);
    let twin = |line: usize| line != rest.line && own.is_some() && lines[line].row.map(|row| &row.id) == own;
    let part = |taking: &&Taking| {
        // What seemed all of it, until a rest was asked for, is a part that nobody said.
        let unsaid =
            taking.share == Share::Part(Portion::Some) && !taking.said && !is_little(context, component, taking);
        taking.line == rest.line && taking.share != Share::All && !unsaid || twin(taking.line)
    };
    before.iter().any(|taking| part(&taking)) || is_divided(context, lines[rest.line].ingredient)
}

/// Whether a verb takes only a little where a line is named, or the words around it say so of something else.
fn is_little(context: &Context<'_>, component: usize, taking: &Taking) -> bool {
    let said = context.facts.said_under(component, taking.step, StepKey::Do);
    said.is_some_and(|said| said.tells(Sense::TakesLittle) || said.tells(Sense::SomeOf) || said.tells(Sense::HoldsBack))
}

fn is_divided(context: &Context<'_>, ingredient: &Ingredient) -> bool {
    let texts = [&ingredient.line.prep, &ingredient.line.note].into_iter().flatten();
    texts.into_iter().any(|text| context.language().tells(Sense::Divided, text))
}

fn finding(context: &Context<'_>, component: usize, before: &[Taking], rest: &Taking) -> Option<Finding> {
    let said: &Said<'_> = context.facts.said_under(component, rest.step, StepKey::Do)?;
    let name = &context.facts.lines[component][rest.line].ingredient.line.name;
    let at = rest.word?;
    let phrase = (0..=at).rev().find(|place| said.tells_at(Sense::Rest, *place)).unwrap_or(at);
    let span = said.span(said.words[phrase].span.start..said.words[at].span.end);
    let message = if before.iter().any(|taking| taking.line == rest.line) {
        format!("no step before takes only a part of the {name}")
    } else {
        format!("no step before takes any of the {name}")
    };
    let found = Finding::at(span, message).label("the rest of what?");
    Some(found.help(format!("say in the step before how much of the {name} it takes")))
}
