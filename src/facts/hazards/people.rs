//! Who must not eat it: by age, by faith, by medicine, by allergy.

use std::collections::BTreeSet;

use super::by_words;
use super::dish::{Dish, DishLine, Told};
use super::hazard::Hazard;
use super::keeping::{drinks, is_animal};
use crate::language::Sense;
use crate::pantry::Role;

/// Caffeine of a serving that is said, in milligrams: for adults, for children. Source: EFSA 2015, 80 mg before sleep.
const CAFFEINE: (f64, f64) = (80.0, 20.0);

/// Polyols of a serving that act, in grams: for adults, for children. Common practice.
const POLYOLS: (f64, f64) = (10.0, 5.0);

/// So much grapefruit in a serving is said, in grams. Common practice: no authority names a least amount.
const GRAPEFRUIT: f64 = 20.0;

/// Less sticky rice flour than this share only thickens. Common practice.
const STICKY: f64 = 0.1;

pub(super) fn honey_infant(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let drink = !drinks(dish).is_empty() && dish.has(&dish.titled, Sense::Drink);
    dish.line_of(hazard, Role::Honey).filter(|_| !drink).map(|line| Told::by(dish, line))
}

pub(super) fn salt_infant(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    dish.is_for_babies().then(|| by_words(dish, hazard)).flatten()
}

fn is_whole_nut(dish: &Dish<'_>, line: &DishLine<'_>) -> bool {
    let smooth = dish.has(&line.words, Sense::Ground) || dish.has(&line.words, Sense::NutPaste);
    is_nut(line) && !smooth && matches!(line.family(), "nut" | "peanut" | "seed" | "")
}

pub(super) fn choking_nuts(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines.iter().find(|line| is_whole_nut(dish, line))?;
    let named = dish.language().read(&dish.facts.recipe.title);
    let told = dish.words_of(hazard);
    let nibbles = dish.tells(&named, told.titled, told.unless);
    let ground =
        dish.steps.iter().any(|step| dish.has(&step.words, Sense::GrindsFine) && step.component == line.component);
    ((nibbles || dish.is_for_children()) && !ground).then(|| Told::by(dish, line))
}

pub(super) fn choking_round(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    if !dish.is_for_children() {
        return None;
    }
    let line = dish
        .lines_telling(hazard)
        .find(|line| !dish.has(&line.words, Sense::CutUp) && !dish.has(&line.words, Sense::Dried))?;
    let cut = dish
        .steps
        .iter()
        .any(|step| step.names(line) && (dish.has(&step.words, Sense::CutUp) || dish.has(&step.words, Sense::Melts)));
    (!cut).then(|| Told::by(dish, line))
}

pub(super) fn choking_jelly(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let told = dish.words_of(hazard);
    let recipe = dish.facts.recipe;
    let mut names = std::iter::once(&recipe.title).chain(recipe.components.iter().map(|component| &component.name));
    let named = names.any(|name| dish.tells(&dish.language().read(name), told.titled, told.unless));
    (named || are_sticky_pieces(dish) || are_firm_balls(dish))
        .then(Told::default)
        .or_else(|| by_words(dish, hazard))
        .map(|told| Told { at: told.at.or(dish.steps.last().map(super::dish::DishStep::place)), ..told })
}

/// Jelly that does not melt in the mouth, set in pieces that go in whole. Source: Regulation (EC) 1333/2008, jelly mini-cups.
fn are_firm_balls(dish: &Dish<'_>) -> bool {
    let firm = |component: usize| dish.lines.iter().any(|line| line.component == component && line.is(Role::Agar));
    dish.steps.iter().any(|step| firm(step.component) && dish.has(&step.words, Sense::BiteSized))
}

/// Cakes of sticky rice, boiled or steamed and shaped; what is baked of it is a crumb.
fn are_sticky_pieces(dish: &Dish<'_>) -> bool {
    let sticky = dish.grams_of(|line| dish.has(&line.words, Sense::StickyRice));
    let baked = dish.steps.iter().any(|step| step.sets_oven || dish.has(&step.words, Sense::OvenCooks));
    sticky > dish.grams() * STICKY && !baked && dish.does(Sense::ShapesPieces)
}

