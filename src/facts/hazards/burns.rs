//! What burns, bursts or spits.

use super::by_words;
use super::dish::{Dish, DishLine, DishStep, Told};
use super::hazard::Hazard;
use crate::language::{Sense, Word};
use crate::measure::Use;
use crate::pantry::Role;

/// Syrup from here burns worse than water, in °C; jam stays below. Source: stages of boiled sugar, thread from 106 °C.
const HOT_SUGAR: f64 = 106.0;

/// Of fruit and sugar: what is hotter is a caramel, in °C. Common practice.
const HOT_FRUIT: f64 = 109.0;

/// Less sugar than this share of a component only sweetens what else is in the pan. Common practice.
const SUGAR_ALONE: f64 = 0.05;

/// Caramel darkens on by itself, in °C. Common practice.
const DARKENS: f64 = 160.0;

/// Caramel that is about to burn, in °C. Common practice.
const SMOKES: f64 = 190.0;

/// Oil is for frying from here, in °C. Common practice.
const FRYING_FROM: f64 = 140.0;

/// Oil hotter than this is unsafe for frying, in °C. Source: food agencies, 190 °C at the most.
const FRYING_UP_TO: f64 = 191.0;

/// So much fat is for frying in, in grams. Common practice.
const FAT_TO_FRY_IN: f64 = 400.0;

/// Parchment and silicone hold so much, in °C. Source: makers' limits.
const PAPER_UP_TO: f64 = 230.5;

/// Reheated in its own time, a liquid boils late, in seconds. Common practice.
const LATE_BOIL: u64 = 120;

fn sugar(dish: &Dish<'_>, component: usize) -> bool {
    dish.lines.iter().any(|line| line.component == component && (line.is(Role::Sugar) || line.is(Role::Honey)))
}

/// Whether sugar is more than a seasoning, as of onions that brown in it.
fn is_much_sugar(dish: &Dish<'_>, component: usize) -> bool {
    let all = dish.grams_of(|line| line.component == component);
    let sugar = dish.grams_of(|line| line.component == component && (line.is(Role::Sugar) || line.is(Role::Honey)));
    all == 0.0 || sugar >= all * SUGAR_ALONE
}

/// Fruit is what is cooked with the sugar, as in jam.
fn fruit(dish: &Dish<'_>, component: usize) -> bool {
    let grams =
        |families: &[&str]| dish.grams_of(|line| line.component == component && families.contains(&line.family()));
    let fruit = grams(&["fruit", "dried-fruit", "vegetable"]);
    fruit > 0.0 && fruit * 3.0 > grams(&["sugar"])
}

/// The hottest that a step brings sugar to in a pan, in °C.
fn syrup_of(dish: &Dish<'_>, step: &DishStep<'_>) -> Option<f64> {
    let oil = dish.has(&step.words, Sense::Oil) || dish.has(&step.words, Sense::Frying);
    let in_oven = step.sets_oven || dish.has(&step.words, Sense::OvenCooks);
    let hottest = step.probed().map(|heat| heat.high).reduce(f64::max)?;
    let least = if fruit(dish, step.component) { HOT_FRUIT } else { HOT_SUGAR };
    let probe = dish.has(&step.words, Sense::Core) && !dish.has(&step.words, Sense::Syrup);
    (hottest >= least && !oil && !in_oven && !probe && sugar(dish, step.component)).then_some(hottest)
}

/// Whether a step brings sugar to a stage or a colour.
fn is_stage(dish: &Dish<'_>, step: &DishStep<'_>) -> bool {
    let told = dish.words_of(Hazard::HotSugar);
    let in_oven = step.sets_oven || dish.has(&step.words, Sense::OvenCooks);
    is_much_sugar(dish, step.component)
        && sugar(dish, step.component)
        && !in_oven
        && dish.tells(&step.words, told.step, told.unless)
        && is_made(dish, step)
}

