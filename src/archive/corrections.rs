use serde::Serialize;
use tera::Context;

use super::entry::ListedRecipe;
use super::frame::{Framer, Head, page_path};
use super::listing::Listing;
use super::page::ArchiveFile;
use super::paging;
use crate::sheet::SheetCorrection;
use crate::trace::Key;

/// Corrections on one page.
const MOST: usize = 100;

/// A correction and the recipe corrected.
#[derive(Serialize)]
struct Corrected<'a> {
    on: &'a str,
    what: &'a str,
    title: &'a str,
    address: String,
}

impl<'a> Corrected<'a> {
    fn new((entry, correction): (&'a ListedRecipe, &'a SheetCorrection)) -> Self {
        Self { on: &correction.on, what: &correction.what, title: &entry.title, address: entry.address() }
    }
}

/// What was corrected, newest first.
pub(super) fn pages<'a>(framer: &'a Framer<'a>, listing: &Listing<'a>) -> Vec<ArchiveFile<'a>> {
    let template = "archive/corrections.html";
    let mut all: Vec<(&ListedRecipe, &SheetCorrection)> = listing
        .newest
        .iter()
        .flat_map(|entry| entry.corrections.iter().map(|correction| (*entry, correction)))
        .collect();
    // A stable sort: corrections of one day keep the order of the recipes.
    all.sort_by(|a, b| b.1.on.cmp(&a.1.on));
    let page = |(folder, paging, range): paging::PageStretch| {
        let here = all[range].to_vec();
        let of = Key::of(here.iter().flat_map(|(entry, correction)| [entry.key.bytes(), correction.what.as_bytes()]));
        let key = framer.key(template, &[of.bytes(), Key::of_value(&paging).bytes()]);
        ArchiveFile::new(page_path(&folder), key, move || {
            let mut context = Context::new();
            context.insert("corrections", &here.iter().copied().map(Corrected::new).collect::<Vec<_>>());
            context.insert("paging", &paging);
            let (title, description) = (framer.say("corrections", &[]), framer.say("corrections-says", &[]));
            let head = Head { title: &title, description: &description, here: "corrections", kind: "website" };
            framer.page(&folder, template, &head, context)
        })
    };
    paging::pages(all.len(), MOST, "corrections").into_iter().map(page).collect()
}
