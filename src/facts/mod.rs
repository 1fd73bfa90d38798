//! UNDERSTAND: what a recipe means, worked out once for all that judge it and word it.
//!
//! Proof only judges what stands here, and the sheet only words it; so that what a step names and what a temperature is
//! for is the same on the page and in a finding.

mod claims;
mod collective;
mod earlier;
mod hazards;
mod heat;
mod kinds;
mod naming;
mod order;
mod readings;
mod said;
mod schedule;
mod share;
mod step_key;
mod table;
mod taking;
mod times;
mod unlisted;

use std::sync::OnceLock;

use crate::kitchen::{Kitchen, Weighed};
use crate::language::{Sense, Word};
use crate::measure::Unit;
use crate::pantry::Row;
use crate::recipe::{Component, Ingredient, Recipe};

pub use claims::Claim;
pub use hazards::{Found, Hazard, Severity};
pub use heat::{Setting, Stated};
pub use kinds::{Oddity, Slip};
pub use naming::{Named, Names};
pub use order::{Needs, TooEarly};
pub use readings::{InLine, Reading};
pub use said::Said;
pub use schedule::{Task, schedule};
pub use share::{Portion, Share};
pub use step_key::StepKey;
pub use taking::{StepTaking, Taken, Taking};
pub use times::RecipeTimes;
pub use unlisted::Unlisted;

/// A recipe as it is understood under a kitchen.
#[derive(Debug)]
pub struct Facts<'a> {
    /// What it is of.
    pub recipe: &'a Recipe,
    /// The pantry under the workspace's settings.
    pub kitchen: &'a Kitchen,
    /// What is known of each line of each component.
    pub lines: Vec<Vec<LineFacts<'a>>>,
    /// What the lines of each component may be called, as they are written.
    pub names: Vec<Names>,
    /// What the steps say, in order.
    pub said: Vec<Said<'a>>,
    /// What the steps of each component take of its lines.
    pub taken: Vec<Taken>,
    /// What the steps put in that no component lists; filled in when first asked for.
    unlisted: OnceLock<Vec<Unlisted>>,
    /// What each component is made of, as a formula; filled in when first asked for.
    formulas: OnceLock<Vec<Option<kinds::Formula>>>,
    /// What is asked for each temperature; filled in when first asked for.
    around: OnceLock<readings::Around>,
}

/// What is known of an ingredient line.
#[derive(Clone, Debug)]
pub struct LineFacts<'a> {
    /// The line.
    pub ingredient: &'a Ingredient,
    /// The words of its name.
    pub words: Vec<Word>,
    /// Its ingredient in the pantry.
    pub row: Option<&'a Row>,
    /// The ingredients whose names stand within a name that is not in the pantry, for what must not be missed: those of
    /// `walnut` and `honey` for `walnut halves in wild honey`.
    pub within: Vec<&'a Row>,
    /// What it weighs at one batch; `None` where that cannot be known.
    pub weighed: Option<Weighed>,
}

impl<'a> LineFacts<'a> {
    /// Its row, or those whose names stand within its name.
    pub fn rows(&self) -> impl Iterator<Item = &'a Row> {
        self.row.into_iter().chain(self.within.iter().copied())
    }

    /// Whether it weighs nothing that matters to a whole: a pinch, what is to taste or may be left out, a sprig.
    pub fn is_slight(&self) -> bool {
        let line = &self.ingredient.line;
        let tiny = |unit: Option<Unit>| unit.is_some_and(Unit::is_pinched);
        line.to_taste
            || line.optional
            || line.amounts.iter().all(|amount| tiny(amount.unit))
            || self.weighed.is_none() && self.row.is_some_and(kinds::is_slight)
    }

    /// Its weight in grams; for a range the most.
    pub fn grams(&self) -> Option<f64> {
        self.weighed.as_ref().map(|weighed| weighed.high.grams())
    }
}

