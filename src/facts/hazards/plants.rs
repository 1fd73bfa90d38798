//! Plants that are dangerous raw, in quantity, or at all.

use super::by_words;
use super::cooked::is_cooked;
use super::dish::{Dish, DishLine, Told};
use super::hazard::Hazard;
use crate::language::Sense;

/// Beans are soaked for so long at least, in seconds. Source: FDA, 5 hours.
const SOAKED: u64 = 5 * 3600;

/// And then boiled hard for so long, in seconds. Source: FSA 10 minutes, FDA 30; the shorter is asked for.
const BOILED: u64 = 10 * 60;

/// Elderberries are boiled so long, in seconds. Common practice.
const ELDER: u64 = 10 * 60;

pub(super) fn kidney_beans(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).find(|line| !dish.has(&line.words, Sense::CookedAlready))?;
    let soaked = dish.steps.iter().any(|step| {
        let long = step.seconds.is_none_or(|seconds| seconds >= SOAKED);
        dish.has(&step.words, Sense::Soaks) && long
    });
    let slow = dish.does(Sense::SlowCooker);
    let boiled = dish.steps.iter().any(|step| {
        let hard = dish.has(&step.words, Sense::BoilsHard) || dish.has(&step.words, Sense::Boiled);
        hard && step.seconds.is_some_and(|seconds| seconds >= BOILED) && !dish.has(&step.words, Sense::SlowCooker)
    });
    let pressure = dish.steps.iter().any(|step| {
        let told = dish.words_of(Hazard::PressureCooker);
        dish.tells(&step.words, told.step, told.unless)
    });
    let safe = (soaked && boiled) || (pressure && !slow);
    (!safe).then(|| Told::by(dish, line))
}

/// What is dangerous unless it is cooked.
pub(super) fn unless_cooked(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish
        .lines_telling(hazard)
        .find(|line| !is_cooked(dish, line) && !dish.has(&line.words, Sense::CookedAlready))?;
    Some(Told::by(dish, line))
}

/// Cassava and the like: frying what is raw does not reach the middle of it.
pub(super) fn cassava_bamboo(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).find(|line| !dish.has(&line.words, Sense::CookedAlready))?;
    let boiled =
        dish.steps.iter().any(|step| step.component == line.component && dish.has(&step.words, Sense::BoilsThrough));
    (!boiled).then(|| Told::by(dish, line))
}

pub(super) fn raw_elderberry(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).next()?;
    let boiled = dish.steps.iter().any(|step| {
        let long = step.seconds.is_none_or(|seconds| seconds >= ELDER);
        (dish.has(&step.words, Sense::Boiled) && long) || step.sets_oven || dish.has(&step.words, Sense::OvenCooks)
    });
    let stems = dish.has(&line.words, Sense::WithStems);
    (!boiled || stems).then(|| Told::by(dish, line))
}

pub(super) fn wild_mushrooms(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let fresh = |line: &&DishLine<'_>| {
        let decoration = dish.has(&line.words, Sense::Meringue) || dish.has(&line.words, Sense::ChocolateThing);
        dish.has(&line.words, Sense::Mushroom) && !dish.has(&line.words, Sense::Dried) && !decoration
    };
    let told = dish
        .steps
        .iter()
        .any(|step| dish.has(&step.words, Sense::Mushroom) && dish.has(&step.words, Sense::FromTheWild));
    let own = dish.lines.iter().filter(fresh).find(|line| told || dish.has(&line.words, Sense::FromTheWild));
    let is_raw = |line: &&DishLine<'_>| {
        !dish.steps.is_empty() && !dish.has(&line.words, Sense::ButtonMushroom) && !is_cooked(dish, line)
    };
    let raw = || dish.lines.iter().filter(fresh).find(is_raw);
    by_words(dish, hazard).or_else(|| own.or_else(raw).map(|line| Told::by(dish, line)))
}

/// Squash whose seed nobody sold may have crossed with gourds.
pub(super) fn bitter_squash(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let saved = dish.texts().any(|words| dish.has(words, Sense::SavedSeed));
    let squash = || dish.lines.iter().find(|line| saved && dish.has(&line.words, Sense::Squash));
    by_words(dish, hazard).or_else(|| squash().map(|line| Told::by(dish, line)))
}

pub(super) fn green_potatoes(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let potato = dish.lists(Sense::Potato);
    by_words(dish, hazard).filter(|_| potato)
}

