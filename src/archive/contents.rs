//! What recipes are made of: the ingredients, and the components that several recipes share.

use serde::Serialize;
use tera::Context;

use super::ArchiveError;
use super::frame::{Framer, Head, folder_address, page_path};
use super::listing::{Listing, Shelf};
use super::page::ArchiveFile;
use super::paging::{self, Paging};
use crate::trace::Key;

/// Recipes on one page.
const MOST: usize = 150;

/// A recipe that uses an ingredient or has a component.
#[derive(Serialize)]
struct User<'a> {
    title: &'a str,
    address: String,
    parts: Vec<UsedIn<'a>>,
}

/// How much, and in which component.
#[derive(Serialize)]
struct UsedIn<'a> {
    amount: &'a str,
    component: &'a str,
    /// On the recipe's page.
    anchor: &'a str,
}

/// One of the two kinds of page.
#[derive(Clone, Copy)]
struct ContentsKind {
    folder: &'static str,
    template: &'static str,
    /// Keys of the language.
    title: &'static str,
    description: &'static str,
}

const INGREDIENTS: ContentsKind = ContentsKind {
    folder: "ingredients",
    template: "archive/ingredients.html",
    title: "ingredients",
    description: "ingredients-says",
};
const COMPONENTS: ContentsKind = ContentsKind {
    folder: "components",
    template: "archive/components.html",
    title: "components",
    description: "components-says",
};

/// The ingredients, and what uses each; the shared components, and what each is part of.
pub(super) fn pages<'a>(framer: &'a Framer<'a>, listing: &'a Listing<'a>) -> Vec<ArchiveFile<'a>> {
    let mut pages = vec![
        index(framer, INGREDIENTS, &listing.ingredients, !listing.components.is_empty()),
        index(framer, COMPONENTS, &listing.components, false),
    ];
    for (kind, shelves) in [(INGREDIENTS, &listing.ingredients), (COMPONENTS, &listing.components)] {
        pages.extend(shelves.iter().flat_map(|shelf| users(framer, listing, kind, shelf)));
    }
    pages
}

fn index<'a>(
    framer: &'a Framer<'a>,
    kind: ContentsKind,
    shelves: &'a [Shelf<'a>],
    components: bool,
) -> ArchiveFile<'a> {
    let counts: Vec<Key> = shelves.iter().map(Shelf::key).collect();
    let key = framer.key(kind.template, &[Key::of_value(&counts).bytes(), &[u8::from(components)]]);
    ArchiveFile::new(page_path(kind.folder), key, move || {
        let mut context = Context::new();
        context.insert("shelves", shelves);
        context.insert("components", &components);
        let (title, description) = (framer.say(kind.title, &[]), framer.say(kind.description, &[]));
        let head = Head { title: &title, description: &description, here: "ingredients", kind: "website" };
        framer.page(kind.folder, kind.template, &head, context)
    })
}

fn users<'a>(
    framer: &'a Framer<'a>,
    listing: &'a Listing<'a>,
    kind: ContentsKind,
    shelf: &'a Shelf<'a>,
) -> Vec<ArchiveFile<'a>> {
    let recipes = shelf.recipes();
    let stretches = paging::pages(recipes.len(), MOST, &format!("{}/{}", kind.folder, shelf.slug));
    let page = |(folder, paging, range): paging::PageStretch| {
        let here = recipes[range].to_vec();
        let parts = [listing.key(&here), Key::of_value(&paging), shelf.key()];
        let key = framer.key("archive/users.html", &parts.each_ref().map(Key::bytes));
        ArchiveFile::new(page_path(&folder), key, move || {
            let users: Vec<User<'_>> = here.iter().map(|recipe| user(listing, kind, shelf, *recipe)).collect();
            users_page(framer, kind, shelf, &folder, &paging, &users)
        })
    };
    stretches.into_iter().map(page).collect()
}

fn user<'a>(listing: &Listing<'a>, kind: ContentsKind, shelf: &Shelf<'_>, recipe: usize) -> User<'a> {
    let entry = listing.newest[recipe];
    let first = shelf.places.partition_point(|(at, _)| *at < recipe);
    let details = shelf.places[first..].iter().take_while(|(at, _)| *at == recipe).map(|(_, detail)| *detail);
    let part = |detail: usize| {
        let used = (kind.folder == INGREDIENTS.folder).then(|| &entry.uses[detail]);
        let component = &entry.components[used.map_or(detail, |used| used.component)];
        let mass = component.mass.as_deref().unwrap_or_default();
        UsedIn { amount: used.map_or(mass, |used| &used.amount), component: &component.name, anchor: &component.anchor }
    };
    User { title: &entry.title, address: entry.address(), parts: details.map(part).collect() }
}

fn users_page(
    framer: &Framer<'_>,
    kind: ContentsKind,
    shelf: &Shelf<'_>,
    folder: &str,
    paging: &Paging,
    users: &[User<'_>],
) -> Result<Vec<u8>, ArchiveError> {
    let mut context = Context::new();
    context.insert("shelf", shelf);
    context.insert("users", users);
    context.insert("paging", paging);
    context.insert("kind", &framer.say(kind.title, &[]));
    context.insert("index", &folder_address(kind.folder));
    let what = if kind.folder == INGREDIENTS.folder { "what-uses" } else { "recipes-with" };
    let description = framer.say(what, &[("name", shelf.name)]);
    let head = Head { title: shelf.name, description: &description, here: "ingredients", kind: "website" };
    framer.page(folder, "archive/users.html", &head, context)
}
