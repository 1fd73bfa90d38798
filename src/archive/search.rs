//! The search: words of recipes to recipes, as scripts that a page can load from disk as well as from a host.
//!
//! `words.js` holds every word, `p0.js` and on which recipes have it, `t0.js` and on the recipes' titles. A search loads
//! the words, the parts with those asked for, and the titles of what it shows, and no more.

use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use rayon::prelude::*;
use serde::Serialize;
use tera::Context;
use unicode_normalization::UnicodeNormalization;

use super::ArchiveError;
use super::frame::{Framer, Head, page_path};
use super::listing::Listing;
use super::memory::Made;
use super::page::ArchiveFile;
use crate::pantry::Pantry;
use crate::render::clean_text;
use crate::render::script_json;
use crate::trace::Key;

/// Characters of postings in one file; one word's are never parted.
const PART: usize = 24 * 1024;

/// Titles in one file.
const TITLES: usize = 32;

/// Where a recipe has a word, the best place first; more in `search.js`, which weighs them.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum SearchField {
    Ingredient,
    Component,
    Tag,
    Title,
}

/// What is written down: files by path.
type SearchFiles = BTreeMap<String, Vec<u8>>;

#[derive(Serialize)]
struct SearchWords<'a> {
    stop: &'a [String],
    /// Sorted, each by how many letters it shares with the one before (base 36) and the rest, with spaces between.
    words: String,
    /// Index of the first word of each part.
    parts: Vec<usize>,
    titles: usize,
}

/// The page of the search and all that it loads.
pub(super) fn pages<'a>(
    framer: &'a Framer<'a>,
    listing: &'a Listing<'a>,
    pantry: &'a Pantry,
    earlier: &BTreeMap<String, Made>,
) -> Vec<ArchiveFile<'a>> {
    let template = "archive/search.html";
    let mut pages = vec![ArchiveFile::new(page_path("search"), framer.key(template, &[]), move || {
        let (title, description) = (framer.say("search", &[]), framer.say("search-says", &[]));
        let head = Head { title: &title, description: &description, here: "search", kind: "website" };
        framer.page("search", template, &head, Context::new())
    })];
    let stop = framer.language().site().too_common.as_slice();
    let key = key(listing, pantry, stop);
    let index: Arc<OnceLock<SearchFiles>> = Arc::default();
    let built = move |index: &OnceLock<SearchFiles>, path: &str| -> Result<Vec<u8>, ArchiveError> {
        let files = index.get_or_init(|| files(listing, pantry, stop));
        Ok(files.get(path).cloned().unwrap_or_default())
    };
    let made = earlier.iter().filter(|(path, made)| path.starts_with("search/") && made.key == key);
    let mut paths: Vec<String> = made.map(|(path, _)| path.clone()).collect();
    if paths.is_empty() {
        paths = index.get_or_init(|| files(listing, pantry, stop)).keys().cloned().collect();
    }
    for path in paths {
        let (index, name) = (index.clone(), path.clone());
        pages.push(ArchiveFile::new(path, key, move || built(&index, &name)));
    }
    pages
}

/// Of all that the search knows.
fn key(listing: &Listing<'_>, pantry: &Pantry, stop: &[String]) -> Key {
    let mut parts: Vec<&[u8]> = Vec::with_capacity(listing.newest.len() * 24);
    parts.extend(stop.iter().map(String::as_bytes));
    for entry in &listing.newest {
        parts.extend([entry.slug.as_bytes(), entry.title.as_bytes()]);
        parts.extend(entry.tags.iter().map(|tag| tag.name.as_bytes()));
        parts.extend(entry.components.iter().map(|component| component.name.as_bytes()));
        parts.extend(entry.uses.iter().map(|used| used.ingredient.as_bytes()));
    }
    for shelf in &listing.ingredients {
        parts.extend(pantry.by_id(shelf.slug).iter().flat_map(|row| &row.names).map(|name| name.as_bytes()));
    }
    Key::of(parts)
}

fn files(listing: &Listing<'_>, pantry: &Pantry, stop: &[String]) -> SearchFiles {
    let mut files = SearchFiles::new();
    let index = index(listing, pantry, stop);
    let mut parts: Vec<(usize, Vec<String>)> = Vec::new();
    let mut room = 0;
    for (at, places) in index.values().enumerate() {
        let written = postings(places);
        if parts.is_empty() || written.len() > room {
            parts.push((at, Vec::new()));
            room = PART;
        }
        room = room.saturating_sub(written.len() + 3);
        if let Some((_, part)) = parts.last_mut() {
            part.push(written);
        }
    }
    let words = SearchWords {
        stop,
        words: front_coded(index.keys().map(String::as_str)),
        parts: parts.iter().map(|(first, _)| *first).collect(),
        titles: TITLES,
    };
    files.insert("search/words.js".into(), call("words", &words));
    for (number, (_, part)) in parts.iter().enumerate() {
        files.insert(format!("search/p{number}.js"), call("part", &(number, part)));
    }
    for (number, entries) in listing.newest.chunks(TITLES).enumerate() {
        let titles: Vec<(String, String)> =
            entries.iter().map(|entry| (clean_text(&entry.title), entry.address())).collect();
        files.insert(format!("search/t{number}.js"), call("titles", &(number, titles)));
    }
    files
}

