//! What it finds: a recipe file named like a page or folder that the archive makes of its own.
//!
//! Why it matters: two things would be at one address; a name that a system keeps for devices cannot be written at all.
//!
//! Example: `recipes/search.yaml`
//!
//! Instead: `recipes/search-party-buns.yaml`
//!
//! Source: rule of the house.

use crate::proof::Context;
use crate::source::Finding;
use crate::workspace::is_device;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let slug = context.recipe.slug.as_str();
    let why = if context.is_reserved(slug) {
        "the archive has a page of that name"
    } else if context.has_page(slug) {
        "a page in `site/pages` has that name"
    } else if is_device(slug) {
        "some systems keep that name for a device"
    } else {
        return Vec::new();
    };
    let span = context.recipe.root.key("title").span.clone();
    let message = format!("a recipe file cannot be called `{slug}`: {why}");
    vec![Finding::at(span, message).help("rename the file")]
}
