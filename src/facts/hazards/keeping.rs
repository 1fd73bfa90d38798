//! What ferments, is kept, preserved, cured or chilled.

use super::cooked::is_cooked;
use super::dish::{Dish, DishLine, DishStep, Told};
use super::hazard::Hazard;
use crate::language::Sense;
use crate::pantry::Role;

/// Perishable food is out of the cold for at most so long, in seconds. Source: USDA, two hours.
const OUT_OF_THE_COLD: u64 = 2 * 3600;

/// Salted vegetables that stand for so long ferment, in seconds. Common practice.
const FERMENTS: u64 = 3 * 86_400;

/// What has stood for so long is cold, in seconds. Common practice.
const KEPT: u64 = 4 * 3600;

/// Rice is kept warm or cooling for at most so long, in seconds. Source: FSA, one hour.
const RICE_OUT: u64 = 3600;

pub(super) fn bottle_pressure(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    // What ferments in salt makes gas as a drink does.
    let ferments = || days_in_salt(dish).is_some() || ferment_salt(dish, Hazard::FermentSalt).is_some();
    let told = dish
        .steps_telling(hazard)
        .next()
        .or_else(|| dish.title_tells(hazard).then(|| dish.step_with(Sense::Bottles)).flatten())
        .or_else(|| dish.step_with(Sense::TightLid).filter(|_| ferments()))?;
    let closes = |step: &&DishStep<'_>| dish.has(&step.words, Sense::Bottles) || dish.has(&step.words, Sense::TightLid);
    let closed = dish.steps.iter().find(closes)?;
    // A cloth over the bucket lets out what forms before bottling.
    let loose = dish.steps.iter().any(|step| step.place() >= closed.place() && dish.has(&step.words, Sense::LooseLid));
    let boiled = dish.steps.iter().any(|step| step.step > told.step && dish.has(&step.words, Sense::Pasteurized));
    (!loose && !boiled).then(|| Told::at(closed))
}

/// Drinks, by name.
pub(super) fn drinks<'d, 'f>(dish: &'d Dish<'f>) -> Vec<&'d DishLine<'f>> {
    let unless = dish.words_of(Hazard::AlcoholStays).unless;
    let is = |line: &&DishLine<'f>| line.is(Role::Alcohol) && unless.find(&line.words).is_none();
    dish.lines.iter().filter(is).collect()
}

pub(super) fn alcohol_stays(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    let drinks = drinks(dish);
    let first = drinks.first()?;
    let mut of: Vec<String> = drinks.iter().map(|line| dish.name(line)).collect();
    of.sort();
    of.dedup();
    Some(Told { of, ..Told::by(dish, first) })
}

fn is_kept(dish: &Dish<'_>, step: &DishStep<'_>) -> bool {
    dish.has(&step.words, Sense::Kept)
}

pub(super) fn garlic_in_oil(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let oils = dish.lines.iter().filter(|line| line.family() == "oil" || dish.has(&line.words, Sense::Oil));
    let own: Vec<usize> = oils.map(|line| line.component).collect();
    let fresh = dish
        .lines_telling(hazard)
        .find(|line| own.contains(&line.component) && !dish.has(&line.words, Sense::Dried))?;
    // What becomes of it later, as on a bread, does not make the jar safe.
    let own = |component: usize| component == fresh.component;
    let acid = dish.lines.iter().any(|line| own(line.component) && dish.has(&line.words, Sense::Vinegar));
    let does = |of| dish.steps.iter().any(|step| own(step.component) && dish.has(&step.words, of));
    let (covers, strained) = (does(Sense::Oil), does(Sense::Strained));
    let kept = |step: &&DishStep<'_>| {
        let long = step.seconds.is_some_and(|seconds| seconds >= 86_400) || is_kept(dish, step);
        let frozen = dish.has(&step.words, Sense::Frozen);
        step.component == fresh.component && long && !frozen
    };
    let step = dish.steps.iter().find(kept)?;
    let oil = dish.grams_of(|line| line.component == fresh.component && line.family() == "oil");
    let share = oil / dish.grams_of(|line| own(line.component)).max(1.0);
    (covers && !acid && !strained && share > 0.25).then(|| Told::at(step))
}

