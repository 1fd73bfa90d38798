//! COMPOSE: the static site of all recipes, as paths and bytes.
//!
//! Pages link to each other by relative paths ending in `index.html`, so that the folder works opened from disk, from
//! any sub-folder of a host, and behind a server alike; canonical links, the feed and the site map name the folder
//! alone (`https://…/SLUG/`), which is the address to share.

mod colour;
mod cover;
mod dates;
mod entry;
mod error;
mod feed;
mod frame;
mod listing;
mod look;
mod recipe;
mod site_map;
mod writing;

use std::collections::BTreeMap;

use rayon::prelude::*;

use crate::render::Environment;
use crate::sheet::Sheet;
use crate::workspace::Site;

pub use error::ArchiveError;
use frame::Framer;
use listing::Listing;

/// What the archive is made of.
#[derive(Clone, Copy, Debug)]
pub struct Material<'a> {
    /// Who publishes.
    pub site: &'a Site,
    /// Every recipe, in any order.
    pub sheets: &'a [Sheet],
    /// Further pages, in the order of the menu.
    pub writings: &'a [Writing],
    /// The templates.
    pub environment: &'a Environment,
    /// Address of a recipe's card by slug, absolute or relative to the archive's root; a recipe may have none.
    pub cards: &'a BTreeMap<String, String>,
}

/// A page in Markdown by the publisher: about, contact, privacy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Writing {
    /// Names its folder in the archive.
    pub slug: String,
    /// Markdown; the first heading of level one is the title, raw HTML is dropped.
    pub markdown: String,
}

/// A file of the archive: path relative to its root, parts joined by `/`, and contents.
pub type File = (String, Vec<u8>);

/// Every file of the archive, in order of path.
///
/// # Errors
/// A template fails, or two pages claim one path (a recipe named like one of the archive's own pages).
pub fn pages(material: &Material<'_>) -> Result<Vec<File>, ArchiveError> {
    let framer = Framer::new(material);
    let listing = Listing::new(material.sheets);
    let mut files: Vec<File> =
        material.sheets.par_iter().map(|sheet| recipe::page(&framer, material, sheet)).collect::<Result<_, _>>()?;
    files.extend(listing::pages(&framer, &listing)?);
    for writing in material.writings {
        files.push(writing::page(&framer, writing)?);
    }
    files.push(frame::not_found(&framer)?);
    files.extend(feed::file(&framer, &listing)?);
    files.extend(site_map::files(&framer, &listing, material.writings)?);
    files.extend(look::files(material.site));
    distinct(files)
}

/// Sorts by path and refuses two files that some file system would take for one.
fn distinct(files: Vec<File>) -> Result<Vec<File>, ArchiveError> {
    let mut seen = BTreeMap::new();
    for (path, bytes) in files {
        let key = path.to_lowercase();
        if seen.insert(key, (path.clone(), bytes)).is_some() {
            return Err(ArchiveError::Collision { path });
        }
    }
    let mut files: Vec<File> = seen.into_values().collect();
    files.sort_by(|a, b| a.0.cmp(&b.0));
    Ok(files)
}
