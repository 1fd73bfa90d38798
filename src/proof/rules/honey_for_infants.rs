//! What it finds: honey in a recipe that says it is for babies.
//!
//! Why it matters: honey can hold spores of botulism, which an infant's gut does not keep down; baking does not kill them.
//!
//! Example: `tags: [baby, weaning]` over `20 g honey`
//!
//! Instead: mashed banana, or no such tag
//!
//! Source: public health services and FDA (2018): no honey before twelve months, also not baked into food.

use crate::language::Sense;
use crate::pantry::Role;
use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let recipe = context.recipe;
    let said = format!("{} {} {}", recipe.title, recipe.summary.as_deref().unwrap_or_default(), recipe.tags.join(" "));
    let said = context.language().read(&said);
    // `baby leaf`, `baby carrots`: small, not young.
    let tells = |of: Sense, at: usize| context.language().lexicon(of).at(&said, at) > 0;
    let young = |at: usize| tells(Sense::Infant, at) && !tells(Sense::SmallNotYoung, at);
    if !(0..said.len()).any(young) {
        return Vec::new();
    }
    let honey = context.lines().filter(|(row, _)| row.is_some_and(|row| row.is(Role::Honey)));
    honey
        .map(|(_, line)| {
            let found =
                Finding::at(line.span.clone(), format!("{} is not for children under one year", line.line.name));
            found.help("take the honey out, or do not offer it for infants")
        })
        .collect()
}
