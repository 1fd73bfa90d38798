//! What it finds: a component that lists none of what nothing of its kind is without, and is like its kind in all else.
//!
//! Why it matters: a line that was lost is not shopped for, and without it the thing fails.
//!
//! Example: `Lemon curd` of lemon juice, sugar and butter
//!
//! Instead: the same with `3 eggs`
//!
//! Source: what kinds of component cannot be without, common practice, in `src/facts/kinds/`. Nothing is said where
//! the component takes up another, or where a line is not known.

use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let told = |component: usize| {
        context.facts.unlisted().iter().any(|one| context.facts.said[one.said].component == component)
    };
    let components = 0..context.recipe.components.len();
    let lacking = |component: usize| Some((component, context.facts.lacking(component)?));
    let found =
        components.filter_map(lacking).filter(|(component, _)| !told(*component)).map(|(component, (kind, part))| {
            let entry = &context.recipe.components[component];
            let last = entry.ingredients.last().map_or(0..0, |line| line.span.clone());
            let message = format!("{} lists no {part}, and no {kind} is without", entry.name);
            Finding::at(last, message).help("list what is lost, or name the component after what it is")
        });
    found.collect()
}
