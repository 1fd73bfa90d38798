use std::collections::BTreeMap;

use serde::Serialize;
use tera::Context;
use unicode_normalization::UnicodeNormalization;

use super::entry::Entry;
use super::frame::{Framer, Head, folder_address};
use super::{ArchiveError, File, dates};
use crate::sheet::{Correction, Sheet};

/// Recipes on the home page; all of them are on the page from A to Z.
const NEWEST: usize = 30;

/// Every recipe in the orders that pages and feeds need.
pub(super) struct Listing<'a> {
    /// Newest first, those without a date last, then by title.
    pub(super) newest: Vec<Entry<'a>>,
    /// Tags by name, each with indexes into `newest`.
    pub(super) tags: Vec<TagShelf<'a>>,
}

/// A tag and the recipes that bear it.
#[derive(Serialize)]
pub(super) struct TagShelf<'a> {
    pub(super) name: &'a str,
    pub(super) slug: &'a str,
    /// Folder relative to the archive's root.
    pub(super) address: String,
    pub(super) count: usize,
    /// Indexes into [`Listing::newest`], ascending.
    #[serde(skip)]
    pub(super) recipes: Vec<usize>,
}

/// Recipes under one letter.
#[derive(Serialize)]
struct Letter<'a> {
    letter: String,
    entries: Vec<&'a Entry<'a>>,
}

/// A correction and the recipe corrected.
#[derive(Serialize)]
struct Corrected<'a> {
    on: &'a str,
    on_text: String,
    what: &'a str,
    title: &'a str,
    address: &'a str,
}

impl<'a> Corrected<'a> {
    fn new(entry: &'a Entry<'a>, correction: &'a Correction) -> Self {
        Self {
            on: &correction.on,
            on_text: dates::for_reading(&correction.on),
            what: &correction.what,
            title: entry.title,
            address: &entry.address,
        }
    }
}

impl<'a> Listing<'a> {
    pub(super) fn new(sheets: &'a [Sheet]) -> Self {
        let mut newest: Vec<Entry<'a>> = sheets.iter().map(Entry::new).collect();
        newest
            .sort_by(|a, b| b.published.cmp(&a.published).then_with(|| a.title.cmp(b.title)).then(a.slug.cmp(b.slug)));
        let tags = shelves(&newest);
        Self { newest, tags }
    }

    fn of(&self, shelf: &TagShelf<'_>) -> Vec<&Entry<'a>> {
        shelf.recipes.iter().map(|&index| &self.newest[index]).collect()
    }
}

fn shelves<'a>(newest: &[Entry<'a>]) -> Vec<TagShelf<'a>> {
    let mut shelves: BTreeMap<&str, TagShelf<'a>> = BTreeMap::new();
    for (index, entry) in newest.iter().enumerate() {
        for tag in entry.tags.iter().filter(|tag| !tag.slug.is_empty()) {
            let shelf = shelves.entry(&tag.slug).or_insert_with(|| TagShelf {
                name: &tag.name,
                slug: &tag.slug,
                address: folder_address(&format!("tags/{}", tag.slug)),
                count: 0,
                recipes: Vec::new(),
            });
            if shelf.recipes.last() != Some(&index) {
                shelf.recipes.push(index);
                shelf.count += 1;
            }
        }
    }
    shelves.into_values().collect()
}

/// The home page, all recipes from A to Z, the tags and the corrections.
pub(super) fn pages(framer: &Framer<'_>, listing: &Listing<'_>) -> Result<Vec<File>, ArchiveError> {
    let mut files = vec![home(framer, listing)?, all(framer, listing)?];
    if !listing.tags.is_empty() {
        files.push(tags(framer, listing)?);
    }
    for shelf in &listing.tags {
        files.push(tag(framer, listing, shelf)?);
    }
    files.extend(corrections(framer, listing)?);
    Ok(files)
}

fn home(framer: &Framer<'_>, listing: &Listing<'_>) -> Result<File, ArchiveError> {
    let mut context = Context::new();
    context.insert("entries", &listing.newest.iter().take(NEWEST).collect::<Vec<_>>());
    context.insert("count", &listing.newest.len());
    let head = Head { title: "", description: &framer.site.tagline, here: "home", kind: "website" };
    framer.page("", "archive/home.html", &head, context)
}

fn all(framer: &Framer<'_>, listing: &Listing<'_>) -> Result<File, ArchiveError> {
    let mut letters: BTreeMap<String, Vec<&Entry<'_>>> = BTreeMap::new();
    for entry in &listing.newest {
        letters.entry(letter(entry.title)).or_default().push(entry);
    }
    for entries in letters.values_mut() {
        entries.sort_by_cached_key(|entry| (entry.title.to_lowercase(), entry.slug));
    }
    let letters: Vec<Letter<'_>> = letters.into_iter().map(|(letter, entries)| Letter { letter, entries }).collect();
    let mut context = Context::new();
    context.insert("letters", &letters);
    let head = Head { title: "All recipes", description: "Every recipe, from A to Z.", here: "all", kind: "website" };
    framer.page("all", "archive/all.html", &head, context)
}

/// The letter a title is filed under, accents off; `#` for anything else.
fn letter(title: &str) -> String {
    let first = title.nfd().find(|c| c.is_alphanumeric());
    first.filter(|c| c.is_alphabetic()).map_or_else(|| "#".into(), |c| c.to_uppercase().collect())
}

fn tags(framer: &Framer<'_>, listing: &Listing<'_>) -> Result<File, ArchiveError> {
    let mut context = Context::new();
    context.insert("tags", &listing.tags);
    let head = Head { title: "Tags", description: "Recipes by tag.", here: "tags", kind: "website" };
    framer.page("tags", "archive/tags.html", &head, context)
}

fn tag(framer: &Framer<'_>, listing: &Listing<'_>, shelf: &TagShelf<'_>) -> Result<File, ArchiveError> {
    let mut context = Context::new();
    context.insert("tag", shelf);
    context.insert("entries", &listing.of(shelf));
    let description = format!("Recipes tagged {}.", shelf.name);
    let head = Head { title: shelf.name, description: &description, here: "tags", kind: "website" };
    framer.page(&format!("tags/{}", shelf.slug), "archive/tag.html", &head, context)
}

/// The page of corrections, newest first; none where nothing was corrected.
fn corrections<'a>(framer: &Framer<'_>, listing: &'a Listing<'a>) -> Result<Option<File>, ArchiveError> {
    let of = |entry: &'a Entry<'a>| entry.corrections.iter().map(move |correction| Corrected::new(entry, correction));
    let mut corrected: Vec<Corrected<'a>> = listing.newest.iter().flat_map(of).collect();
    if corrected.is_empty() {
        return Ok(None);
    }
    // A stable sort: corrections of one day keep the order of the recipes.
    corrected.sort_by(|a, b| b.on.cmp(a.on));
    let mut context = Context::new();
    context.insert("corrections", &corrected);
    let description = "What was wrong after publishing, and what is right.";
    let head = Head { title: "Corrections", description, here: "corrections", kind: "website" };
    framer.page("corrections", "archive/corrections.html", &head, context).map(Some)
}

#[cfg(test)]
mod tests {
    use super::letter;

    #[test]
    fn titles_are_filed_under_their_plain_letter() {
        assert_eq!(letter("apricot tart"), "A");
        assert_eq!(letter("Éclair"), "E");
        assert_eq!(letter("“Quay” buns"), "Q");
        assert_eq!(letter("3-2-1 shortcrust"), "#");
        assert_eq!(letter("…"), "#");
    }
}
