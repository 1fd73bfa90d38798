use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;

use super::cover::Part;
use super::entry::Entry;
use super::frame::{Framer, page_path};
use super::listing::Listing;
use super::memory::{Made, Memory, Remembered};
use super::page::Page;
use super::picture::Picture;
use super::{
    ArchiveError, Key, Material, contents, corrections, feed, home, indexes, look, moved, recipe, search, site_map,
    writing,
};
use crate::output::{Hash, Output};
use crate::sheet::Sheet;

/// A recipe before it is read.
#[derive(Clone, Debug)]
pub struct Draft {
    /// Names its page.
    pub slug: String,
    /// Of all that its sheet depends on; `None` where that is not known before it is read.
    pub key: Option<Key>,
}

/// A recipe after it is read.
#[derive(Clone, Debug)]
pub struct Proofed {
    /// As [`Draft::key`], now known.
    pub key: Key,
    /// `None` where there is an error in it.
    pub sheet: Option<Sheet>,
}

/// Puts every file of the archive into `folder` of an output: makes what changed since the build that `memory` is of,
/// and keeps the rest. Returns what the next build is to remember.
///
/// `proofed` reads the draft at an index. A recipe with an error keeps the page and the place in lists that it had.
///
/// # Errors
/// A template fails, a file cannot be written, or two pages claim one path (a recipe named like one of the archive's
/// own pages).
pub fn build(
    material: &Material<'_>,
    drafts: &[Draft],
    proofed: &(dyn Fn(usize) -> Proofed + Sync),
    (output, folder): (&Output, &str),
    mut memory: Memory,
) -> Result<Memory, ArchiveError> {
    let framer = Framer::new(material);
    let mut press = Press { output, folder, earlier: std::mem::take(&mut memory.files) };
    distinct(drafts.iter().map(|draft| page_path(&draft.slug)))?;
    let works: Vec<Work> = drafts
        .par_iter()
        .enumerate()
        .map(|(at, draft)| {
            let known = memory.recipes.get(&draft.slug).map(|known| known.key);
            Bench { material, framer: &framer, press: &press }.recipe(draft, known, &|| proofed(at))
        })
        .collect::<Result<_, _>>()?;
    let mut next = Memory::default();
    for (draft, work) in drafts.iter().zip(works) {
        let earlier = memory.recipes.remove(&draft.slug);
        let remembered = work.fresh.map_or(earlier, |(key, entry)| Some(Remembered { key, entry }));
        let Some((remembered, made)) = remembered.zip(work.made) else { continue };
        next.recipes.insert(draft.slug.clone(), remembered);
        next.files.insert(page_path(&draft.slug), made);
    }
    let listing = Listing::new(next.recipes.values().map(|known| &known.entry), material.pantry);
    let pages = pages(material, &framer, &listing, &press.earlier);
    distinct(next.files.keys().map(String::as_str).chain(pages.iter().map(|page| page.path.as_str())))?;
    let made: Vec<(String, Made)> =
        pages.par_iter().map(|page| Ok((page.path.clone(), press.file(page)?))).collect::<Result<_, ArchiveError>>()?;
    drop(pages);
    next.files.extend(made);
    for (path, bytes) in look::files(material.site) {
        press.put(path, &bytes)?;
    }
    press.earlier.clear();
    Ok(next)
}

/// What became of a recipe.
struct Work {
    /// Read in this build; `None` where what the last build knew still holds.
    fresh: Option<(Key, Entry)>,
    /// Its page; `None` where it has none.
    made: Option<Made>,
}

struct Bench<'a> {
    material: &'a Material<'a>,
    framer: &'a Framer<'a>,
    press: &'a Press<'a>,
}

