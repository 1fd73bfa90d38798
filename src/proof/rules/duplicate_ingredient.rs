//! What it finds: one ingredient on two lines of a component, with nothing to tell them apart.
//!
//! Why it matters: the second is most often left over from an edit, and the reader adds both.
//!
//! Example: `100 g caster sugar` and `100 g caster sugar` in one component
//!
//! Instead: one line, or what each is for: `20 g caster sugar, for the tin`
//!
//! Source: rule of the house.

use crate::pantry::words;
use crate::proof::Context;
use crate::recipe::{Component, Ingredient, Line};
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let components = context.recipe.components.iter().enumerate();
    components.flat_map(|(at, component)| repeated(context, at, component)).collect()
}

fn repeated(context: &Context<'_>, component_at: usize, component: &Component) -> Vec<Finding> {
    let mut findings = Vec::new();
    // `the 10 g sugar` in a step tells the lines apart.
    let by_amount = |line: &Ingredient| {
        let amount = line.amounts.first().map(|span| context.recipe.source.slice(span)).filter(|text| !text.is_empty());
        amount.is_some_and(|amount| context.said_in(component_at).any(|said| said.text.contains(amount)))
    };
    for (at, ingredient) in component.ingredients.iter().enumerate() {
        let same = component.ingredients[..at].iter().find(|earlier| is_same(context, &earlier.line, &ingredient.line));
        let same = same.filter(|first| !by_amount(first) && !by_amount(ingredient));
        findings.extend(same.map(|first| {
            let message = format!("`{}` is on two lines of {}", ingredient.line.name, component.name);
            Finding::at(ingredient.span.clone(), message)
                .label("again")
                .other(first.span.clone(), "first here")
                .help("add them up, or say behind a comma what each is for")
        }));
    }
    findings
}

fn is_same(context: &Context<'_>, one: &Line, other: &Line) -> bool {
    let row = |line| context.kitchen().ingredient(line).map(|row| &row.id);
    let one_row = row(one).is_some() && row(one) == row(other);
    let manner = |line: &Line| (line.prep.clone(), line.note.clone(), line.optional);
    let plain = |line: &Line| words(&line.name);
    manner(one) == manner(other) && (one_row || plain(one) == plain(other))
}