/// What is dangerous above some grams a serving.
fn above(dish: &Dish<'_>, hazard: Hazard, grams: f64) -> Option<Told> {
    let grated = |line: &DishLine<'_>| dish.has(&line.words, Sense::Grating) || dish.has(&line.words, Sense::Ground);
    let line = dish.lines_telling(hazard).find(|line| grated(line) || !dish.has(&line.words, Sense::TakenOutWhole))?;
    (dish.a_serving(hazard) > grams).then(|| Told::by(dish, line))
}

pub(super) fn nutmeg_dose(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let whole = dish.lines_telling(hazard).find(|line| {
        let count = line.facts.ingredient.line.amounts.first().is_some_and(|amount| amount.unit.is_none());
        count && !dish.has(&line.words, Sense::Grating)
    });
    above(dish, hazard, 1.0).or_else(|| whole.map(|line| Told::by(dish, line)))
}

pub(super) fn liquorice(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let extract = dish.lines_telling(hazard).any(|line| dish.has(&line.words, Sense::Extract));
    above(dish, hazard, if extract { 1.0 } else { 5.0 })
}

pub(super) fn cassia_cinnamon(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    above(dish, hazard, if dish.is_for_children() { 0.5 } else { 1.0 })
}

pub(super) fn poppy_seed(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    // A tea bun is no tea.
    let tea = dish.tells(&dish.titled, dish.sense(Sense::Tea), dish.sense(Sense::BesideTea));
    above(dish, hazard, 15.0).or_else(|| tea.then(|| by_words(dish, hazard)).flatten())
}

pub(super) fn star_anise(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let gathered = dish.lines_telling(hazard).any(|line| dish.has(&line.words, Sense::Gathered));
    if gathered || dish.is_for_babies() {
        return by_words(dish, hazard);
    }
    let ground = dish.lines_telling(hazard).any(|line| dish.has(&line.words, Sense::Ground));
    above(dish, hazard, 2.0).filter(|_| ground)
}

pub(super) fn flowers(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let poison = |words: &[crate::language::Word]| {
        let found = dish.place(words, dish.sense(Sense::PoisonousPlant), dish.sense(Sense::Evergreen))?;
        if dish.has(&words[found.saturating_sub(1)..words.len().min(found + 3)], Sense::MadeOfSugar) {
            return None;
        }
        let length = dish.sense(Sense::PoisonousPlant).at(words, found);
        Some(words[found..found + length].iter().map(|word| word.written.as_str()).collect::<Vec<_>>().join(" "))
    };
    let strong = |at: Option<(usize, usize)>, name: String| Told { at, more: vec![1], of: vec![name] };
    let line = dish.lines.iter().find_map(|line| Some(strong(dish.place_of(line), poison(&line.words)?)));
    let step = || dish.steps.iter().find_map(|step| Some(strong(Some(step.place()), poison(&step.words)?)));
    let edible = || {
        let line = dish.lines.iter().find(|line| {
            dish.tells(&line.words, dish.sense(Sense::EdibleFlower), dish.words_of(hazard).unless)
                && !dish.has(&line.words, Sense::Dried)
                && !dish.has(&line.words, Sense::MadeOfSugar)
        })?;
        Some(Told::by(dish, line))
    };
    line.or_else(step).or_else(edible).or_else(|| by_words(dish, hazard).filter(|_| !dried_only(dish, hazard)))
}

fn dried_only(dish: &Dish<'_>, hazard: Hazard) -> bool {
    let mut lines = dish.lines_telling(hazard).peekable();
    lines.peek().is_some()
        && lines.all(|line| dish.has(&line.words, Sense::Dried) || dish.has(&line.words, Sense::MadeOfSugar))
}

pub(super) fn leaves_decoration(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let told = by_words(dish, hazard)?;
    let named = |words: &[crate::language::Word]| {
        let found = dish.place(words, dish.sense(Sense::PoisonousLeaf), dish.sense(Sense::MadeOfSugar))?;
        let length = dish.sense(Sense::PoisonousLeaf).at(words, found);
        Some(words[found..found + length].iter().map(|word| word.written.as_str()).collect::<Vec<_>>().join(" "))
    };
    let name = dish.texts().find_map(named);
    Some(match name {
        Some(name) => Told { of: vec![name], ..told },
        None => Told { more: vec![1], ..told },
    })
}
