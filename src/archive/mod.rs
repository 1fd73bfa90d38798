//! COMPOSE: the static site of all recipes.
//!
//! Pages link to each other by relative paths ending in `index.html`, so that the folder works opened from disk, from
//! any sub-folder of a host, and behind a server alike; canonical links, the feed and the site map name the folder
//! alone (`https://…/SLUG/`), which is the address to share.
//!
//! Every file has a key, made of all that it is made from. A file whose key is that of the last build, and which is
//! still in place, is not made again.

mod build;
mod change;
mod check;
mod colour;
mod contents;
mod corrections;
mod cover;
mod dates;
mod entry;
mod error;
mod feed;
mod folders;
mod frame;
mod home;
mod indexes;
mod listing;
mod look;
mod memory;
mod moved;
mod page;
mod paging;
mod picture;
mod press;
mod recipe;
mod search;
mod site_map;
mod timetable;
mod tints;
mod title;
mod writing;

use crate::pantry::Pantry;
use crate::photo::Photos;
use crate::render::Environment;
use crate::workspace::Site;

pub use build::{Pending, Ready, Recipes, build};
pub use change::Change;
pub use check::{Broken, Checked, check};
pub use error::ArchiveError;
pub use folders::reserved;
pub use frame::root_path;
pub use memory::Memory;

/// What the archive is made of, beside the recipes.
#[derive(Clone, Copy, Debug)]
pub struct Material<'a> {
    /// Who publishes.
    pub site: &'a Site,
    /// Further pages, in the order of the menu.
    pub writings: &'a [Writing],
    /// Names of pages that cannot be read now; what an earlier build made of them stays.
    pub unread: &'a [String],
    /// The templates.
    pub environment: &'a Environment,
    /// The names of ingredients.
    pub pantry: &'a Pantry,
    /// The photographs.
    pub photos: &'a Photos,
}

/// A page in Markdown by the publisher: about, contact, privacy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Writing {
    /// Names its folder in the archive.
    pub slug: String,
    /// Markdown; the first heading of level one is the title, raw HTML is dropped.
    pub markdown: String,
}
