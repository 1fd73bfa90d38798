//! What it finds: a photo that is not in `site/photos/`.
//!
//! Why it matters: the page and the shared link have a hole, and nothing is made of the recipe.
//!
//! Example: `photo: {file: tart.jpeg, alt: ...}` beside `site/photos/tart.jpg`
//!
//! Instead: `photo: {file: tart.jpg, alt: ...}`
//!
//! Source: rule of the house.

use crate::photo::PhotoError;
use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let Some(photo) = &context.recipe.photo else { return Vec::new() };
    let Some(Err(error @ PhotoError::Missing)) = context.photo(&photo.file) else { return Vec::new() };
    let span = context.recipe.root.key("photo").key("file").span.clone();
    let found = Finding::at(span, format!("there is no `{}` in `site/photos/`", photo.file));
    vec![found.help(error.help())]
}
