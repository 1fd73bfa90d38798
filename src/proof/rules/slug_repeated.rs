//! What it finds: two recipe files of one name, in different folders or in different case.
//!
//! Why it matters: both would write the same page, and one would be lost.
//!
//! Example: `recipes/tart.yaml` and `recipes/summer/Tart.yaml`
//!
//! Instead: `recipes/tart.yaml` and `recipes/summer/apricot-tart.yaml`
//!
//! Source: rule of the house.

use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let files = context.files(&context.recipe.slug);
    let own = context.recipe.source.name();
    let Some(other) = files.iter().find(|file| *file != own).filter(|_| files.iter().any(|file| file == own)) else {
        return Vec::new();
    };
    let span = context.recipe.root.key("title").span.clone();
    let message = format!("`{other}` has the same name, so both make the page `{}`", context.recipe.slug);
    vec![Finding::at(span, message).help("rename one of the files")]
}
