//! The folders of the archive that are no recipe's, a row each: what the menu and the site map show of them, and which
//! names no recipe can have.

/// When what a page shows has changed last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Changed {
    /// With any recipe.
    WithRecipes,
    /// With the last correction.
    WithCorrections,
}

/// A folder of the archive that is no recipe's.
#[derive(Clone, Copy, Debug)]
pub(super) struct Folder {
    /// Empty for the first page.
    pub(super) name: &'static str,
    /// The key of what the menu calls it; `None` where it stands in no menu.
    pub(super) menu: Option<&'static str>,
    /// How the site map dates its first page; `None` where it has none, or none to be found by.
    pub(super) map: Option<Changed>,
}

const fn folder(name: &'static str, menu: Option<&'static str>, map: Option<Changed>) -> Folder {
    Folder { name, menu, map }
}

/// All of them, those of the menu in its order.
pub(super) const FOLDERS: [Folder; 10] = [
    folder("", Some("newest"), Some(Changed::WithRecipes)),
    folder("all", Some("all-recipes"), Some(Changed::WithRecipes)),
    folder("ingredients", Some("ingredients"), Some(Changed::WithRecipes)),
    folder("tags", Some("tags"), Some(Changed::WithRecipes)),
    folder("corrections", Some("corrections"), Some(Changed::WithCorrections)),
    folder("search", Some("search"), Some(Changed::WithRecipes)),
    folder("components", None, Some(Changed::WithRecipes)),
    folder("cards", None, None),
    folder("photos", None, None),
    folder("years", None, None),
];

/// Names that no recipe or page of the publisher's can have.
pub fn reserved() -> impl Iterator<Item = &'static str> {
    FOLDERS.iter().map(|folder| folder.name).filter(|name| !name.is_empty())
}
