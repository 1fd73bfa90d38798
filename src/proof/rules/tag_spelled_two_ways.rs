//! What it finds: a tag that other recipes spell in another way: another case, a hyphen, a plural.
//!
//! Why it matters: the archive gets two pages, each with half of the recipes.
//!
//! Example: `tags: [Make-ahead]` where the others say `make ahead`
//!
//! Instead: `tags: [make ahead]`
//!
//! Source: rule of the house; the spelling that most recipes use is right, of equals the first by alphabet.

use crate::proof::Context;
use crate::source::Finding;
use crate::yaml::Value;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let node = context.recipe.root.key("tags");
    let nodes: Vec<_> = match &node.value {
        Value::List(items) => items.iter().collect(),
        _ => vec![node],
    };
    let wrong = nodes.into_iter().filter_map(|node| {
        let Value::Scalar(tag) = &node.value else { return None };
        let tag = tag.trim();
        let (usual, count) = context.usual_spelling(tag).filter(|(usual, _)| *usual != tag)?;
        let recipes = if count == 1 { "one recipe spells".to_string() } else { format!("{count} recipes spell") };
        let place = node.part(&context.recipe.source, 0..tag.len());
        let found =
            Finding::at(place.clone(), format!("{recipes} `{tag}` as `{usual}`")).help(format!("write `{usual}`"));
        let verbatim = context.recipe.source.slice(&place) == tag;
        Some(if verbatim { found.mend(place, usual) } else { found })
    });
    wrong.collect()
}
