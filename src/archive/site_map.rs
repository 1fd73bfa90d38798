use serde::Serialize;
use tera::Context;

use super::Writing;
use super::folders::{Changed, FOLDERS};
use super::frame::{Framer, folder_address};
use super::listing::{Listing, Shelf};
use super::page::ArchiveFile;
use crate::trace::Key;

/// Most addresses in one site map (sitemaps.org protocol).
const MOST: usize = 50_000;

/// One address of the site map.
#[derive(Serialize)]
struct MapPlace {
    address: String,
    /// ISO 8601 date of the last change, where the data has one.
    changed: Option<String>,
}

/// `sitemap.xml` and the `robots.txt` that names it; neither where the site has no address.
///
/// More addresses than one map may hold are spread over `sitemap-1.xml` and on, with `sitemap.xml` as their index.
pub(super) fn pages<'a>(framer: &'a Framer<'a>, listing: &Listing<'a>, writings: &[Writing]) -> Vec<ArchiveFile<'a>> {
    if !framer.has_address() {
        return Vec::new();
    }
    let mut places = places(listing, writings);
    let robots = format!("User-agent: *\nAllow: /\n\nSitemap: {}sitemap.xml\n", framer.url()).into_bytes();
    let mut pages = vec![ArchiveFile::new("robots.txt", Key::of([&robots[..]]), move || Ok(robots.clone()))];
    if places.len() <= MOST {
        pages.push(map(framer, "sitemap.xml".into(), "archive/sitemap.xml", places));
        return pages;
    }
    let mut maps = Vec::new();
    while !places.is_empty() {
        let rest = places.split_off(places.len().min(MOST));
        let path = format!("sitemap-{}.xml", maps.len() + 1);
        let changed = places.iter().filter_map(|place| place.changed.clone()).max();
        maps.push(MapPlace { address: path.clone(), changed });
        pages.push(map(framer, path, "archive/sitemap.xml", places));
        places = rest;
    }
    pages.push(map(framer, "sitemap.xml".into(), "archive/sitemap-index.xml", maps));
    pages
}

fn map<'a>(framer: &'a Framer<'a>, path: String, template: &'static str, places: Vec<MapPlace>) -> ArchiveFile<'a> {
    let key = framer.key(template, &[Key::of_value(&places).bytes()]);
    ArchiveFile::new(path.clone(), key, move || {
        let mut context = Context::new();
        context.insert("places", &places);
        framer.render(&path, template, context)
    })
}

fn places(listing: &Listing<'_>, writings: &[Writing]) -> Vec<MapPlace> {
    let newest = |indexes: &mut dyn Iterator<Item = usize>| {
        indexes.filter_map(|index| listing.newest[index].updated.as_deref()).max().map(str::to_owned)
    };
    let everything = newest(&mut (0..listing.newest.len()));
    let corrected = listing.newest.iter().flat_map(|entry| &entry.corrections).map(|correction| &correction.on).max();
    let folders = FOLDERS.iter().filter_map(|folder| {
        let changed = match folder.map? {
            Changed::WithRecipes => everything.clone(),
            Changed::WithCorrections => corrected.cloned(),
        };
        Some(MapPlace { address: folder_address(folder.name), changed })
    });
    let mut places: Vec<MapPlace> = folders.collect();
    places.extend(
        listing.newest.iter().map(|entry| MapPlace { address: entry.address(), changed: entry.updated.clone() }),
    );
    let of_shelf = |shelf: &Shelf<'_>| MapPlace {
        address: shelf.address.clone(),
        changed: newest(&mut shelf.places.iter().map(|(recipe, _)| *recipe)),
    };
    for shelves in [&listing.tags, &listing.ingredients, &listing.components, &listing.years] {
        places.extend(shelves.iter().map(of_shelf));
    }
    places.extend(writings.iter().map(|writing| MapPlace { address: folder_address(&writing.slug), changed: None }));
    places
}
