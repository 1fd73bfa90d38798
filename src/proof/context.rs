use std::path::Path;

use jiff::civil::Date;

use super::{Archive, Said, said};
use crate::kitchen::Kitchen;
use crate::recipe::{Component, Ingredient, Recipe};
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
}

impl<'a> Context<'a> {
    pub(super) fn new(recipe: &'a Recipe, around: Surroundings<'a>) -> Self {
        Self { recipe, said: said::said(recipe), around }
    }

    /// The pantry under the workspace's settings.
    pub fn kitchen(&self) -> &'a Kitchen {
        self.around.kitchen
    }

    /// Every ingredient line with the component that it belongs to.
    pub fn lines(&self) -> impl Iterator<Item = (&'a Component, &'a Ingredient)> {
        self.recipe
            .components
            .iter()
            .flat_map(|component| component.ingredients.iter().map(move |line| (component, line)))
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
