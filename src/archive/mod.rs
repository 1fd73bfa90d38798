//! COMPOSE: the static site of all recipes.
//!
//! Pages link to each other by relative paths ending in `index.html`, so that the folder works opened from disk, from
//! any sub-folder of a host, and behind a server alike; canonical links, the feed and the site map name the folder
//! alone (`https://…/SLUG/`), which is the address to share.
//!
//! Every file has a key, made of all that it is made from. A file whose key is that of the last build, and which is
//! still in place, is not made again.

mod build;
mod check;
mod colour;
mod contents;
mod corrections;
mod cover;
mod dates;
mod entry;
mod error;
mod feed;
mod frame;
mod home;
mod indexes;
mod key;
mod listing;
mod look;
mod memory;
mod moved;
mod page;
mod paging;
mod picture;
mod recipe;
mod search;
mod site_map;
mod timetable;
mod tints;
mod writing;

use std::collections::BTreeMap;
use std::path::Path;

use crate::pantry::Pantry;
use crate::render::Environment;
use crate::workspace::Site;

pub use build::{Draft, Proofed, build};
pub use check::{Broken, Checked, check};
pub use error::ArchiveError;
pub use frame::root_path;
pub use key::Key;
pub use memory::Memory;

/// What the archive is made of, beside the recipes.
#[derive(Clone, Copy, Debug)]
pub struct Material<'a> {
    /// Who publishes.
    pub site: &'a Site,
    /// Further pages, in the order of the menu.
    pub writings: &'a [Writing],
    /// The templates.
    pub environment: &'a Environment,
    /// The names of ingredients.
    pub pantry: &'a Pantry,
    /// Where the photographs lie.
    pub photos: &'a Path,
    /// Address of a recipe's card by slug, relative to the archive's root; a recipe may have none.
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
