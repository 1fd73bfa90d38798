//! What it finds: a photo that is not in `site/photos/`.
//!
//! Why it matters: the page and the shared link have a hole, and publishing stops at it.
//!
//! Example: `photo: {file: tart.jpeg, alt: ...}` beside `site/photos/tart.jpg`
//!
//! Instead: `photo: {file: tart.jpg, alt: ...}`
//!
//! Source: rule of the house.

use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let (Some(photo), Some(folder)) = (&context.recipe.photo, context.around.photos) else { return Vec::new() };
    if folder.join(&photo.file).is_file() {
        return Vec::new();
    }
    let span = context.recipe.root.key("photo").key("file").span.clone();
    let found = Finding::at(span, format!("there is no `{}` in `site/photos/`", photo.file));
    vec![found.help("put the photo there, or mend its name; capitals count")]
}
