//! All recipes from A to Z and by year, and the recipes of a tag.

use std::collections::BTreeMap;

use serde::Serialize;
use tera::Context;
use unicode_normalization::UnicodeNormalization;

use super::entry::{ListedRecipe, ShownRecipe};
use super::frame::{Framer, Head, folder_address, page_path};
use super::listing::{Listing, Shelf};
use super::page::ArchiveFile;
use super::paging::{self, Paging};
use crate::trace::Key;

/// Titles on one page.
const TITLES: usize = 300;

/// Recipes with summary and cover on one page.
const ENTRIES: usize = 40;

/// Recipes under one letter.
struct Letter<'a> {
    letter: String,
    slug: String,
    entries: Vec<&'a ListedRecipe>,
}

/// A letter as templates see it.
#[derive(Serialize)]
struct Shelved<'a> {
    letter: &'a str,
    address: String,
    count: usize,
    entries: Vec<Titled<'a>>,
}

#[derive(Serialize)]
struct Titled<'a> {
    title: &'a str,
    address: String,
    published: Option<&'a str>,
}

impl<'a> Titled<'a> {
    fn of(entries: &[&'a ListedRecipe]) -> Vec<Self> {
        let titled = |entry: &&'a ListedRecipe| Titled {
            title: &entry.title,
            address: entry.address(),
            published: entry.published.as_deref(),
        };
        entries.iter().map(titled).collect()
    }
}

/// All recipes from A to Z: on one page, or where they are many on pages by letter.
pub(super) fn all<'a>(framer: &'a Framer<'a>, listing: &'a Listing<'a>) -> Vec<ArchiveFile<'a>> {
    let letters = std::sync::Arc::new(letters(listing));
    let one = listing.newest.len() <= TITLES;
    let template = "archive/all.html";
    let key = |of: &[&ListedRecipe]| Key::of(of.iter().map(|entry| entry.key.bytes()));
    let counts: Vec<(String, usize)> = letters.iter().map(|l| (l.letter.clone(), l.entries.len())).collect();
    let counts = Key::of_value(&(counts, listing.years.iter().map(|year| (year.name, year.count)).collect::<Vec<_>>()));
    let everything =
        if one { key(&letters.iter().flat_map(|l| l.entries.clone()).collect::<Vec<_>>()) } else { counts };
    let index_key = framer.key(template, &[counts.bytes(), everything.bytes()]);
    let shelved = letters.clone();
    let mut pages = vec![ArchiveFile::new(page_path("all"), index_key, move || {
        let entries = |letter: &Letter<'a>| if one { Titled::of(&letter.entries) } else { Vec::new() };
        let letters: Vec<Shelved<'_>> = shelved.iter().map(|letter| letter.shelved(entries(letter))).collect();
        let mut context = Context::new();
        context.insert("letters", &letters);
        context.insert("years", &listing.years);
        context.insert("count", &listing.newest.len());
        let (title, description) = (framer.say("all-recipes", &[]), framer.say("all-recipes-says", &[]));
        let head = Head { title: &title, description: &description, here: "all", kind: "website" };
        framer.page("all", template, &head, context)
    })];
    if one {
        return pages;
    }
    for at in 0..letters.len() {
        let folder = format!("all/{}", letters[at].slug);
        for (folder, paging, range) in paging::pages(letters[at].entries.len(), TITLES, &folder) {
            let key = framer.key(
                "archive/titles.html",
                &[key(&letters[at].entries[range.clone()]).bytes(), Key::of_value(&paging).bytes(), counts.bytes()],
            );
            let letters = letters.clone();
            pages.push(ArchiveFile::new(page_path(&folder), key, move || {
                let shelf = &letters[at];
                let shelves: Vec<Shelved<'_>> = letters.iter().map(|letter| letter.shelved(Vec::new())).collect();
                let title = framer.say("under-letter", &[("letter", &shelf.letter)]);
                titles(framer, &folder, &title, &shelves, &paging, Titled::of(&shelf.entries[range.clone()]))
            }));
        }
    }
    pages
}

