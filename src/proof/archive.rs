use std::collections::{BTreeMap, BTreeSet};

use crate::pantry::words;
use crate::recipe::Recipe;

/// What a recipe has to agree with in the other recipes.
#[derive(Clone, Debug, Default)]
pub struct Archive {
    /// Names of the files of each slug.
    files: BTreeMap<String, Vec<String>>,
    /// Of each tag, by its words alone: how often each spelling is used.
    tags: BTreeMap<String, BTreeMap<String, usize>>,
    /// Names of the pages that are no recipes.
    pages: BTreeSet<String>,
    /// Names that the program keeps for pages and folders of its own.
    reserved: BTreeSet<&'static str>,
}

impl Archive {
    /// Adds a recipe's file; `recipe` where it could be read.
    pub fn add(&mut self, slug: &str, file: &str, recipe: Option<&Recipe>) {
        let files = self.files.entry(slug.into()).or_default();
        if files.iter().any(|known| known == file) {
            return;
        }
        files.push(file.into());
        self.add_tags(recipe.iter().flat_map(|recipe| &recipe.tags));
    }

    /// Adds the tags of a recipe.
    pub fn add_tags<'t>(&mut self, tags: impl IntoIterator<Item = &'t String>) {
        for tag in tags {
            *self.tags.entry(plain(tag)).or_default().entry(tag.clone()).or_default() += 1;
        }
    }

    /// Adds a page that is no recipe, by its name in the address.
    pub fn add_page(&mut self, slug: &str) {
        self.pages.insert(slug.into());
    }

    /// Keeps names for pages and folders of the program's own, which a room above makes.
    pub fn reserve(&mut self, names: impl IntoIterator<Item = &'static str>) {
        self.reserved.extend(names);
    }

    /// Whether the program has a page or folder of its own of this name.
    pub fn is_reserved(&self, slug: &str) -> bool {
        self.reserved.contains(slug)
    }

    /// Whether a page that is no recipe has this name.
    pub fn has_page(&self, slug: &str) -> bool {
        self.pages.contains(slug)
    }

    /// The files with a slug, in the order they were added.
    pub fn files(&self, slug: &str) -> &[String] {
        self.files.get(slug).map_or(&[], Vec::as_slice)
    }

    /// The spelling of a tag that most recipes use, and how many do; of equals the first by alphabet.
    pub fn usual_spelling(&self, tag: &str) -> Option<(&str, usize)> {
        let spellings = self.tags.get(&plain(tag))?;
        let usual = spellings.iter().max_by(|one, other| one.1.cmp(other.1).then(other.0.cmp(one.0)));
        usual.map(|(spelling, count)| (spelling.as_str(), *count))
    }
}

/// A tag without case, accents, plural, spaces and hyphens.
fn plain(tag: &str) -> String {
    words(tag).concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_of_one_tag_come_together() {
        for (one, other) in
            [("make ahead", "Make-ahead"), ("tart", "tarts"), ("crème", "creme"), ("biscuits", "Biscuit")]
        {
            assert_eq!(plain(one), plain(other));
        }
        assert_ne!(plain("tart"), plain("torte"));
    }
}
