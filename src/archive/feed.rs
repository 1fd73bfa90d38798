use serde::Serialize;
use tera::Context;

use super::entry::ListedRecipe;
use super::frame::Framer;
use super::listing::Listing;
use super::page::ArchiveFile;
use super::{ArchiveError, dates};
use crate::render::{clean_text, script_json};
use crate::trace::Key;

/// Entries in a feed.
const NEWEST: usize = 30;

/// The date of a feed in which nothing is: it must have one, and never the clock's.
const NO_DATE: &str = "1970-01-01T00:00:00Z";

/// An entry of a feed.
#[derive(Serialize)]
struct FeedItem<'a> {
    title: &'a str,
    address: String,
    published: String,
    updated: String,
    summary: &'a str,
    tags: Vec<&'a str>,
}

/// JSON Feed 1.1, as its specification names things.
#[derive(Serialize)]
struct JsonFeed<'a> {
    version: &'static str,
    title: String,
    home_page_url: String,
    feed_url: String,
    #[serde(skip_serializing_if = "String::is_empty")]
    description: String,
    language: &'a str,
    authors: [JsonAuthor; 1],
    items: Vec<JsonItem>,
}

#[derive(Serialize)]
struct JsonAuthor {
    name: String,
}

#[derive(Serialize)]
struct JsonItem {
    id: String,
    url: String,
    title: String,
    content_text: String,
    date_published: String,
    date_modified: String,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    tags: Vec<String>,
}

/// The feeds of the newest recipes that have a date, Atom (RFC 4287) and JSON Feed 1.1; none where the site has no
/// address, as identifiers must be whole addresses.
///
/// A feed's own date is the newest in the data, never the clock, so that the same recipes give the same bytes.
pub(super) fn pages<'a>(framer: &'a Framer<'a>, listing: &'a Listing<'a>) -> Vec<ArchiveFile<'a>> {
    if !framer.has_address() {
        return Vec::new();
    }
    let shown: Vec<usize> = (0..listing.newest.len().min(NEWEST)).collect();
    let key = framer.key("archive/feed.xml", &[listing.key(&shown).bytes()]);
    let json_key = Key::of([key.bytes(), b"json"]);
    vec![
        ArchiveFile::new("feed.xml", key, move || atom(framer, &items(listing))),
        ArchiveFile::new("feed.json", json_key, move || Ok(json(framer, items(listing)))),
    ]
}

fn items<'a>(listing: &Listing<'a>) -> Vec<FeedItem<'a>> {
    listing.newest.iter().take(NEWEST).filter_map(|entry| item(entry)).collect()
}

fn atom(framer: &Framer<'_>, items: &[FeedItem<'_>]) -> Result<Vec<u8>, ArchiveError> {
    let mut context = Context::new();
    context.insert("updated", items.iter().map(|item| item.updated.as_str()).max().unwrap_or(NO_DATE));
    context.insert("items", items);
    framer.render("feed.xml", "archive/feed.xml", context)
}

fn json(framer: &Framer<'_>, items: Vec<FeedItem<'_>>) -> Vec<u8> {
    let url = framer.url();
    let items = items.into_iter().map(|item| JsonItem {
        id: format!("{url}{}", item.address),
        url: format!("{url}{}", item.address),
        title: clean_text(item.title),
        // An item must hold something.
        content_text: clean_text(if item.summary.is_empty() { item.title } else { item.summary }),
        date_published: item.published,
        date_modified: item.updated,
        tags: item.tags.into_iter().map(clean_text).collect(),
    });
    let feed = JsonFeed {
        version: "https://jsonfeed.org/version/1.1",
        title: clean_text(&framer.site.name),
        feed_url: format!("{url}feed.json"),
        description: clean_text(&framer.site.tagline),
        language: &framer.site.language,
        authors: [JsonAuthor { name: clean_text(&framer.site.author) }],
        items: items.collect(),
        home_page_url: url.clone(),
    };
    script_json(&feed).expect("a struct of texts is always JSON").into_bytes()
}

fn item(entry: &ListedRecipe) -> Option<FeedItem<'_>> {
    let published = entry.published.as_deref().and_then(dates::rfc3339)?;
    Some(FeedItem {
        title: &entry.title,
        address: entry.address(),
        updated: entry.updated.as_deref().and_then(dates::rfc3339).unwrap_or_else(|| published.clone()),
        published,
        summary: entry.summary.as_deref().unwrap_or_default(),
        tags: entry.tags.iter().map(|tag| tag.name.as_str()).collect(),
    })
}