/// Every word, with the recipes that have it, ascending, and where.
fn index(listing: &Listing<'_>, pantry: &Pantry, stop: &[String]) -> BTreeMap<String, Vec<(usize, SearchField)>> {
    let mut index: BTreeMap<String, Vec<(usize, SearchField)>> = BTreeMap::new();
    let mut add = |text: &str, recipes: &[usize], field: SearchField| {
        for word in words(text, stop) {
            index.entry(word).or_default().extend(recipes.iter().map(|recipe| (*recipe, field)));
        }
    };
    for (at, entry) in listing.newest.iter().enumerate() {
        add(&entry.title, &[at], SearchField::Title);
        for component in &entry.components {
            add(&component.name, &[at], SearchField::Component);
        }
    }
    for shelf in &listing.tags {
        add(shelf.name, &shelf.recipes(), SearchField::Tag);
    }
    for shelf in &listing.ingredients {
        let names = pantry.by_id(shelf.slug).map(|row| row.names.join(" "));
        add(names.as_deref().unwrap_or(shelf.name), &shelf.recipes(), SearchField::Ingredient);
    }
    // Of a recipe's places the best comes first, and is kept.
    index.par_iter_mut().for_each(|(_, places)| {
        places.sort_unstable_by_key(|(recipe, field)| (*recipe, Reverse(*field)));
        places.dedup_by_key(|(recipe, _)| *recipe);
    });
    index
}

/// Lower-case words without accents, each once; numbers and what says nothing left out.
fn words(text: &str, stop: &[String]) -> Vec<String> {
    let plain: String = text.nfd().filter(|c| !matches!(c, '\u{300}'..='\u{36F}')).collect::<String>().to_lowercase();
    let words = plain.replace(['\'', '’'], "");
    let words = words.split(|c: char| !c.is_alphanumeric());
    let telling = |word: &&str| {
        let common = stop.iter().any(|stop| stop == word);
        word.chars().count() > 1 && !common && !word.bytes().all(|byte| byte.is_ascii_digit())
    };
    let mut words: Vec<String> = words.filter(telling).map(str::to_owned).collect();
    words.sort_unstable();
    words.dedup();
    words
}

fn front_coded<'a>(words: impl Iterator<Item = &'a str>) -> String {
    let mut coded = String::new();
    let mut before = "";
    for word in words {
        let same = before.chars().zip(word.chars()).take_while(|(a, b)| a == b).count().min(35);
        let digit = char::from_digit(same as u32, 36).expect("35 is the last digit of base 36");
        if !coded.is_empty() {
            coded.push(' ');
        }
        coded.push(digit);
        coded.extend(word.chars().skip(same));
        before = word;
    }
    coded
}

/// Recipes as steps from one to the next, four to a step for the place, in digits of base 32 of which all but the last
/// have 32 added.
fn postings(places: &[(usize, SearchField)]) -> String {
    const DIGITS: &[u8; 64] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_";
    let mut text = String::new();
    let mut before = 0;
    for (recipe, field) in places {
        let mut number = (recipe - before) * 4 + *field as usize;
        before = *recipe;
        while number > 31 {
            text.push(char::from(DIGITS[number % 32 + 32]));
            number /= 32;
        }
        text.push(char::from(DIGITS[number]));
    }
    text
}

/// A script that hands a value over.
fn call(name: &str, value: &impl Serialize) -> Vec<u8> {
    let json = script_json(value).expect("texts, numbers and lists are always JSON");
    format!("levelcup.{name}({json});\n").into_bytes()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::Language;

    #[test]
    fn words_are_plain() {
        let language = Language::default();
        let read = |text: &str| words(text, &language.site().too_common);
        assert_eq!(read("Crème brûlée, baker's No. 12 of the quay"), ["bakers", "brulee", "creme", "no", "quay"]);
    }

    #[test]
    fn words_share_their_beginnings() {
        assert_eq!(front_coded(["almond", "almonds", "apple"].into_iter()), "0almond 6s 1pple");
    }

    #[test]
    fn postings_are_steps() {
        let places = [(0, SearchField::Title), (1, SearchField::Ingredient), (300, SearchField::Tag)];
        // 3; 4; 299 * 4 + 2 = 1198 = 14 + 5 * 32 + 1 * 1024.
        assert_eq!(postings(&places), "34kb1");
    }
}
