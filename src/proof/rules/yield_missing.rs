//! What it finds: a recipe that says neither what it makes nor how many it serves.
//!
//! Why it matters: nobody can plan, scale or shop for it.
//!
//! Example: a recipe without `makes` and `serves`
//!
//! Instead: `makes: one 24 cm tart`
//!
//! Source: rule of the house.

use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let recipe = context.recipe;
    if recipe.makes.as_deref().is_some_and(|makes| !makes.is_empty()) || recipe.serves.is_some() {
        return Vec::new();
    }
    let found = Finding::at(recipe.root.key("title").span.clone(), "the recipe does not say what it makes");
    vec![found.help("add `makes:` (`one 24 cm tart`) or `serves:`")]
}