pub(super) fn vacuum_low_temp(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let step = dish.steps_telling(hazard).next()?;
    let fruit_only =
        dish.lines.iter().all(|line| matches!(line.family(), "fruit" | "sugar" | "liquid" | "alcohol" | ""));
    let animal = dish.lines.iter().any(|line| is_animal(line) || matches!(line.family(), "vegetable" | "egg"));
    let hot = dish.steps.iter().filter(|other| other.component == step.component);
    let bath = hot.flat_map(|other| &other.heats).map(|heat| heat.high).fold(0.0, f64::max);
    (animal && !fruit_only && bath > 0.0 && bath < 68.0).then(|| Told::at(step))
}

pub(super) fn is_animal(line: &DishLine<'_>) -> bool {
    matches!(line.family(), "meat" | "fish" | "poultry")
        || line
            .facts
            .rows()
            .any(|row| row.is_any(&[Role::Poultry, Role::MincedMeat, Role::RawMeat, Role::RawFish, Role::Shellfish]))
}

/// A step that closes jars which are then kept out of the cold.
fn fills_jars<'d, 'f>(dish: &'d Dish<'f>) -> Option<&'d DishStep<'f>> {
    let told = dish.words_of(Hazard::JarsAltitude);
    let step = dish.steps.iter().find(|step| dish.tells(&step.words, told.step, told.unless))?;
    let then = || dish.steps.iter().filter(|other| other.place() >= step.place());
    // Chilled jars are no cold to keep them in.
    let cold = then().any(|other| dish.tells(&other.words, dish.sense(Sense::InTheCold), dish.sense(Sense::ColdGlass)));
    let shelf = dish.words_of(Hazard::LowAcidPreserving);
    let long = then().any(|other| dish.tells(&other.words, shelf.step, shelf.unless));
    (!cold || long).then_some(step)
}

pub(super) fn low_acid_preserving(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let jars = fills_jars(dish)?;
    let told = dish.words_of(hazard);
    let kept = dish.steps.iter().find(|step| dish.tells(&step.words, told.step, told.unless))?;
    let acid = dish.lists(Sense::Vinegar) || is_sweet_fruit(dish);
    let canner = dish.does(Sense::Canner);
    (!acid && !canner).then(|| Told::at(if jars.step > kept.step { jars } else { kept }))
}

/// Fruit with sugar, as in jam: sour enough to be hot-filled. Bananas, figs, melons and tomatoes are not.
fn is_sweet_fruit(dish: &Dish<'_>) -> bool {
    // Most of the water that peel is boiled in is gone when it sets.
    let all = dish.grams_of(|line| !line.is(Role::Water)).max(1.0);
    let low = dish.lists(Sense::LowAcidFruit);
    let lemon = dish.lists(Sense::AcidAdded);
    let fruit = dish.grams_of(|line| line.family() == "fruit");
    fruit / all > 0.3 && (!low || lemon)
}

pub(super) fn jars_altitude(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    let step = fills_jars(dish)?;
    let cooked = dish.does(Sense::Boiled);
    let preserve = is_sweet_fruit(dish) || dish.lists(Sense::Vinegar) || cooked;
    let fermented = dish.title_tells(Hazard::FermentSalt);
    let process = dish.does(Sense::BoilsJars);
    (preserve && !fermented).then(|| Told::at(step).and(1, process))
}

pub(super) fn pickle_acidity(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    dish.lines.iter().find(|line| dish.has(&line.words, Sense::Vinegar))?;
    let told = dish.title_tells(hazard) || dish.steps_telling(hazard).next().is_some();
    let plants = dish.lines.iter().any(|line| matches!(line.family(), "vegetable" | "fruit" | "egg"));
    let kept = dish.steps.iter().find(|step| {
        let jar = dish.words_of(Hazard::JarsAltitude);
        is_kept(dish, step) || dish.tells(&step.words, jar.step, jar.unless)
    })?;
    let shelf = dish.words_of(Hazard::LowAcidPreserving);
    let long = dish.steps.iter().any(|step| dish.tells(&step.words, shelf.step, shelf.unless));
    let cold = dish.does(Sense::InTheCold);
    ((told || fills_jars(dish).is_some()) && plants && (!cold || long)).then(|| Told::at(kept))
}

