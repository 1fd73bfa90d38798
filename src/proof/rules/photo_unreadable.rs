//! What it finds: a photo that cannot be shown: cut short, damaged, too large, of a kind that is not read, or no picture.
//!
//! Why it matters: a browser shows half of it or nothing, and nothing is made of the recipe.
//!
//! Example: `photo: {file: tart.jpg, alt: ...}` where `tart.jpg` is a HEIC picture under another name
//!
//! Instead: the same picture, saved as JPEG, PNG or WebP
//!
//! Source: rule of the house; for JPEG, ITU-T T.81, B.2.

use crate::photo::PhotoError;
use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let Some(photo) = &context.recipe.photo else { return Vec::new() };
    let error = match context.photo(&photo.file) {
        None | Some(Ok(_) | Err(PhotoError::Missing)) => return Vec::new(),
        Some(Err(error)) => error,
    };
    let span = context.recipe.root.key("photo").key("file").span.clone();
    vec![Finding::at(span, format!("`{}` cannot be shown: {error}", photo.file)).help(error.help())]
}
