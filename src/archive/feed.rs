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
    title: String,
    address: &'a str,
    published: String,
    updated: String,
    summary: String,
    tags: Vec<String>,
}

/// The Atom feed (RFC 4287) of the newest recipes that have a date; none where no recipe has one.
///
/// The feed's own date is the newest in the data, never the clock, so that the same recipes give the same bytes.
pub(super) fn file(framer: &Framer<'_>, listing: &Listing<'_>) -> Result<Option<File>, ArchiveError> {
    let items: Vec<Item<'_>> = listing.newest.iter().filter_map(item).take(NEWEST).collect();
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
        title: xml_text(entry.title),
        address: &entry.address,
        updated: entry.updated.and_then(dates::rfc3339).unwrap_or_else(|| published.clone()),
        published,
        summary: xml_text(entry.summary.unwrap_or_default()),
        tags: entry.tags.iter().map(|tag| xml_text(&tag.name)).collect(),
    })
}

/// The text without characters that XML 1.0 (section 2.2) cannot hold even escaped.
fn xml_text(text: &str) -> String {
    let allowed =
        |c: &char| !matches!(c, '\0'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}');
    text.chars().filter(allowed).collect()
}

#[cfg(test)]
mod tests {
    use super::xml_text;

    #[test]
    fn control_characters_are_left_out() {
        assert_eq!(xml_text("a\0b\u{1b}c\td\u{ffff}é"), "abc\tdé");
    }
}
