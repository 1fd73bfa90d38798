use serde::Serialize;
use tera::Context;

use super::frame::{Framer, folder_address};
use super::listing::Listing;
use super::{ArchiveError, File, Writing};

/// Most addresses in one site map (sitemaps.org protocol).
const MOST: usize = 50_000;

/// One address of the site map.
#[derive(Serialize)]
struct Place {
    address: String,
    /// ISO 8601 date of the last change, where the data has one.
    changed: Option<String>,
}

/// `sitemap.xml` and the `robots.txt` that names it; neither where the site has no address.
pub(super) fn files(
    framer: &Framer<'_>,
    listing: &Listing<'_>,
    writings: &[Writing],
) -> Result<Vec<File>, ArchiveError> {
    if !framer.has_address() {
        return Ok(Vec::new());
    }
    let mut places = places(listing, writings);
    places.truncate(MOST);
    let mut context = Context::new();
    context.insert("places", &places);
    let map = framer.render("sitemap.xml".into(), "archive/sitemap.xml", context)?;
    let robots = format!("User-agent: *\nAllow: /\n\nSitemap: {}sitemap.xml\n", framer.url());
    Ok(vec![map, ("robots.txt".into(), robots.into_bytes())])
}

fn places(listing: &Listing<'_>, writings: &[Writing]) -> Vec<Place> {
    let newest = |indexes: &mut dyn Iterator<Item = usize>| {
        indexes.filter_map(|index| listing.newest[index].updated).max().map(str::to_owned)
    };
    let everything = newest(&mut (0..listing.newest.len()));
    let mut places = vec![
        Place { address: String::new(), changed: everything.clone() },
        Place { address: "all/".into(), changed: everything.clone() },
    ];
    places.extend(
        listing
            .newest
            .iter()
            .map(|entry| Place { address: entry.address.clone(), changed: entry.updated.map(str::to_owned) }),
    );
    if !listing.tags.is_empty() {
        places.push(Place { address: "tags/".into(), changed: everything });
    }
    places.extend(
        listing
            .tags
            .iter()
            .map(|shelf| Place { address: shelf.address.clone(), changed: newest(&mut shelf.recipes.iter().copied()) }),
    );
    let corrected = listing.newest.iter().flat_map(|entry| entry.corrections).map(|correction| &correction.on).max();
    if let Some(on) = corrected {
        places.push(Place { address: "corrections/".into(), changed: Some(on.clone()) });
    }
    places.extend(writings.iter().map(|writing| Place { address: folder_address(&writing.slug), changed: None }));
    places
}
