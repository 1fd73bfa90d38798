use std::collections::BTreeMap;

use serde::Serialize;

use super::entry::ListedRecipe;
use super::frame::folder_address;
use crate::pantry::Pantry;
use crate::trace::Key;

/// Every recipe in the orders that pages and feeds need.
pub(super) struct Listing<'a> {
    /// Newest first, those without a date last, then by title.
    pub(super) newest: Vec<&'a ListedRecipe>,
    /// By slug.
    pub(super) tags: Vec<Shelf<'a>>,
    /// By name.
    pub(super) ingredients: Vec<Shelf<'a>>,
    /// Those that two or more recipes have, by name.
    pub(super) components: Vec<Shelf<'a>>,
    /// Newest first.
    pub(super) years: Vec<Shelf<'a>>,
}

/// A word that recipes are filed under, and where they have it.
#[derive(Serialize)]
pub(super) struct Shelf<'a> {
    pub(super) name: &'a str,
    pub(super) slug: &'a str,
    /// Folder relative to the archive's root.
    pub(super) address: String,
    /// Recipes.
    pub(super) count: usize,
    /// Indexes into [`Listing::newest`], ascending, each with an index into the recipe's uses or components; a recipe
    /// may be there twice.
    #[serde(skip)]
    pub(super) places: Vec<(usize, usize)>,
}

impl Shelf<'_> {
    /// The recipes, each once.
    pub(super) fn recipes(&self) -> Vec<usize> {
        let mut recipes: Vec<usize> = self.places.iter().map(|(recipe, _)| *recipe).collect();
        recipes.dedup();
        recipes
    }

    /// Of the name and the number.
    pub(super) fn key(&self) -> Key {
        Key::of([self.name.as_bytes(), self.slug.as_bytes(), &self.count.to_le_bytes()])
    }
}

impl<'a> Listing<'a> {
    pub(super) fn new(entries: impl Iterator<Item = &'a ListedRecipe>, pantry: &'a Pantry) -> Self {
        let mut newest: Vec<&ListedRecipe> = entries.collect();
        newest.sort_by(|a, b| {
            b.published.cmp(&a.published).then_with(|| a.title.cmp(&b.title)).then_with(|| a.slug.cmp(&b.slug))
        });
        let mut shelving = Shelving::default();
        for (at, entry) in newest.iter().enumerate() {
            shelving.file(at, entry, pantry);
        }
        let mut ingredients = shelving.ingredients.shelves("ingredients");
        let mut components = shelving.components.shelves("components");
        components.retain(|shelf| shelf.count > 1);
        for shelves in [&mut ingredients, &mut components] {
            shelves.sort_by_cached_key(|shelf| (shelf.name.to_lowercase(), shelf.slug));
        }
        let mut years = shelving.years.shelves("years");
        years.reverse();
        Self { tags: shelving.tags.shelves("tags"), ingredients, components, years, newest }
    }

    /// Of recipes by their places, as lists show them.
    pub(super) fn key(&self, recipes: &[usize]) -> Key {
        Key::of(recipes.iter().map(|recipe| self.newest[*recipe].key.bytes()))
    }
}

/// As [`Shelf::places`].
type Places = Vec<(usize, usize)>;

/// Shelves by slug while they are filled, each with its name.
#[derive(Default)]
struct Filing<'a>(BTreeMap<&'a str, (&'a str, Places)>);

#[derive(Default)]
struct Shelving<'a> {
    tags: Filing<'a>,
    ingredients: Filing<'a>,
    components: Filing<'a>,
    years: Filing<'a>,
}

impl<'a> Filing<'a> {
    fn file(&mut self, slug: &'a str, name: &'a str, recipe: usize, detail: usize) {
        self.0.entry(slug).or_insert_with(|| (name, Vec::new())).1.push((recipe, detail));
    }

    fn shelves(self, folder: &str) -> Vec<Shelf<'a>> {
        let shelf = |(slug, (name, places)): (&'a str, (&'a str, Places))| {
            let address = folder_address(&format!("{folder}/{slug}"));
            let mut shelf = Shelf { name, slug, address, count: 0, places };
            shelf.count = shelf.recipes().len();
            shelf
        };
        self.0.into_iter().map(shelf).collect()
    }
}

impl<'a> Shelving<'a> {
    fn file(&mut self, at: usize, entry: &'a ListedRecipe, pantry: &'a Pantry) {
        for (detail, tag) in entry.tags.iter().enumerate() {
            self.tags.file(&tag.slug, &tag.name, at, detail);
        }
        // One of steps alone, `To finish`, is no part that a recipe is built from.
        for (detail, component) in entry.components.iter().enumerate().filter(|(_, one)| one.mass.is_some()) {
            self.components.file(&component.slug, &component.name, at, detail);
        }
        for (detail, used) in entry.uses.iter().enumerate() {
            let known = pantry.by_id(&used.ingredient).map(crate::pantry::Row::name);
            let name = known.or(used.name.as_deref()).unwrap_or(&used.ingredient);
            self.ingredients.file(&used.ingredient, name, at, detail);
        }
        if let Some(year) = entry.published.as_deref().and_then(|date| date.get(..4)) {
            self.years.file(year, year, at, 0);
        }
    }
}
