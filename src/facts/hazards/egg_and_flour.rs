//! Egg and flour that are eaten raw.

use super::cooked::is_cooked;
use super::dish::{Dish, DishLine, DishStep, Told};
use super::hazard::Hazard;
use crate::language::Sense;
use crate::pantry::Role;

/// A soft-boiled egg has been in boiling water for less, in seconds. Common practice.
const HARD_BOILED: u64 = 9 * 60;

/// Egg whose core is said to stay below this is not cooked to the middle, in °C. Source: FSIS, 160 °F.
const CORE: f64 = 70.0;

pub(super) fn raw_egg(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    let raw = dish.lines.iter().filter(|line| is_raw_egg(dish, line)).find(|line| !is_cooked(dish, line))?;
    Some(Told::by(dish, raw))
}

/// Egg that needs heat. `pasteurized if children eat` leaves it raw for the others.
fn is_raw_egg(dish: &Dish<'_>, line: &DishLine<'_>) -> bool {
    let pasteurized = dish.has(&line.words, Sense::Pasteurized) && !dish.has(&line.words, Sense::Condition);
    let other = dish.words_of(Hazard::RawEgg).unless.find(&line.words).is_some() && !dish.has(&line.words, Sense::Yolk);
    line.is(Role::RawEgg) && !pasteurized && !other
}

pub(super) fn soft_egg(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    dish.lines.iter().find(|line| is_raw_egg(dish, line))?;
    let boiled_soft = |step: &&DishStep<'_>| {
        let of_egg = dish.has(&step.words, Sense::Egg) && dish.has(&step.words, Sense::Boiled);
        let whole = dish.lines.iter().any(|line| line.component == step.component && line.is(Role::WholeEgg));
        let only = !step.said.named.iter().flatten().any(|named| {
            let line = dish.lines.iter().find(|line| line.component == step.component && line.index == named.line);
            line.is_some_and(|line| {
                matches!(line.family(), "flour" | "dairy" | "sugar" | "pasta" | "grain" | "vegetable")
            })
        });
        of_egg && whole && only && step.seconds.is_some_and(|seconds| seconds < HARD_BOILED)
    };
    let low_core = |step: &&DishStep<'_>| {
        let core = dish.has(&step.words, Sense::Core) && dish.language().tells(Sense::EggDish, &named(dish, step));
        core && step.probed().any(|heat| heat.high < CORE && heat.high > 45.0)
    };
    let trembles = |step: &&DishStep<'_>| {
        let yolks = (0..step.words.len()).filter(|at| dish.sense(Sense::Yolk).at(&step.words, *at) > 0);
        let mut behind = yolks.map(|at| &step.words[at + 1..step.words.len().min(at + 5)]);
        behind.any(|words| dish.has(words, Sense::StaysSoft))
    };
    let told = dish.steps_telling(hazard).next().or_else(|| dish.steps.iter().find(trembles));
    let found = told.or_else(|| dish.steps.iter().find(boiled_soft)).or_else(|| dish.steps.iter().find(low_core));
    found.map(Told::at)
}

fn named(dish: &Dish<'_>, step: &DishStep<'_>) -> String {
    let recipe = dish.facts.recipe;
    format!("{} {}", recipe.title, recipe.components[step.component].name)
}

pub(super) fn raw_flour(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    if dish.steps.is_empty() {
        return None;
    }
    let raw = dish.lines.iter().filter(|line| is_raw_flour(dish, line));
    let mut raw = raw.peekable();
    raw.peek()?;
    let uncooked = raw.find(|line| !is_cooked(dish, line)).map(|line| Told::by(dish, line));
    uncooked.or_else(|| dish.steps_telling(hazard).next().map(Told::at))
}

fn is_raw_flour(dish: &Dish<'_>, line: &DishLine<'_>) -> bool {
    let safe = dish.has(&line.words, Sense::HeatTreated) || dish.has(&line.words, Sense::ForTheBench);
    line.is(Role::RawFlour) && !safe && !dish.has(&line.words, Sense::RoastedFlour)
}

pub(super) fn raw_dough(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let named = dish.has(&dish.titled, Sense::DoughDish) && dish.has(&dish.titled, Sense::EatenRaw);
    let told = named || dish.title_tells(hazard) || dish.steps_telling(hazard).next().is_some();
    let flour = dish.lines.iter().find(|line| is_raw_flour(dish, line) && !is_cooked(dish, line))?;
    told.then(|| Told::by(dish, flour))
}
