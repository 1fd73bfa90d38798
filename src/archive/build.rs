use std::collections::{BTreeMap, BTreeSet};
use std::sync::Mutex;

use rayon::prelude::*;

use super::change::{self, Change};
use super::cover::CoverPart;
use super::entry::ListedRecipe;
use super::frame::{Framer, page_path};
use super::listing::Listing;
use super::memory::{Memory, Remembered};
use super::page::ArchiveFile;
use super::press::Press;
use super::{
    ArchiveError, Material, contents, corrections, feed, folders, home, indexes, look, moved, picture, recipe, search,
    site_map, writing,
};
use crate::output::Output;
use crate::photo::Photo;
use crate::sheet::Sheet;
use crate::source::{Finding, guarded};
use crate::trace::Key;

/// A recipe before it is read.
#[derive(Clone, Debug)]
pub struct Pending {
    /// Names its page.
    pub slug: String,
    /// Of all that its page depends on; `None` where that is not known before it is read.
    pub key: Option<Key>,
    /// Address of its card relative to the archive's root, where one was made before.
    pub card: Option<String>,
}

/// A recipe after it is read.
#[derive(Clone, Debug)]
pub struct Ready {
    /// As [`Pending::key`], now known.
    pub key: Key,
    /// As [`Pending::card`], now known.
    pub card: Option<String>,
    /// `None` where there is an error in it.
    pub sheet: Option<Sheet>,
}

/// The recipes of an archive, none of which has another's slug.
pub struct Recipes<'a, E> {
    /// As far as they are known before they are read.
    pub pending: &'a [Pending],
    /// Reads the one at an index.
    pub ready: &'a (dyn Fn(usize) -> Result<Ready, E> + Sync),
    /// Is told of one whose page could not be made.
    pub failed: &'a (dyn Fn(usize, Finding) + Sync),
}

/// Puts every file of the archive into `folder` of an output: makes what changed since the build that `memory` is of,
/// and keeps the rest. Returns what the next build is to remember, and what readers would find changed untold.
///
/// A recipe with an error keeps the page and the place in lists that it had.
///
/// # Errors
/// A template fails, a file cannot be written, two pictures claim one path, or a recipe cannot be made ready.
pub fn build<E: From<ArchiveError> + Send>(
    material: &Material<'_>,
    recipes: &Recipes<'_, E>,
    (output, folder): (&Output, &str),
    mut memory: Memory,
) -> Result<(Memory, Vec<Change>), E> {
    let framer = Framer::new(material);
    let press = Press::new(output, folder, std::mem::take(&mut memory.files));
    let printed = Mutex::default();
    let making = Making { material, framer: &framer, press: &press, printed: &printed };
    let works: Vec<Work> = (0..recipes.pending.len())
        .into_par_iter()
        .map(|at| {
            let known = memory.recipes.get(&recipes.pending[at].slug).map(|known| known.key);
            making.recipe(recipes, at, known)
        })
        .collect::<Result<_, E>>()?;
    for slug in material.unread {
        press.leave(&page_path(slug))?;
    }
    let (mut next, mut changes) = (Memory::default(), Vec::new());
    for (pending, work) in recipes.pending.iter().zip(works) {
        let earlier = memory.recipes.remove(&pending.slug);
        if let Some((before, (_, now))) = earlier.as_ref().zip(work.fresh.as_ref()) {
            changes.extend(change::title(&before.entry, now));
            changes.extend(change::amounts(&before.entry, now));
        }
        let remembered = work.fresh.map_or(earlier, |(key, entry)| Some(Remembered { key, entry }));
        if let Some(remembered) = remembered.filter(|_| work.paged) {
            next.recipes.insert(pending.slug.clone(), remembered);
        }
    }
    changes.extend(change::gone(&memory.recipes, &next.recipes, material.unread));
    let listing = Listing::new(next.recipes.values().map(|known| &known.entry), material.pantry);
    let mut pages = pages(material, &framer, &listing, press.earlier());
    let recipes: Vec<String> = next.recipes.keys().map(|slug| page_path(slug)).collect();
    distinct(recipes.iter().chain(pages.iter().map(|page| &page.path)))?;
    // Photographs that are new were put with their recipe.
    pages.retain(|page| !press.has(&page.path));
    pages.par_iter().try_for_each(|page| match press.file(page) {
        // Of a recipe that has an error now, which says so.
        Err(ArchiveError::Photo { .. }) => Ok(()),
        filed => filed,
    })?;
    drop(pages);
    for (path, bytes) in look::files(material.site) {
        press.put(path, Key::of([&bytes[..]]), &bytes)?;
    }
    next.files = press.made();
    Ok((next, changes))
}

/// What became of a recipe.
struct Work {
    /// Read in this build; `None` where what the last build knew still holds.
    fresh: Option<(Key, ListedRecipe)>,
    /// Whether it has a page.
    paged: bool,
}

