//! What it finds: a line whose ingredient the pantry does not know.
//!
//! Why it matters: nothing is guessed, so the line shows its weight alone, and allergens cannot be named.
//!
//! Example: `200 g glurp`
//!
//! Instead: a name that the pantry knows, or a row for it in `pantry.yaml`.
//!
//! Source: rule of the house.

use crate::kitchen::Kitchen;
use crate::pantry::words;
use crate::proof::Context;
use crate::recipe::Ingredient;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let kitchen = context.kitchen();
    let lines = context.lines().filter(|(row, _)| row.is_none());
    let lines = lines.filter(|(_, line)| !is_component(context, line) && !is_known_pair(kitchen, line));
    lines.map(|(_, line)| finding(line, kitchen)).collect()
}

/// `200 g buckwheat pastry` may be a component of the same recipe.
fn is_component(context: &Context<'_>, ingredient: &Ingredient) -> bool {
    let name = words(&ingredient.line.name);
    let made = |named: &str| {
        let named = words(named);
        !named.is_empty() && (name.ends_with(&named) || named.ends_with(&name))
    };
    context.recipe.components.iter().any(|component| made(&component.name))
}

/// `salt and pepper` without an amount are two that are known.
fn is_known_pair(kitchen: &Kitchen, ingredient: &Ingredient) -> bool {
    let line = &ingredient.line;
    let both = kitchen.language().names().pair(&line.name);
    let known = |name: &str| kitchen.pantry().find(name).is_some();
    line.amounts.is_empty() && both.is_some_and(|(one, other)| known(one) && known(other))
}

fn finding(ingredient: &Ingredient, kitchen: &Kitchen) -> Finding {
    let name = &ingredient.line.name;
    let message = format!("the pantry does not know `{name}`");
    if let Some((written, meant)) = kitchen.unit_meant(name) {
        let found = Finding::at(ingredient.span.clone(), format!("`{written}` is no unit"));
        return found.label("shown as a part of the name").help(format!("did you mean `{meant}`?"));
    }
    let nearest = kitchen.pantry().nearest(name, 3);
    let near = match nearest.as_slice() {
        [] => String::new(),
        names => format!("the nearest are {}; ", names.iter().map(|n| format!("`{n}`")).collect::<Vec<_>>().join(", ")),
    };
    Finding::at(ingredient.span.clone(), message)
        .label("shown by its stated amount alone")
        .help(format!("{near}add a row to `pantry.yaml` for an ingredient of your own"))
}
