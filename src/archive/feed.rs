use serde::Serialize;
use tera::Context;

use super::entry::Entry;
use super::frame::Framer;
use super::listing::Listing;
use super::{ArchiveError, File, dates};

/// Entries in the feed.
const NEWEST: usize = 30;

/// An entry of the feed.
#[derive(Serialize)]
struct Item<'a> {
    title: &'a str,
    address: &'a str,
    published: String,
    updated: String,
    summary: &'a str,
    tags: Vec<&'a str>,
}

/// The Atom feed (RFC 4287) of the newest recipes that have a date; none where no recipe or no site has what it needs.
///
/// The feed's own date is the newest in the data, never the clock, so that the same recipes give the same bytes.
pub(super) fn file(framer: &Framer<'_>, listing: &Listing<'_>) -> Result<Option<File>, ArchiveError> {
    let items: Vec<Item<'_>> = listing.newest.iter().filter_map(item).take(NEWEST).collect();
    // Identifiers must be whole addresses.
    if !framer.has_address() {
        return Ok(None);
    }
    let Some(updated) = items.iter().map(|item| item.updated.as_str()).max() else {
        return Ok(None);
    };
    let mut context = Context::new();
    context.insert("updated", updated);
    context.insert("items", &items);
    framer.render("feed.xml".into(), "archive/feed.xml", context).map(Some)
}

fn item<'a>(entry: &'a Entry<'_>) -> Option<Item<'a>> {
    let published = entry.published.and_then(dates::rfc3339)?;
    Some(Item {
        title: entry.title,
        address: &entry.address,
        updated: entry.updated.and_then(dates::rfc3339).unwrap_or_else(|| published.clone()),
        published,
        summary: entry.summary.unwrap_or_default(),
        tags: entry.tags.iter().map(|tag| tag.name.as_str()).collect(),
    })
}
