use tera::Context;

use super::entry::ListedRecipe;
use super::frame::{Framer, Head, page_path};
use super::page::ArchiveFile;

/// A page at every address that a recipe had before, leading to the one it has.
pub(super) fn pages<'a>(framer: &'a Framer<'a>, entry: &'a ListedRecipe) -> impl Iterator<Item = ArchiveFile<'a>> {
    let template = "archive/moved.html";
    entry.was.iter().map(move |was| {
        let key = framer.key(template, &[entry.slug.as_bytes(), entry.title.as_bytes(), was.as_bytes()]);
        ArchiveFile::new(page_path(was), key, move || {
            let mut context = Context::new();
            context.insert("title", &entry.title);
            context.insert("address", &entry.address());
            let head = Head { title: &entry.title, description: "", here: "", kind: "website" };
            framer.page(was, template, &head, context)
        })
    })
}