impl<'a> Facts<'a> {
    /// Understands a recipe: each line is looked up and weighed once, each text of a step read once.
    pub fn of(recipe: &'a Recipe, kitchen: &'a Kitchen) -> Self {
        let line = |ingredient: &'a Ingredient| {
            let row = kitchen.ingredient(&ingredient.line);
            let name = &ingredient.line.name;
            let words = kitchen.language().read(name);
            let within = if row.is_none() { within(&words, kitchen) } else { Vec::new() };
            let weighed = kitchen.weigh_as(&ingredient.line, row).ok();
            LineFacts { ingredient, words, row, within, weighed }
        };
        let lines = |component: &'a Component| component.ingredients.iter().map(line).collect();
        let lines: Vec<Vec<LineFacts<'a>>> = recipe.components.iter().map(lines).collect();
        let names: Vec<Names> = lines.iter().map(|lines| Names::own(lines, kitchen.language())).collect();
        let said = said::said(recipe, &names, kitchen.language());
        let (unlisted, formulas, around) = (OnceLock::new(), OnceLock::new(), OnceLock::new());
        let mut facts = Self { recipe, kitchen, lines, names, said, taken: Vec::new(), unlisted, formulas, around };
        facts.taken = (0..recipe.components.len()).map(|at| taking::taken(&facts, at)).collect();
        facts
    }

    /// Every line of every component, in order.
    pub fn all_lines(&self) -> impl Iterator<Item = &LineFacts<'a>> {
        self.lines.iter().flatten()
    }

    /// What the steps of a component say.
    pub fn said_in(&self, component: usize) -> impl Iterator<Item = &Said<'a>> {
        self.said.iter().filter(move |said| said.component == component)
    }

    /// What a step says under one of its keys.
    pub fn said_under(&self, component: usize, step: usize, key: StepKey) -> Option<&Said<'a>> {
        self.said_in(component).find(|said| said.step == step && said.key == key)
    }

    /// Amounts of a component that no such thing has, where one slip explains them.
    pub fn oddity(&self, component: usize) -> Option<Oddity> {
        kinds::oddity(self, component)
    }

    /// Whether the kitchen itself says what is usual in a component, so that no other measure counts.
    pub fn is_of_the_kitchen(&self, component: usize) -> bool {
        kinds::is_of_the_kitchen(self, component)
    }

    /// What a setting of a step may be of, and the readings that each may have, the surest first.
    pub fn readings(&self, said: &Said<'_>, setting: &Setting, stated: &Stated) -> Vec<Reading> {
        readings::readings(self, said, setting, stated)
    }

    /// The temperatures in ingredient lines.
    pub fn in_lines(&self) -> Vec<InLine> {
        readings::in_lines(self)
    }

    /// How long it takes.
    pub fn times(&self) -> RecipeTimes {
        times::times(self)
    }

    /// The kind that a component is taken for, and the one part that it lacks though no such thing is without it.
    pub fn lacking(&self, component: usize) -> Option<(&'static str, &'static str)> {
        kinds::lacking(self, component)
    }

    /// What its steps put in that no component lists.
    pub fn unlisted(&self) -> &[Unlisted] {
        self.unlisted.get_or_init(|| unlisted::unlisted(self))
    }

    /// What its steps speak of before the step that brings it about.
    pub fn too_early(&self) -> Vec<TooEarly> {
        order::too_early(self)
    }

    /// Where a text names an earlier component, by all of its name, or by the head of it where nothing else is called
    /// so: the place of the head among its words.
    pub fn names_component(&self, said: &Said<'_>, earlier: usize) -> Option<usize> {
        earlier::component(self, said, earlier)
    }

    /// Whether a step takes off again what an earlier one put on: the salt that drew water.
    pub fn is_rinsed_off(&self, component: usize, line: usize) -> bool {
        let taken = self.taken[component].takings.iter().find(|taking| taking.line == line);
        let later = |said: &&Said<'_>| taken.is_some_and(|taking| said.step > taking.step);
        self.said_in(component).filter(later).any(|said| said.tells(Sense::SaltRinsed))
    }

    /// What its texts claim that some lines weigh against others.
    pub fn claims(&self) -> Vec<Claim> {
        claims::claims(self)
    }

    fn around(&self) -> &readings::Around {
        self.around.get_or_init(|| readings::Around::of(self))
    }

    fn formulas(&self) -> &[Option<kinds::Formula>] {
        self.formulas.get_or_init(|| kinds::formulas(self))
    }

    /// What in it can hurt, each once, in a fixed order.
    pub fn hazards(&self) -> Vec<Found> {
        hazards::hazards(self)
    }

    /// A component and all that goes into it, wherever it stands.
    pub fn with_used(&self, component: usize) -> Vec<usize> {
        let count = self.recipe.components.len();
        let mut all = vec![component];
        let mut next = 0;
        while let Some(later) = all.get(next).copied() {
            next += 1;
            let used: Vec<usize> =
                (0..count).filter(|other| self.uses(later, *other) && !all.contains(other)).collect();
            all.extend(used);
        }
        all
    }

    /// Whether a component, or a step of it, takes up an earlier one.
    pub fn uses(&self, later: usize, earlier: usize) -> bool {
        let component = &self.recipe.components[later];
        let in_steps = component.steps.iter().flat_map(|step| &step.uses);
        component.uses.iter().chain(in_steps).any(|used| used.component == earlier)
    }
}

/// The ingredients whose names stand in some words, but for what these say is not there: `peanut-free`, `sans œuf`.
fn within<'a>(words: &[Word], kitchen: &'a Kitchen) -> Vec<&'a Row> {
    let lexicon = |of: Sense| kitchen.language().lexicon(of);
    let is_free = |at: usize| words.get(at).is_some_and(|word| word.before == "-" && lexicon(Sense::FreeOf).has(word));
    let denied = |at: usize| {
        is_free(at + 1)
            || is_free(at)
            || at.checked_sub(1).is_some_and(|before| lexicon(Sense::Without).at(words, before) > 0)
    };
    let there = words.iter().enumerate().filter(|(at, _)| !denied(*at)).map(|(_, word)| word.written.as_str());
    kitchen.pantry().within(&there.collect::<Vec<_>>().join(" "))
}