/// Sugar alone in a pan, brought to a colour by what that is like: `until it is the colour of tea`.
fn takes_colour(dish: &Dish<'_>, step: &DishStep<'_>) -> bool {
    const OTHER: [Sense; 3] = [Sense::Frying, Sense::PanFries, Sense::Browned];
    let in_oven = step.sets_oven || dish.has(&step.words, Sense::OvenCooks);
    let heated = dish.has(&step.words, Sense::MakesCaramel) || dish.has(&step.words, Sense::OnHeat);
    if in_oven || !heated || !dish.has(&step.words, Sense::SugarColour) {
        return false;
    }
    let named = step.said.named.iter().flatten().filter(|named| named.surely);
    let own = |line: &&DishLine<'_>| line.component == step.component;
    let mut lines = named.filter_map(|named| dish.lines.iter().filter(own).find(|line| line.index == named.line));
    let alone = lines.all(|line| {
        matches!(line.family(), "sugar" | "syrup" | "nut" | "peanut" | "seed")
            || line.is(Role::Water)
            || dish.has(&line.words, Sense::AcidAdded)
    });
    alone && is_much_sugar(dish, step.component) && !OTHER.iter().any(|other| dish.has(&step.words, *other))
}

/// Caramel that is made here: sugar is named, or a verb of heat stands beside.
fn is_made(dish: &Dish<'_>, step: &DishStep<'_>) -> bool {
    let heated = dish.has(&step.words, Sense::MakesCaramel) || dish.has(&step.words, Sense::Syrup);
    let bought =
        dish.lines.iter().any(|line| line.component == step.component && dish.has(&line.words, Sense::Caramel));
    heated && !bought
}

pub(super) fn hot_sugar(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    let hot = dish.steps.iter().filter_map(|step| match syrup_of(dish, step) {
        Some(hottest) => Some((step, hottest)),
        None if takes_colour(dish, step) => Some((step, DARKENS)),
        None => {
            is_stage(dish, step).then_some((step, if dish.has(&step.words, Sense::Caramel) { DARKENS } else { 0.0 }))
        }
    });
    let hot: Vec<(&DishStep<'_>, f64)> = hot.collect();
    let (first, _) = hot.first()?;
    let hottest = hot.iter().map(|(_, hottest)| *hottest).fold(0.0, f64::max);
    let smokes = hottest >= SMOKES || hot.iter().any(|(step, _)| dish.has(&step.words, Sense::Smokes));
    Some(Told::at(first).and(1, hottest >= DARKENS).and(2, smokes))
}

pub(super) fn hot_jam(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let boiled = |step: &&DishStep<'_>| {
        let thick = step.probed().any(|heat| (102.0..=HOT_FRUIT).contains(&heat.high) && sugar(dish, step.component));
        let told = dish.words_of(hazard);
        let set = dish.tells(&step.words, told.step, told.unless);
        fruit(dish, step.component) && !step.sets_oven && (thick || (set && sugar(dish, step.component)))
    };
    let polenta = || dish.step_with(Sense::Polenta).filter(|step| dish.has(&step.words, Sense::Boiled));
    dish.steps.iter().find(boiled).or_else(polenta).map(Told::at)
}

pub(super) fn caramel_liquid(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    for (at, step) in dish.steps.iter().enumerate() {
        let caramel = dish.has(&step.words, Sense::Coloured) && is_stage(dish, step)
            || takes_colour(dish, step)
            || syrup_of(dish, step).is_some_and(|hottest| hottest >= 150.0);
        if !caramel {
            continue;
        }
        let colours = [Sense::Coloured, Sense::SugarColour];
        let coloured = colours.iter().filter_map(|colour| dish.sense(*colour).find(&step.words)).min();
        let coloured = coloured.map_or(0, |word| word + 1);
        let behind = step.words.get(coloured..).unwrap_or_default();
        if adds_liquid(dish, behind) {
            return Some(Told::at(step));
        }
        let told = dish.words_of(hazard);
        let next = dish.steps[at + 1..].iter().take(2).find(|next| {
            next.component == step.component && {
                adds_liquid(dish, &next.words) || dish.tells(&next.words, told.step, told.unless)
            }
        });
        if let Some(next) = next {
            return Some(Told::at(next));
        }
    }
    None
}

/// Whether some words put liquid or fat in, rather than something into a mould.
fn adds_liquid(dish: &Dish<'_>, words: &[Word]) -> bool {
    let Some(verb) = dish.sense(Sense::PutsIn).find(words) else { return false };
    let behind = &words[verb..];
    let near = behind.iter().take_while(|word| word.sentence == words[verb].sentence).count().min(9);
    dish.has(&behind[..near], Sense::WetThing) && !dish.has(&behind[..near], Sense::IntoMould)
}