pub(super) fn ferment_salt(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let titled = || dish.title_tells(hazard).then(|| dish.steps.first()).flatten();
    let told = dish.steps_telling(hazard).next().or_else(titled).or_else(|| days_in_salt(dish))?;
    let plants = |line: &DishLine<'_>| matches!(line.family(), "vegetable" | "fruit");
    let salt = dish.grams_of(|line| line.family() == "salt");
    let base = dish.grams_of(|line| plants(line) || line.is(Role::Water));
    let ferments = dish.lines.iter().any(|line| plants(line) || line.facts.row.is_none());
    let vinegar = dish.lists(Sense::Vinegar);
    let share = salt / base.max(1.0);
    let held = dish.does(Sense::UnderBrine);
    let bread = dish.lines.iter().any(|line| line.is(Role::RawFlour) || line.family() == "yeast");
    let safe = held && (0.0195..=0.1).contains(&share);
    (ferments && !vinegar && !bread && !safe).then(|| Told::at(told))
}

/// A step in which salted vegetables stand for days outside the cold.
fn days_in_salt<'d, 'f>(dish: &'d Dish<'f>) -> Option<&'d DishStep<'f>> {
    let vegetables = dish.grams_of(|line| line.family() == "vegetable");
    let salted = dish.lines.iter().any(|line| line.family() == "salt") && vegetables > dish.grams() / 2.0;
    let days = |step: &&DishStep<'_>| {
        step.seconds.is_some_and(|seconds| seconds >= FERMENTS) && !dish.has(&step.words, Sense::InTheCold)
    };
    dish.steps.iter().find(days).filter(|_| salted)
}

fn is_perishable(dish: &Dish<'_>) -> bool {
    dish.lines
        .iter()
        .any(|line| is_animal(line) || matches!(line.family(), "dairy" | "egg") || dish.has(&line.words, Sense::Rice))
}

pub(super) fn chilling_time(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let fermented = dish
        .lines
        .iter()
        .any(|line| line.is(Role::RawFlour) || line.family() == "yeast" || dish.has(&line.words, Sense::Culture));
    let out = |step: &&DishStep<'_>| {
        let long = step.seconds.is_some_and(|seconds| seconds > OUT_OF_THE_COLD);
        dish.has(&step.words, Sense::RoomTemperature) && long && !dish.has(&step.words, Sense::Dries)
    };
    let animal = dish.lines.iter().any(is_animal);
    // Sugar keeps caramels, fudge and the like.
    let sweets = super::burns::hot_sugar(dish, Hazard::HotSugar).is_some() && !animal;
    let told = dish.steps_telling(hazard).next();
    let found = told.or_else(|| dish.steps.iter().find(out));
    // Beans may soak outside, but not stand there when they are cooked.
    let cooked = found.is_some_and(|step| is_cooked_pulse(dish, step));
    let found = found.filter(|step| animal || cooked || !is_dry(dish, step.component));
    found.filter(|_| (is_perishable(dish) || cooked) && !sweets && (!fermented || animal)).map(Told::at)
}

/// Whether a step leaves pulses that an earlier one has cooked.
fn is_cooked_pulse(dish: &Dish<'_>, out: &DishStep<'_>) -> bool {
    const COOKS: [Sense; 3] = [Sense::Boiled, Sense::PanCooks, Sense::SlowCooker];
    let before = |step: &&DishStep<'_>| step.component == out.component && step.place() <= out.place();
    let cooks = |step: &DishStep<'_>| step.sets_oven || COOKS.iter().any(|cooks| dish.has(&step.words, *cooks));
    let pulse = |line: &DishLine<'_>| line.component == out.component && line.family() == "pulse";
    dish.lines.iter().any(pulse) && dish.steps.iter().filter(before).any(cooks)
}

/// Meringues, biscuits and what a step dries: nothing grows in them.
fn is_dry(dish: &Dish<'_>, component: usize) -> bool {
    let name = dish.language().read(&dish.facts.recipe.components[component].name);
    let dried = |step: &DishStep<'_>| step.component == component && dish.has(&step.words, Sense::Dries);
    dish.has(&dish.titled, Sense::KeepsDry) || dish.has(&name, Sense::KeepsDry) || dish.steps.iter().any(dried)
}