impl Bench<'_> {
    fn recipe(&self, draft: &Draft, known: Option<Key>, proofed: &dyn Fn() -> Proofed) -> Result<Work, ArchiveError> {
        let path = page_path(&draft.slug);
        let card = self.material.cards.get(&draft.slug).map_or(&[][..], |card| card.as_bytes());
        let key_of = |sheet: Key| self.framer.key(recipe::TEMPLATE, &[sheet.bytes(), card]);
        if let Some(key) = known.filter(|known| draft.key == Some(*known))
            && let Some(made) = self.press.kept(&path, key_of(key))?
        {
            return Ok(Work { fresh: None, made: Some(made) });
        }
        let Proofed { key, sheet } = proofed();
        let Some(sheet) = sheet else {
            return Ok(Work { fresh: None, made: self.press.left(&path)? });
        };
        let picture = sheet.photo.as_ref().map(|photo| Picture::read(self.material.photos, &photo.file)).transpose()?;
        let parts = Part::of(&sheet, self.material.pantry);
        let bytes = recipe::page(self.framer, self.material, &sheet, &parts, picture.as_ref())?;
        let made = Made { key: key_of(key), hash: self.press.put(&path, &bytes)? };
        Ok(Work { fresh: Some((key, Entry::new(&sheet, parts, picture))), made: Some(made) })
    }
}

/// Where files go, and what the last build made.
struct Press<'a> {
    output: &'a Output,
    folder: &'a str,
    earlier: BTreeMap<String, Made>,
}

impl Press<'_> {
    fn path(&self, path: &str) -> String {
        format!("{}/{path}", self.folder)
    }

    /// A file of the last build, where it was made from the same and is still in place.
    fn kept(&self, path: &str, key: Key) -> Result<Option<Made>, ArchiveError> {
        let Some(made) = self.earlier.get(path).filter(|made| made.key == key) else { return Ok(None) };
        Ok(self.output.keep(&self.path(path), Some(&made.hash))?.then_some(*made))
    }

    /// A file that an earlier build wrote, whatever it was made from; `None` where nothing is known of it.
    fn left(&self, path: &str) -> Result<Option<Made>, ArchiveError> {
        let kept = self.output.keep(&self.path(path), None)?;
        Ok(self.earlier.get(path).copied().filter(|_| kept))
    }

    fn put(&self, path: &str, bytes: &[u8]) -> Result<Hash, ArchiveError> {
        Ok(self.output.put(&self.path(path), bytes)?)
    }

    fn file(&self, page: &Page<'_>) -> Result<Made, ArchiveError> {
        if let Some(made) = self.kept(&page.path, page.key)? {
            return Ok(made);
        }
        Ok(Made { key: page.key, hash: self.put(&page.path, &(page.make)()?)? })
    }
}

/// Everything but the recipes' own pages.
fn pages<'a>(
    material: &Material<'a>,
    framer: &'a Framer<'a>,
    listing: &'a Listing<'a>,
    earlier: &BTreeMap<String, Made>,
) -> Vec<Page<'a>> {
    let mut pages = vec![home::page(framer, listing), framer.not_found()];
    pages.extend(indexes::all(framer, listing));
    pages.extend(indexes::years(framer, listing));
    pages.extend(indexes::tags(framer, listing));
    pages.extend(contents::pages(framer, listing));
    pages.extend(search::pages(framer, listing, material.pantry, earlier));
    pages.extend(corrections::pages(framer, listing));
    pages.extend(listing.newest.iter().flat_map(|entry| moved::pages(framer, entry)));
    pages.extend(material.writings.iter().map(|writing| writing::page(framer, writing)));
    let pictures: BTreeMap<&str, &Picture> =
        listing.newest.iter().filter_map(|entry| entry.picture.as_ref()).map(|one| (one.file.as_str(), one)).collect();
    pages.extend(pictures.values().flat_map(|picture| picture.pages(material.photos)));
    pages.extend(feed::pages(framer, listing));
    pages.extend(site_map::pages(framer, listing, material.writings));
    pages
}

/// Refuses two files that some file system would take for one.
fn distinct<S: AsRef<str>>(paths: impl Iterator<Item = S>) -> Result<(), ArchiveError> {
    let mut seen = BTreeSet::new();
    for path in paths {
        if !seen.insert(path.as_ref().to_lowercase()) {
            return Err(ArchiveError::Collision { path: path.as_ref().into() });
        }
    }
    Ok(())
}
