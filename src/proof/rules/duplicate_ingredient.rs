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
    let names: Vec<Vec<String>> = component.ingredients.iter().map(|line| words(&line.line.name)).collect();
    let rows = &context.facts.lines[component_at];
    let is_one = |one: usize, other: usize| {
        let row = |at: usize| rows[at].row.map(|row| &row.id);
        names[one] == names[other] || (row(one).is_some() && row(one) == row(other))
    };
    for (at, ingredient) in component.ingredients.iter().enumerate() {
        let earlier = component.ingredients[..at].iter().enumerate();
        let mut earlier = earlier.filter(|(before, _)| is_one(*before, at));
        let same = earlier.find(|(_, first)| manner(&first.line) == manner(&ingredient.line)).map(|(_, first)| first);
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

/// What tells two lines of one ingredient apart.
fn manner(line: &Line) -> (Option<&str>, Option<&str>, bool) {
    (line.prep.as_deref(), line.note.as_deref(), line.optional)
}