struct Making<'a> {
    material: &'a Material<'a>,
    framer: &'a Framer<'a>,
    press: &'a Press<'a>,
    /// Photographs whose prints were put, since several recipes may show one.
    printed: &'a Mutex<BTreeSet<String>>,
}

impl Making<'_> {
    fn recipe<E: From<ArchiveError>>(
        &self,
        recipes: &Recipes<'_, E>,
        at: usize,
        known: Option<Key>,
    ) -> Result<Work, E> {
        let pending = &recipes.pending[at];
        let path = page_path(&pending.slug);
        if let Some(key) = known.filter(|known| pending.key == Some(*known))
            && self.press.keep(&path, self.page_key(key, pending.card.as_deref()))?
        {
            return Ok(Work { fresh: None, paged: true });
        }
        let Ready { key, card, sheet } = (recipes.ready)(at)?;
        // One whose name is taken by a page of the archive's own can have none.
        let reserved = self.is_reserved(&pending.slug);
        let photo = |sheet: &Sheet| {
            let photo = sheet.photo.as_ref().map(|photo| self.material.photos.look(&photo.file));
            photo.transpose().ok()
        };
        let sheet = sheet.filter(|_| !reserved).and_then(|sheet| Some((photo(&sheet)?, sheet)));
        let left = || Ok(Work { fresh: None, paged: known.is_some() && !reserved && self.press.leave(&path)? });
        let Some((photo, sheet)) = sheet else { return left() };
        let made = guarded(|| {
            let parts = CoverPart::of(&sheet, self.material.pantry);
            let page = recipe::page(self.framer, self.material, &sheet, &parts, photo.as_ref(), card.as_deref())?;
            Ok::<_, ArchiveError>((page, ListedRecipe::new(&sheet, parts, photo.clone())))
        });
        let (page, entry) = match made {
            Ok(made) => made?,
            Err(fault) => {
                (recipes.failed)(at, *fault);
                return left();
            }
        };
        if let Some(photo) = &photo {
            self.print(photo)?;
        }
        self.press.put(&path, self.page_key(key, card.as_deref()), &page)?;
        Ok(Work { fresh: Some((key, entry)), paged: true })
    }

    fn page_key(&self, recipe: Key, card: Option<&str>) -> Key {
        self.framer.key(recipe::TEMPLATE, &[recipe.bytes(), card.unwrap_or_default().as_bytes()])
    }

    fn is_reserved(&self, slug: &str) -> bool {
        folders::reserved().any(|folder| folder == slug)
            || self.material.writings.iter().any(|writing| writing.slug == slug)
    }

    /// Puts the prints of a photograph while it is at hand.
    fn print(&self, photo: &Photo) -> Result<(), ArchiveError> {
        let mut printed = self.printed.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        if !printed.insert(photo.file.clone()) {
            return Ok(());
        }
        drop(printed);
        picture::pages(photo, self.material.photos).iter().try_for_each(|page| self.press.file(page))
    }
}

/// Everything but the recipes' own pages.
fn pages<'a>(
    material: &Material<'a>,
    framer: &'a Framer<'a>,
    listing: &'a Listing<'a>,
    earlier: &BTreeMap<String, super::memory::Made>,
) -> Vec<ArchiveFile<'a>> {
    let mut pages = vec![home::page(framer, listing), framer.not_found()];
    pages.extend(indexes::all(framer, listing));
    pages.extend(indexes::years(framer, listing));
    pages.extend(indexes::tags(framer, listing));
    pages.extend(contents::pages(framer, listing));
    pages.extend(search::pages(framer, listing, material.pantry, earlier));
    pages.extend(corrections::pages(framer, listing));
    pages.extend(material.writings.iter().map(|writing| writing::page(framer, writing)));
    let mut taken: BTreeSet<String> = pages.iter().map(|page| page.path.to_lowercase()).collect();
    taken.extend(listing.newest.iter().map(|entry| page_path(&entry.slug)));
    for page in listing.newest.iter().flat_map(|entry| moved::pages(framer, entry)) {
        // An earlier address that something else has now leads to that.
        if taken.insert(page.path.to_lowercase()) {
            pages.push(page);
        }
    }
    let pictures: BTreeMap<&str, &Photo> =
        listing.newest.iter().filter_map(|entry| entry.photo.as_ref()).map(|one| (one.file.as_str(), one)).collect();
    pages.extend(pictures.values().flat_map(|photo| picture::pages(photo, material.photos)));
    pages.extend(feed::pages(framer, listing));
    pages.extend(site_map::pages(framer, listing, material.writings));
    pages
}

/// Refuses two files that some file system would take for one.
fn distinct<'p>(paths: impl Iterator<Item = &'p String>) -> Result<(), ArchiveError> {
    let mut seen = BTreeSet::new();
    for path in paths {
        if !seen.insert(path.to_lowercase()) {
            return Err(ArchiveError::Collision { path: path.into() });
        }
    }
    Ok(())
}