pub(super) fn rice_kept(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let unless = dish.words_of(hazard).unless;
    let of_rice = |line: &&DishLine<'_>| dish.tells(&line.words, dish.sense(Sense::Rice), unless);
    let told = dish.words_of(hazard);
    let is_kept_rice =
        |line: &&DishLine<'_>| told.line.find(&line.words).is_some() || dish.has(&line.words, Sense::KeptCooked);
    let kept = dish.lines.iter().filter(of_rice).find(is_kept_rice);
    if let Some(line) = kept {
        return Some(Told::by(dish, line));
    }
    let rice = dish.lines.iter().find(of_rice)?;
    let cooked = dish.steps.iter().position(|step| {
        dish.has(&step.words, Sense::Boiled)
            || dish.has(&step.words, Sense::Rice) && dish.has(&step.words, Sense::PanCooks)
    })?;
    let sushi = dish.lists(Sense::Vinegar);
    let kept = dish.steps[cooked..].iter().find(|step| {
        let warm =
            dish.has(&step.words, Sense::RoomTemperature) && step.seconds.is_none_or(|seconds| seconds > RICE_OUT);
        let cooled = dish.has(&step.words, Sense::Cooled) || dish.has(&step.words, Sense::InTheCold);
        step.component == rice.component && (warm || cooled || is_kept(dish, step))
    });
    kept.filter(|_| !sushi).map(Told::at)
}

pub(super) fn reheating(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let step = dish.steps_telling(hazard).next().or_else(|| warms_again(dish))?;
    let animal = dish.lines.iter().any(|line| {
        is_animal(line) || matches!(line.family(), "dairy" | "egg" | "pulse") || dish.has(&line.words, Sense::Stock)
    });
    let bread = dish.lines.iter().any(|line| line.is(Role::RawFlour) || line.family() == "yeast")
        && !dish.lines.iter().any(is_animal);
    (animal && !bread).then(|| Told::at(step))
}

/// A step that warms through what an earlier one has left for hours: `warm the beans through at noon`.
fn warms_again<'d, 'f>(dish: &'d Dish<'f>) -> Option<&'d DishStep<'f>> {
    let kept = |step: &DishStep<'_>| step.seconds.is_some_and(|seconds| seconds >= KEPT);
    let through = |step: &DishStep<'_>| {
        let sentences = 0..=step.words.last().map_or(0, |word| word.sentence);
        sentences.into_iter().any(|sentence| {
            let (_, words) = step.sentence(sentence);
            dish.has(words, Sense::Warms) && dish.has(words, Sense::Through)
        })
    };
    let after = |step: &&DishStep<'_>| {
        let earlier = |other: &&DishStep<'_>| other.component == step.component && other.place() < step.place();
        through(step) && dish.steps.iter().filter(earlier).any(kept)
    };
    dish.steps.iter().find(after)
}

/// A curd or custard that is cooked on the hob and then chilled, where no line is called so.
fn is_custard_chilled(dish: &Dish<'_>) -> bool {
    let egg = dish.lines.iter().any(|line| line.is(Role::RawEgg));
    let cooked = |step: &DishStep<'_>| {
        let hot = step.probed().any(|heat| (70.0..100.0).contains(&heat.high));
        dish.has(&step.words, Sense::EggDishSurely) && (hot || dish.has(&step.words, Sense::Thickened))
    };
    let Some(at) = dish.steps.iter().position(cooked) else { return false };
    let chilled = |step: &DishStep<'_>| dish.has(&step.words, Sense::InTheCold) || dish.has(&step.words, Sense::Cooled);
    let after = &dish.steps[at + 1..];
    egg && after.iter().any(chilled) && !after.iter().any(|step| step.sets_oven)
}

pub(super) fn cream_cakes(dish: &Dish<'_>, _: Hazard) -> Option<Told> {
    let last = dish.steps.last()?;
    let soft = |line: &&DishLine<'_>| dish.has(&line.words, Sense::CreamThing) && !is_cooked(dish, line);
    let mixed = dish.does(Sense::CreamMade);
    let component = dish.facts.recipe.components.iter().any(|component| {
        component.name.split_whitespace().count() < 4 && dish.language().tells(Sense::Custard, &component.name)
    });
    let line = dish.lines.iter().find(soft);
    let hot = dish.has(&last.words, Sense::ServedHot)
        || dish.has(&last.words, Sense::Boiled) && !dish.has(&last.words, Sense::Cooled);
    let frozen =
        dish.steps.iter().any(|step| dish.has(&step.words, Sense::Frozen) || dish.has(&step.words, Sense::Churned));
    let savoury =
        dish.lines.iter().any(is_animal) || dish.lines.iter().filter(|line| line.family() == "vegetable").count() > 1;
    let soup = dish.has(&dish.titled, Sense::Stock);
    let made = line.is_some() || component || is_custard_chilled(dish);
    (made && mixed && !soup && !hot && !frozen && !savoury).then(|| Told::at(last))
}
