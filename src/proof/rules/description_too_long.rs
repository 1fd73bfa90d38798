//! What it finds: a recipe with a video whose description is above 5,000 bytes, so that parts of it are left out.
//!
//! Why it matters: the video host refuses a longer one; what is left out stands on the recipe's page only.
//!
//! Example: twenty steps of eighty words each
//!
//! Instead: shorter steps
//!
//! Source: the video host's interface reference, as quoted by its public client libraries.

use crate::proof::Context;
use crate::source::Finding;

/// A file shorter than this makes no description that is too long, in bytes: a description grows by cautions and
/// second scales, by a third of its file in the demo, and never by half.
const LONG_FILE: usize = 3_300;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let recipe = context.recipe;
    let long = recipe.video.is_some() && recipe.source.text().len() > LONG_FILE;
    let left_out = if long { context.shortened() } else { Vec::new() };
    if left_out.is_empty() {
        return Vec::new();
    }
    let found = Finding::at(recipe.root.key("title").span.clone(), "the description would be longer than 5,000 bytes");
    let found = found.label(format!("left out: {}", left_out.join(", ")));
    vec![found.help("what is left out stands on the recipe's page; shorter steps bring it back")]
}