fn is_nut(line: &DishLine<'_>) -> bool {
    let nut = |allergen: &String| matches!(allergen.as_str(), "tree-nut" | "nut" | "peanut");
    line.facts.rows().any(|row| row.allergens.us.iter().chain(&row.allergens.eu).any(nut))
}

/// Nuts and peanuts, by their kinds.
pub(super) fn nuts(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    let lines: Vec<&DishLine<'_>> = dish.lines.iter().filter(|line| is_nut(line)).collect();
    let kind =
        |line: &DishLine<'_>| line.facts.rows().find_map(|row| row.kind.clone()).unwrap_or_else(|| dish.name(line));
    let of: BTreeSet<String> = lines.iter().map(|line| kind(line)).collect();
    let apart = dish.does(Sense::NutFreePart);
    let first = lines.first()?;
    Some(Told { of: of.into_iter().collect(), ..Told::by(dish, first) }.and(1, apart))
}

pub(super) fn gelatine_diet(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    // Where meat stands in the list, nobody takes the dish for one without.
    let meat = dish.lines.iter().any(is_animal);
    let line = dish.line_of(hazard, Role::Gelatine).filter(|_| !meat)?;
    let others = dish.lines_telling(hazard).filter(|other| dish.place_of(other) != dish.place_of(line));
    let mut of: Vec<String> = std::iter::once(line).chain(others).map(|line| dish.name(line)).collect();
    of.sort();
    of.dedup();
    Some(Told { of, ..Told::by(dish, line) })
}

pub(super) fn alcohol_faith(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    if !dish.has(&dish.titled, Sense::Faith) {
        return None;
    }
    // An extract is made with alcohol, however little goes in.
    let extract = || dish.lines.iter().find(|line| line.facts.rows().any(|row| row.alcohol.is_some_and(|by| by > 0.0)));
    let stays = super::keeping::alcohol_stays(dish, Hazard::AlcoholStays);
    stays.or_else(|| extract().map(|line| Told::by(dish, line)))
}

/// Milligrams of caffeine in a gram of what a line holds. From memory, near the figures of EFSA 2015.
fn caffeine_of(dish: &Dish<'_>, line: &DishLine<'_>) -> f64 {
    let grams = line.facts.grams().unwrap_or_default();
    let has = |sense| dish.has(&line.words, sense);
    let a_gram = match () {
        () if has(Sense::Caffeine) => 1000.0,
        () if has(Sense::InstantCoffee) => 31.0,
        () if has(Sense::Matcha) => 30.0,
        () if has(Sense::Espresso) => 2.1,
        () if has(Sense::GroundCoffee) => 12.0,
        () if has(Sense::TeaLeaves) => 20.0,
        () if has(Sense::Tea) => 0.2,
        () if has(Sense::Coffee) => 0.4,
        () => 0.3,
    };
    grams * a_gram
}

pub(super) fn caffeine(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let all: f64 = dish.lines_telling(hazard).map(|line| caffeine_of(dish, line)).sum();
    let least = if dish.is_for_children() { CAFFEINE.1 } else { CAFFEINE.0 };
    let line = dish.lines_telling(hazard).next()?;
    (all / dish.servings() >= least).then(|| Told::by(dish, line))
}

pub(super) fn quinine(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).next()?;
    let bark = dish.has(&line.words, Sense::Bark);
    Some(Told::by(dish, line).and(1, bark))
}

pub(super) fn grapefruit_medicine(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).next()?;
    let unweighed = dish.lines_telling(hazard).all(|line| line.facts.grams().is_none());
    (unweighed || dish.a_serving(hazard) >= GRAPEFRUIT).then(|| Told::by(dish, line))
}

pub(super) fn polyols(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).next()?;
    let least = if dish.is_for_children() { POLYOLS.1 } else { POLYOLS.0 };
    let grams: f64 = dish.lines_telling(hazard).filter_map(|line| line.facts.grams()).sum();
    let much = dish.a_serving(hazard) >= least || grams > dish.grams() * 0.1;
    let xylitol = dish.lines_telling(hazard).any(|line| dish.has(&line.words, Sense::Xylitol));
    let shown = dish.does(Sense::NotEaten);
    ((much || xylitol) && !shown).then(|| Told::by(dish, line).and(1, xylitol))
}
