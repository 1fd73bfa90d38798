//! Meat, fish, milk and cheese.

use super::dish::{Dish, DishLine, DishStep, Told};
use super::hazard::Hazard;
use crate::language::Sense;
use crate::measure::Use;
use crate::pantry::Role;

/// Minced meat that has simmered for longer needs no word, in seconds. Common practice.
const LONG_SIMMER: u64 = 30 * 60;

/// What meat lies in for so long is a marinade, in seconds. Common practice.
const MARINATES: u64 = 20 * 60;

/// Milk is pasteurized from here, in °C. Source: 63 °C for 30 minutes, 72 °C for 15 seconds.
const MILK_FROM: f64 = 72.0;

/// Pork and game are safe from here at the core, in °C. Source: FSIS, 145 °F; game 160 °F.
const PORK_FROM: f64 = 62.0;

/// Wild game is done from here on, in °C. Source: Health Canada, safe internal temperatures, 160 °F.
const GAME_FROM: f64 = 71.0;

/// Meat that stands for so long is cured or dried, in seconds. Common practice.
const HUNG: u64 = 86_400;

/// Fish is cooked from here at the core, in °C. Source: 60 °C for a minute; FSIS 145 °F.
const FISH_FROM: f64 = 59.5;

fn raw_line<'d, 'f>(dish: &'d Dish<'f>, roles: &'static [Role]) -> Option<&'d DishLine<'f>> {
    dish.lines_with(roles).find(|line| !dish.has(&line.words, Sense::CookedAlready))
}

/// Whether a component, or one that takes it up, meets any heat.
fn is_heated(dish: &Dish<'_>, component: usize) -> bool {
    const HEATS: [Sense; 5] = [Sense::OvenCooks, Sense::PanCooks, Sense::DryHeat, Sense::OnHeat, Sense::Bath];
    let within = |step: &&DishStep<'_>| step.component == component || dish.facts.uses(step.component, component);
    dish.steps.iter().filter(within).any(|step| {
        let hot = step.heats.iter().any(|heat| heat.high > 40.0);
        step.sets_oven || hot || HEATS.iter().any(|heat| dish.has(&step.words, *heat))
    })
}

/// The core temperatures that are stated in a component, or in one that takes it up.
fn cores(dish: &Dish<'_>, component: usize) -> impl Iterator<Item = f64> {
    let within = move |step: &&DishStep<'_>| step.component == component || dish.facts.uses(step.component, component);
    const COOKS: [Sense; 5] = [Sense::Core, Sense::Bath, Sense::Registers, Sense::OvenCooks, Sense::DryHeat];
    let core = move |step: &&DishStep<'_>| COOKS.iter().any(|cooks| dish.has(&step.words, *cooks));
    let steps = dish.steps.iter().filter(within).filter(core);
    steps.flat_map(|step| step.heats.iter().filter(|heat| heat.to_use == Use::Thermometer).map(|heat| heat.high))
}

pub(super) fn poultry(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    let line = raw_line(dish, &[Role::Poultry])?;
    let cooking = dish
        .steps
        .iter()
        .find(|step| dish.has(&step.words, Sense::OvenCooks) || dish.has(&step.words, Sense::PanCooks));
    Some(Told { at: cooking.map(DishStep::place).or_else(|| dish.place_of(line)), ..Told::default() })
}

pub(super) fn ground_meat(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    let minced = |line: &&DishLine<'_>| {
        let fresh = line.is(Role::RawMeat) && !dish.has(&line.words, Sense::CookedAlready);
        fresh && dish.has(&line.words, Sense::Minced)
    };
    let through_the_grinder = |line: &&DishLine<'_>| {
        let game = dish.words_of(Hazard::PorkGame);
        let meat = line.is(Role::RawMeat) || dish.tells(&line.words, game.line, game.unless);
        meat && dish.steps.iter().any(|step| step.names(line) && dish.has(&step.words, Sense::Grinder))
    };
    let found = raw_line(dish, &[Role::MincedMeat]).or_else(|| dish.lines.iter().find(minced));
    let line = found.or_else(|| dish.lines.iter().find(through_the_grinder))?;
    let long = dish
        .steps
        .iter()
        .any(|step| dish.has(&step.words, Sense::Boiled) && step.seconds.is_some_and(|seconds| seconds > LONG_SIMMER));
    let rare = dish.does(Sense::Rare);
    let low = cores(dish, line.component).any(|core| core < 70.0);
    (!long || rare || low).then(|| Told::by(dish, line))
}

pub(super) fn pork_game(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let told = dish.words_of(hazard);
    let game = |line: &&DishLine<'_>| dish.tells(&line.words, told.line, told.unless);
    let pork = |line: &&DishLine<'_>| line.is(Role::RawMeat) && dish.has(&line.words, Sense::Pork);
    let line = dish
        .lines
        .iter()
        .filter(|line| !dish.has(&line.words, Sense::CookedAlready))
        .find(|line| pork(line) || game(line))?;
    let from = if game(&line) { GAME_FROM } else { PORK_FROM };
    let low = cores(dish, line.component).any(|core| core < from && core > 40.0);
    let raw = dish.steps.iter().all(|step| {
        !dish.has(&step.words, Sense::OvenCooks)
            && !dish.has(&step.words, Sense::PanCooks)
            && !step.sets_oven
            && step.heats.is_empty()
    });
    let pink = game(&line) && dish.does(Sense::Rare);
    (low || (raw && !dish.steps.is_empty()) || pink).then(|| Told::by(dish, line))
}