/// A step that fries in deep fat.
fn fries<'d, 'f>(dish: &'d Dish<'f>) -> Option<&'d DishStep<'f>> {
    let told = dish.words_of(Hazard::HotOil);
    let shallow = |step: &DishStep<'_>| dish.has(&step.words, Sense::ShallowFat);
    let by_words = |step: &&DishStep<'_>| dish.tells(&step.words, told.step, told.unless) && !shallow(step);
    let by_heat = |step: &&DishStep<'_>| heats_fat(dish, step) && !shallow(step);
    let by_fat = |step: &&DishStep<'_>| {
        let fat = dish.grams_of(|line| matches!(line.family(), "oil" | "fat") && dish.has(&line.words, Sense::Fat));
        fat >= FAT_TO_FRY_IN && dish.has(&step.words, Sense::PanFries) && !shallow(step)
    };
    dish.steps
        .iter()
        .find(by_words)
        .or_else(|| dish.steps.iter().find(by_heat))
        .or_else(|| dish.steps.iter().find(by_fat))
}

/// Whether a step brings fat to the heat of frying.
pub(super) fn heats_fat(dish: &Dish<'_>, step: &DishStep<'_>) -> bool {
    let hot = step.probed().any(|heat| (FRYING_FROM..=230.0).contains(&heat.high));
    hot && dish.has(&step.words, Sense::Fat) && !step.sets_oven && !dish.has(&step.words, Sense::OvenCooks)
}

pub(super) fn hot_oil(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    fries(dish).map(Told::at)
}

pub(super) fn frying_temperature(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    let deep = fries(dish)?;
    let hot = |step: &&DishStep<'_>| {
        let oil = dish.has(&step.words, Sense::Fat) && !step.sets_oven;
        let hot = step.probed().any(|heat| (FRYING_UP_TO..=260.0).contains(&heat.high));
        oil && (hot || (step.place() == deep.place() && dish.has(&step.words, Sense::Smokes)))
    };
    dish.steps.iter().find(hot).map(Told::at)
}

pub(super) fn water_in_oil(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let deep = fries(dish)?;
    let told = dish.words_of(hazard);
    let same = |step: &&DishStep<'_>| step.component == deep.component;
    let dried = dish.steps.iter().filter(same).any(|step| dish.has(&step.words, Sense::PattedDry));
    // Wet before the oil is hot, or as it goes in just after.
    let goes_in = |step: &DishStep<'_>| step.step <= deep.step + 2 && dish.has(&step.words, Sense::LowersIn);
    let wet_step = |step: &&DishStep<'_>| {
        (step.step <= deep.step || goes_in(step)) && dish.tells(&step.words, told.step, told.unless)
    };
    let wet = dish.steps.iter().filter(same).find(wet_step).map(Told::at);
    let frozen_line = || {
        let line =
            dish.lines.iter().find(|line| line.component == deep.component && dish.has(&line.words, Sense::Frozen))?;
        (!dish.has(&line.words, Sense::Thawed)).then(|| Told::by(dish, line))
    };
    if dried { None } else { wet.or_else(frozen_line) }
}

pub(super) fn flambe(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    dish.lines.iter().find(|line| line.is(Role::Alcohol))?;
    // A match lights coals and candles too.
    let other = |step: &DishStep<'_>| dish.has(&step.words, Sense::Charcoal) || dish.has(&step.words, Sense::Candle);
    dish.steps_telling(hazard).find(|step| !other(step)).map(Told::at)
}

pub(super) fn open_flame(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let found = dish.steps_telling(hazard).next()?;
    let candles = dish.has(&found.words, Sense::Candle);
    Some(Told::at(found).and(1, candles))
}

/// Fire where people breathe, by its own words or by where it stands.
pub(super) fn indoor_charcoal(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let unless = dish.words_of(hazard).unless;
    let brought_in = |step: &&DishStep<'_>| {
        dish.tells(&step.words, dish.sense(Sense::Charcoal), unless) && dish.has(&step.words, Sense::Indoors)
    };
    by_words(dish, hazard).or_else(|| dish.steps.iter().find(brought_in).map(Told::at))
}

