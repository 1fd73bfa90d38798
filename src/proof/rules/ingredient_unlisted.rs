//! What it finds: a step that adds something that no component lists, or only one that its own does not take up.
//!
//! Why it matters: it is not shopped for, not weighed, and its allergens are not named.
//!
//! Example: `Fold in the walnuts.` in a recipe without walnuts
//!
//! Instead: `80 g walnuts, chopped` among the ingredients
//!
//! Source: rule of the house. Only what the pantry knows is looked at; water, what greases a tin, and what is made in the
//! recipe are passed over.

use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let found = context.facts.unlisted().iter().map(|unlisted| {
        let said = &context.facts.said[unlisted.said];
        let span = said.words[unlisted.words.start].span.start..said.words[unlisted.words.end - 1].span.end;
        let written = &said.text[span.clone()];
        let entries = &context.recipe.components;
        let of = if entries.len() > 1 { format!(" of {}", entries[said.component].name) } else { String::new() };
        let found = Finding::at(said.span(span.clone()), format!("`{written}` is not among the ingredients{of}"));
        found.help("list it with its weight, or name what is listed")
    });
    found.collect()
}
