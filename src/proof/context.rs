use std::path::Path;

use jiff::civil::Date;

use super::{Archive, Said, said};
use crate::kitchen::Kitchen;
use crate::pantry::Row;
use crate::recipe::{Ingredient, Recipe};
use crate::workspace::Site;

/// What has to be left out of a recipe's description for its length, by name.
pub type Shortened<'a> = &'a (dyn Fn(&Recipe) -> Vec<&'static str> + Sync);

/// What all recipes of a run are checked against.
#[derive(Clone, Copy)]
pub struct Surroundings<'a> {
    /// The pantry under the workspace's settings.
    pub kitchen: &'a Kitchen,
    /// The workspace's settings.
    pub site: &'a Site,
    /// The other recipes.
    pub archive: &'a Archive,
    /// The folder of photographs; without one they are not looked for.
    pub photos: Option<&'a Path>,
    /// The day of the check; without one no date is in the future.
    pub today: Option<Date>,
    /// How descriptions come out; without it their length is not known.
    pub shortened: Option<Shortened<'a>>,
}

/// What a rule sees: one recipe and all around it.
pub struct Context<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// What its steps say, in order.
    pub said: Vec<Said<'a>>,
    /// What it is checked against.
    pub around: Surroundings<'a>,
    /// What the pantry knows of each line of each component, looked up once for all rules.
    pub(super) known: Vec<Vec<Known<'a>>>,
}

/// What the pantry knows of a line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Known<'a> {
    /// Its ingredient.
    pub(super) row: Option<&'a Row>,
    /// What it weighs; for a range the most.
    pub(super) grams: Option<f64>,
}

impl<'a> Context<'a> {
    pub(super) fn new(recipe: &'a Recipe, around: Surroundings<'a>) -> Self {
        let kitchen = around.kitchen;
        let known = |ingredient: &'a Ingredient| {
            let row = kitchen.ingredient(&ingredient.line);
            Known { row, grams: kitchen.weigh_as(&ingredient.line, row).ok().map(|weighed| weighed.high.grams()) }
        };
        let known = recipe.components.iter().map(|component| component.ingredients.iter().map(known).collect());
        Self { recipe, said: said::said(recipe), around, known: known.collect() }
    }

    /// The pantry under the workspace's settings.
    pub fn kitchen(&self) -> &'a Kitchen {
        self.around.kitchen
    }

    /// Every ingredient line, with its row of the pantry where it has one.
    pub fn lines(&self) -> impl Iterator<Item = (Option<&'a Row>, &'a Ingredient)> {
        let rows = self.known.iter().flatten().map(|known| known.row);
        rows.zip(self.recipe.components.iter().flat_map(|component| &component.ingredients))
    }

    /// What the steps of a component say.
    pub fn said_in(&self, component: usize) -> impl Iterator<Item = &Said<'a>> {
        self.said.iter().filter(move |said| said.component == component)
    }

    /// Whether a later component, or a step of one, names a component as used.
    pub fn uses(&self, later: usize, earlier: usize) -> bool {
        let component = &self.recipe.components[later];
        let in_steps = component.steps.iter().flat_map(|step| &step.uses);
        component.uses.iter().chain(in_steps).any(|used| used.component == earlier)
    }
}
