//! Colours, decoration, chemicals and tools.

use super::by_words;
use super::dish::{Dish, DishLine, Told};
use super::hazard::Hazard;
use crate::language::Sense;
use crate::pantry::Role;

/// Baking soda above this share of the flour is too much. Common practice.
const SODA: f64 = 0.02;

/// And with acid or treacle for it in the dough. Common practice.
const SODA_WITH_ACID: f64 = 0.035;

/// Pure acid above this share of the dish. Common practice.
const ACID: f64 = 0.02;

pub(super) fn wires_sticks(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let told = by_words(dish, hazard)?;
    let words = dish.words_of(hazard);
    let handle = dish.sense(Sense::HoldingStick);
    // The stick of a lolly is seen and held; another is hidden in what is eaten.
    let hidden = || {
        let line = dish.lines_telling(hazard).any(|line| dish.tells(&line.words, words.line, handle));
        line || dish.steps_telling(hazard).any(|step| dish.tells(&step.words, words.step, handle))
    };
    if dish.has(&dish.titled, Sense::HeldByStick) && !hidden() {
        return None;
    }
    let charm = dish.texts().any(|words| dish.has(words, Sense::Charm));
    Some(told.and(1, charm))
}

pub(super) fn stones_shells(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let told = by_words(dish, hazard)?;
    let removed = dish.does(Sense::StonesOut);
    (!removed).then_some(told)
}

pub(super) fn whole_spices(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let told = dish.words_of(hazard);
    let whole = |line: &&DishLine<'_>| {
        dish.tells(&line.words, told.line, told.unless)
            && !dish.has(&line.words, Sense::Ground)
            && !dish.has(&line.words, Sense::PodScraped)
    };
    let line = dish.lines.iter().find(whole)?;
    let out =
        dish.steps.iter().any(|step| dish.has(&step.words, Sense::Strained) || dish.has(&step.words, Sense::TakenOut));
    let ground = dish.does(Sense::GrindsFine);
    (!out && !ground && !dish.steps.is_empty()).then(|| Told::by(dish, line))
}

pub(super) fn kansui_ash(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).next();
    let told = line.map(|line| Told::by(dish, line)).or_else(|| by_words(dish, hazard))?;
    let has = |sense| line.is_some_and(|line| dish.has(&line.words, sense));
    let (ammonia, lime) = (has(Sense::Ammonia), has(Sense::PicklingLime));
    Some(told.and(1, ammonia).and(2, lime))
}

pub(super) fn baking_soda_overdose(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    let soda = dish.lines.iter().find(|line| line.is(Role::BakingSoda))?;
    let within = |line: &&DishLine<'_>| line.component == soda.component;
    let flour = dish.grams_of(|line| within(&line) && line.family() == "flour");
    let rinsed = dish.steps.iter().any(|step| {
        dish.has(&step.words, Sense::Bath)
            || dish.has(&step.words, Sense::Rinsed)
            || dish.has(&step.words, Sense::Soaks)
    });
    let acid = dish.lines.iter().filter(within).any(|line| dish.has(&line.words, Sense::AcidForSoda));
    let share = soda.facts.grams()? / flour.max(1.0);
    let most = if acid { SODA_WITH_ACID } else { SODA };
    (flour > 0.0 && share > most && !rinsed).then(|| Told::by(dish, soda))
}

pub(super) fn citric_acid(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).next()?;
    let coating = dish.steps.iter().any(|step| step.names(line) && dish.has(&step.words, Sense::Coats));
    let base = if coating { dish.grams_of(|other| other.family() == "sugar") } else { dish.grams() };
    let share = line.facts.grams().map(|grams| grams / base.max(1.0));
    share.is_none_or(|share| share > ACID).then(|| Told::by(dish, line))
}

pub(super) fn chili_handling(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).next()?;
    let fried = dish.steps.iter().any(|step| {
        step.names(line) && (dish.has(&step.words, Sense::PanFries) || dish.has(&step.words, Sense::Toasts))
    });
    Some(Told::by(dish, line).and(1, fried))
}
