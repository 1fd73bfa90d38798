//! What it finds: a component that no later one uses, and that is not the last.
//!
//! Why it matters: the reader makes a glaze and never learns what for.
//!
//! Example: a component `Glaze`, and `To finish` with `uses: [Sponge]`
//!
//! Instead: `uses: [Sponge, Glaze]`, or its name in a step that comes later
//!
//! Source: rule of the house; the last component is the finish.

use crate::pantry::words;
use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let components = &context.recipe.components;
    let earlier = 0..components.len().saturating_sub(1);
    let unused = earlier.filter(|at| !is_used(context, *at));
    unused
        .map(|at| {
            let component = &components[at];
            let last = &components[components.len() - 1];
            Finding::at(component.span.clone(), format!("nothing uses `{}`", component.name))
                .label("made, and then?")
                .help(format!(
                    "add `uses: [{}]` to the component that it goes into, such as `{}`",
                    component.name, last.name
                ))
        })
        .collect()
}

fn is_used(context: &Context<'_>, at: usize) -> bool {
    let components = &context.recipe.components;
    let name = words(&components[at].name);
    let any_uses = (0..components.len()).any(|later| later != at && context.uses(later, at));
    // By its name, or by the last word of it: `the pastry` for `Buckwheat pastry`.
    let said = |later: &crate::facts::Said<'_>| {
        let stems: Vec<&str> = later.words.iter().map(|word| word.stem.as_str()).collect();
        let head = name.last().is_some_and(|head| stems.contains(&head.as_str()));
        head || name.iter().all(|word| stems.contains(&word.as_str()))
    };
    let listed = components[at + 1..].iter().flat_map(|later| &later.ingredients).any(|line| {
        let line = words(&line.line.name);
        name.last().is_some_and(|head| line.contains(head))
    });
    any_uses || listed || context.said().any(|later| later.component > at && said(later))
}