impl<'a> Letter<'a> {
    fn shelved(&self, entries: Vec<Titled<'a>>) -> Shelved<'_> {
        let address = folder_address(&format!("all/{}", self.slug));
        Shelved { letter: &self.letter, address, count: self.entries.len(), entries }
    }
}

fn titles(
    framer: &Framer<'_>,
    folder: &str,
    title: &str,
    letters: &[Shelved<'_>],
    paging: &Paging,
    entries: Vec<Titled<'_>>,
) -> Result<Vec<u8>, super::ArchiveError> {
    let mut context = Context::new();
    context.insert("letters", letters);
    context.insert("entries", &entries);
    context.insert("paging", paging);
    framer.page(folder, "archive/titles.html", &Head { title, description: "", here: "all", kind: "website" }, context)
}

/// The recipes of each year, newest first.
pub(super) fn years<'a>(framer: &'a Framer<'a>, listing: &'a Listing<'a>) -> Vec<ArchiveFile<'a>> {
    let mut pages = Vec::new();
    for year in &listing.years {
        let recipes = year.recipes();
        for (folder, paging, range) in paging::pages(recipes.len(), TITLES, &format!("years/{}", year.slug)) {
            let here = recipes[range].to_vec();
            let parts = [listing.key(&here), Key::of_value(&paging), year.key()];
            let key = framer.key("archive/titles.html", &parts.each_ref().map(Key::bytes));
            pages.push(ArchiveFile::new(page_path(&folder), key, move || {
                let entries: Vec<&ListedRecipe> = here.iter().map(|at| listing.newest[*at]).collect();
                let title = framer.say("of-year", &[("year", year.name)]);
                titles(framer, &folder, &title, &[], &paging, Titled::of(&entries))
            }));
        }
    }
    pages
}

fn letters<'a>(listing: &Listing<'a>) -> Vec<Letter<'a>> {
    let mut letters: BTreeMap<String, Vec<&ListedRecipe>> = BTreeMap::new();
    for entry in &listing.newest {
        letters.entry(letter(&entry.title)).or_default().push(entry);
    }
    let sorted = |(letter, mut entries): (String, Vec<&'a ListedRecipe>)| {
        entries.sort_by_cached_key(|entry| (entry.title.to_lowercase(), &entry.slug));
        let slug = if letter == "#" { "0-9".into() } else { letter.to_lowercase() };
        Letter { letter, slug, entries }
    };
    letters.into_iter().map(sorted).collect()
}

/// The letter a title is filed under, accents off; `#` for anything else.
fn letter(title: &str) -> String {
    let first = title.nfd().find(|c| c.is_alphanumeric());
    first.filter(|c| c.is_alphabetic()).map_or_else(|| "#".into(), |c| c.to_uppercase().collect())
}

/// The tags, and the recipes of each.
pub(super) fn tags<'a>(framer: &'a Framer<'a>, listing: &'a Listing<'a>) -> Vec<ArchiveFile<'a>> {
    let counts: Vec<Key> = listing.tags.iter().map(Shelf::key).collect();
    let key = framer.key("archive/tags.html", &[Key::of_value(&counts).bytes()]);
    let mut pages = vec![ArchiveFile::new(page_path("tags"), key, move || {
        let mut context = Context::new();
        context.insert("tags", &listing.tags);
        let (title, description) = (framer.say("tags", &[]), framer.say("tags-says", &[]));
        let head = Head { title: &title, description: &description, here: "tags", kind: "website" };
        framer.page("tags", "archive/tags.html", &head, context)
    })];
    for shelf in &listing.tags {
        let recipes = shelf.recipes();
        for (folder, paging, range) in paging::pages(recipes.len(), ENTRIES, &format!("tags/{}", shelf.slug)) {
            pages.push(tag(framer, listing, shelf, folder, paging, &recipes[range]));
        }
    }
    pages
}

fn tag<'a>(
    framer: &'a Framer<'a>,
    listing: &'a Listing<'a>,
    shelf: &'a Shelf<'a>,
    folder: String,
    paging: Paging,
    recipes: &[usize],
) -> ArchiveFile<'a> {
    let parts = [listing.key(recipes), Key::of_value(&paging), shelf.key()];
    let key = framer.key("archive/tag.html", &parts.each_ref().map(Key::bytes));
    let recipes = recipes.to_vec();
    ArchiveFile::new(page_path(&folder), key, move || {
        let entries: Vec<ShownRecipe<'_>> = recipes.iter().map(|at| listing.newest[*at].shown()).collect();
        let mut context = Context::new();
        context.insert("tag", shelf);
        context.insert("entries", &entries);
        context.insert("paging", &paging);
        let description = framer.say("tagged", &[("tag", shelf.name)]);
        let head = Head { title: shelf.name, description: &description, here: "tags", kind: "website" };
        framer.page(&folder, "archive/tag.html", &head, context)
    })
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