/// A step that closes food in foil or paper, which is then cooked and opened.
fn wraps_tightly<'d, 'f>(dish: &'d Dish<'f>) -> Option<&'d DishStep<'f>> {
    const COOKS: [Sense; 3] = [Sense::OvenCooks, Sense::PanCooks, Sense::DryHeat];
    let cooks = |step: &DishStep<'_>| step.sets_oven || COOKS.iter().any(|cooks| dish.has(&step.words, *cooks));
    let wraps = |step: &&DishStep<'_>| dish.has(&step.words, Sense::WrapsIn) && dish.has(&step.words, Sense::Seals);
    dish.steps.iter().filter(wraps).find(|step| {
        let behind = dish.steps.iter().filter(|later| later.place() >= step.place());
        behind.filter(|later| later.component == step.component).any(cooks)
    })
}

pub(super) fn hot_steam(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let found = dish.steps_telling(hazard).next().or_else(|| wraps_tightly(dish))?;
    let oven = found.sets_oven || dish.has(&found.words, Sense::Oven);
    let thrown = oven && dish.has(&found.words, Sense::WaterOrIce);
    Some(Told::at(found).and(1, thrown))
}

pub(super) fn hot_blender(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let told = dish.words_of(hazard);
    let (at, step) = dish.steps.iter().enumerate().find(|(_, step)| dish.tells(&step.words, told.step, told.unless))?;
    let own = dish.has(&step.words, Sense::HotThing);
    let cooled = dish.has(&step.words, Sense::Cooled);
    let before =
        at.checked_sub(1).map(|before| &dish.steps[before]).filter(|before| before.component == step.component);
    let boiled =
        before.is_some_and(|before| dish.has(&before.words, Sense::Boiled) && !dish.has(&before.words, Sense::Cooled));
    let machine = dish.has(&step.words, Sense::Blender);
    let hand = dish.does(Sense::StickBlender);
    (!cooled && !hand && (own || boiled) && (machine || boiled)).then(|| Told::at(step))
}

pub(super) fn microwave_burst(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let step = dish.steps_telling(hazard).next()?;
    let liquid = dish.has(&step.words, Sense::WetThing) && step.seconds.is_some_and(|seconds| seconds > LATE_BOIL);
    let bursts = dish.has(&step.words, Sense::Bursts) && !dish.has(&step.words, Sense::Pierced);
    let sugar_or_oil = dish.has(&step.words, Sense::Syrup) || dish.has(&step.words, Sense::Oil);
    (liquid || bursts || sugar_or_oil).then(|| Told::at(step))
}

pub(super) fn chestnut_burst(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).next()?;
    let heated = dish.step_with(Sense::DryHeat)?;
    let scored = dish.does(Sense::Pierced);
    let shelled = dish.has(&line.words, Sense::Shelled);
    (!scored && !shelled).then(|| Told::at(heated))
}

/// Glass that changes its heat at once: by the words for it, or cold where something hot is poured in.
pub(super) fn glass_shock(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let unless = dish.words_of(hazard).unless;
    let is_hot = |step: &DishStep<'_>| dish.has(&step.words, Sense::HotThing) || dish.has(&step.words, Sense::Boiled);
    let poured = |at: &usize| {
        let step = &dish.steps[*at];
        let before = at.checked_sub(1).map(|before| &dish.steps[before]);
        let kept_hot = before.is_some_and(|before| {
            before.component == step.component && is_hot(before) && !dish.has(&before.words, Sense::Cooled)
        });
        (is_hot(step) || kept_hot) && dish.tells(&step.words, dish.sense(Sense::ColdGlass), unless)
    };
    let step = dish.steps_telling(hazard).next();
    step.or_else(|| (0..dish.steps.len()).find(poured).map(|at| &dish.steps[at])).map(Told::at)
}

pub(super) fn paper_plastic_heat(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let hot = |step: &&DishStep<'_>| {
        let paper =
            dish.steps.iter().any(|other| other.component == step.component && dish.has(&other.words, Sense::Paper));
        let oven = step.heats.iter().any(|heat| heat.to_use == Use::Oven && heat.high > PAPER_UP_TO);
        paper && oven
    };
    let waxed = dish.steps_telling(hazard).find(|step| step.sets_oven || dish.has(&step.words, Sense::OvenCooks));
    waxed.or_else(|| dish.steps.iter().find(hot)).map(Told::at)
}

pub(super) fn pulled_sugar(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let melted = |step: &&DishStep<'_>| {
        let isomalt = dish.lines_telling(hazard).any(|line| line.component == step.component);
        isomalt && (syrup_of(dish, step).is_some() || dish.has(&step.words, Sense::Melts))
    };
    dish.steps_telling(hazard).next().or_else(|| dish.steps.iter().find(melted)).map(Told::at)
}
