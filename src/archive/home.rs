use serde::Serialize;
use tera::Context;

use super::frame::{Framer, Head, page_path};
use super::listing::{Listing, Shelf};
use super::page::ArchiveFile;
use crate::sheet::slug;
use crate::trace::Key;

/// Recipes shown as the newest.
const NEWEST: usize = 24;

/// Recipes shown of each season; its tag's page has all.
const OF_A_SEASON: usize = 6;

/// A season and its newest recipes.
#[derive(Serialize)]
struct Season<'a> {
    name: &'a str,
    address: &'a str,
    count: usize,
    recipes: Vec<Linked<'a>>,
}

#[derive(Serialize)]
struct Linked<'a> {
    title: &'a str,
    address: String,
}

/// The first page: the newest recipes, and a few of each season.
pub(super) fn page<'a>(framer: &'a Framer<'a>, listing: &'a Listing<'a>) -> ArchiveFile<'a> {
    let template = "archive/home.html";
    let newest: Vec<usize> = (0..listing.newest.len().min(NEWEST)).collect();
    let of_seasons = seasons(framer, listing);
    let mut shown = newest;
    shown.extend(of_seasons.iter().flat_map(|shelf| shelf.recipes().into_iter().take(OF_A_SEASON)));
    let names: Vec<Key> = of_seasons.iter().map(|shelf| shelf.key()).collect();
    let total = listing.newest.len().to_le_bytes();
    let key = framer.key(template, &[listing.key(&shown).bytes(), Key::of_value(&names).bytes(), &total]);
    ArchiveFile::new(page_path(""), key, move || {
        let mut context = Context::new();
        let entries: Vec<_> = listing.newest.iter().take(NEWEST).map(|entry| entry.shown()).collect();
        context.insert("entries", &entries);
        context.insert("count", &listing.newest.len());
        context.insert(
            "seasons",
            &seasons(framer, listing).into_iter().map(|shelf| season(listing, shelf)).collect::<Vec<_>>(),
        );
        let head = Head { title: "", description: &framer.site.tagline, here: "home", kind: "website" };
        framer.page("", template, &head, context)
    })
}

/// Tags that name the seasons, in the order of the year from spring.
fn seasons<'a>(framer: &Framer<'_>, listing: &'a Listing<'a>) -> Vec<&'a Shelf<'a>> {
    let of = |season: &Vec<String>| {
        let slugs: Vec<String> = season.iter().map(|name| slug(name)).collect();
        listing.tags.iter().find(|shelf| slugs.iter().any(|slug| slug == shelf.slug))
    };
    framer.language().site().seasons.iter().filter_map(of).collect()
}

fn season<'a>(listing: &Listing<'a>, shelf: &'a Shelf<'a>) -> Season<'a> {
    let recipes = shelf.recipes().into_iter().take(OF_A_SEASON).map(|at| listing.newest[at]);
    let recipes = recipes.map(|entry| Linked { title: &entry.title, address: entry.address() }).collect();
    Season { name: shelf.name, address: &shelf.address, count: shelf.count, recipes }
}