pub(super) fn raw_beef(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let meat = dish.lines.iter().find(|line| line.is(Role::RawMeat) || line.is(Role::MincedMeat));
    let told = dish.title_tells(hazard) || dish.steps_telling(hazard).next().is_some();
    let cooked = dish.steps.iter().any(|step| {
        step.sets_oven || dish.has(&step.words, Sense::OvenCooks) || dish.has(&step.words, Sense::PanCooks)
    });
    let named = dish.has(&dish.titled, Sense::Tartare) && !cooked;
    let raw = dish.lines.iter().find(|line| is_cut_raw(dish, line));
    meat.filter(|_| told || named).or(raw).map(|line| Told::by(dish, line))
}

/// Meat that is cut up and never heated, nor hung to dry.
fn is_cut_raw(dish: &Dish<'_>, line: &DishLine<'_>) -> bool {
    let fresh = !dish.has(&line.words, Sense::CookedAlready) && !dish.has(&line.words, Sense::Pork);
    let cut = |step: &DishStep<'_>| step.names(line) && dish.has(&step.words, Sense::CutsRaw);
    let hung =
        |step: &DishStep<'_>| step.component == line.component && step.seconds.is_some_and(|seconds| seconds >= HUNG);
    let game = dish.words_of(Hazard::PorkGame);
    let meat = line.is(Role::RawMeat) || dish.tells(&line.words, game.line, game.unless);
    let steps = &dish.steps;
    meat && fresh && steps.iter().any(cut) && !steps.iter().any(hung) && !is_heated(dish, line.component)
}

pub(super) fn raw_fish(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let fish = dish.lines_with(&[Role::RawFish]).find(|line| !dish.has(&line.words, Sense::CookedAlready))?;
    let told = dish.title_tells(hazard)
        || dish.steps_telling(hazard).next().is_some()
        || dish.lines_telling(hazard).next().is_some();
    let heats = |step: &DishStep<'_>| {
        const HEATS: [Sense; 3] = [Sense::OvenCooks, Sense::PanCooks, Sense::DryHeat];
        let fried = super::burns::heats_fat(dish, step);
        step.sets_oven || fried || HEATS.iter().any(|heat| dish.has(&step.words, *heat))
    };
    let heated = dish.steps.iter().any(heats);
    // Rice is boiled for sushi too, and the fish is not.
    let with_heat = dish.steps.iter().any(|step| step.names(fish) && heats(step));
    let raw_beside = told && !with_heat && dish.steps.iter().any(|step| step.names(fish));
    let low = cores(dish, fish.component).any(|core| core < FISH_FROM && core > 30.0);
    let raw = !heated && !dish.steps.is_empty();
    (low || raw || raw_beside).then(|| Told::by(dish, fish))
}

pub(super) fn shellfish(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    let line = dish.lines_with(&[Role::Shellfish]).find(|line| {
        let ready = dish.has(&line.words, Sense::CookedAlready) || dish.has(&line.words, Sense::Cephalopod);
        let sorted = dish.has(&line.words, Sense::Bivalve) || dish.has(&line.words, Sense::Live);
        !ready && (sorted || !super::cooked::is_cooked(dish, line))
    })?;
    Some(Told::by(dish, line))
}

pub(super) fn raw_marinade(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    dish.lines_with(&[Role::Poultry, Role::RawMeat, Role::MincedMeat, Role::RawFish]).next()?;
    let step = dish.steps_telling(hazard).next().or_else(|| reuses_marinade(dish))?;
    let aside = dish.does(Sense::SetAsideFirst);
    let unless = dish.words_of(hazard).unless;
    let boiled = dish.steps.iter().any(|other| unless.find(&other.words).is_some());
    let sentence =
        dish.has(&step.words, Sense::Boiled) && dish.has(&step.words, Sense::Marinade) && step.words.len() < 20;
    (!aside && !boiled && !sentence).then(|| Told::at(step))
}

/// A step that uses what raw meat has lain in, told by where it is left: `what is left in the bowl`.
fn reuses_marinade<'d, 'f>(dish: &'d Dish<'f>) -> Option<&'d DishStep<'f>> {
    let raw: Vec<_> = dish.lines_with(&[Role::Poultry, Role::RawMeat, Role::MincedMeat, Role::RawFish]).collect();
    let lay = |step: &DishStep<'_>| {
        let long = step.seconds.is_some_and(|seconds| seconds >= MARINATES) || dish.has(&step.words, Sense::InTheCold);
        long && raw.iter().any(|line| step.names(line))
    };
    let at = dish.steps.iter().position(lay)?;
    let same = |step: &&DishStep<'_>| step.component == dish.steps[at].component;
    dish.steps[at + 1..].iter().filter(same).find(|step| dish.has(&step.words, Sense::LeftOfMarinade))
}

pub(super) fn raw_milk(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let unless = dish.words_of(hazard).unless;
    let untreated = |line: &&DishLine<'_>| {
        dish.tells(&line.words, dish.sense(Sense::MilkThing), unless) && dish.has(&line.words, Sense::Untreated)
    };
    let told = dish.lines_telling(hazard).next();
    let line = told.or_else(|| dish.lines.iter().find(untreated))?;
    let hard = dish.has(&line.words, Sense::HardCheese);
    let heated = dish.steps.iter().any(|step| {
        let hot = step.probed().any(|heat| heat.high >= MILK_FROM);
        step.component == line.component && (hot || dish.has(&step.words, Sense::Boiled) || step.sets_oven)
    });
    (!hard && !heated).then(|| Told::by(dish, line))
}

pub(super) fn soft_cheese(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).next()?;
    (!super::cooked::is_cooked(dish, line)).then(|| Told::by(dish, line))
}
