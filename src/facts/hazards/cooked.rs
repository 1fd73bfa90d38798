//! Which heat an ingredient meets after it has gone in.

use super::dish::{Dish, DishLine, DishStep};
use crate::language::{Lexicon, Sense, Word};
use crate::measure::Use;
use crate::pantry::Role;

/// Egg is cooked from here, in °C; a degree is left for rounding. Source: FSIS, safe minimum temperature of egg dishes,
/// 160 °F.
const COOKED_FROM: f64 = 70.0;

/// Above this a temperature is that of a syrup or of oil, not of what egg is in. Common practice.
const MASS_UP_TO: f64 = 105.0;

/// Heat of a few minutes browns the outside alone, in seconds. Common practice.
const BRIEF: u64 = 6 * 60;

/// A meringue or a top browned for less stays raw inside, in seconds. Source: FSIS on meringue pies, 15 minutes.
const BROWNED: u64 = 15 * 60;

/// Where something is in the recipe: the place in the dish's steps, and the sentence.
pub(super) type Moment = (usize, usize);

/// Whether a line is heated through after its last part has gone in.
pub(super) fn is_cooked(dish: &Dish<'_>, line: &DishLine<'_>) -> bool {
    let entry = entry(dish, line);
    let mut waiting = vec![(line.component, entry)];
    let mut seen = vec![line.component];
    while let Some((component, from)) = waiting.pop() {
        let own = line.component == component;
        let index = own.then_some(line.index);
        if steps_of(dish, component).any(|at| cooks(dish, at, from, index)) {
            return true;
        }
        for later in component + 1..dish.facts.recipe.components.len() {
            if dish.facts.uses(later, component) && !seen.contains(&later) {
                seen.push(later);
                waiting.push((later, taken_up(dish, later, component)));
            }
        }
    }
    false
}

fn steps_of<'d>(dish: &'d Dish<'_>, component: usize) -> impl Iterator<Item = usize> + 'd {
    (0..dish.steps.len()).filter(move |at| dish.steps[*at].component == component)
}

/// When the last part of a line goes in: of `eggs, separated` the later of yolks and whites.
fn entry(dish: &Dish<'_>, line: &DishLine<'_>) -> Moment {
    let own = || steps_of(dish, line.component);
    let first = own().next().unwrap_or_default();
    let parts = [Sense::Yolk, Sense::White, Sense::Egg];
    if parts.iter().any(|part| dish.has(&line.words, *part)) {
        let separated = dish.has(&line.words, Sense::Apart) || dish.has(&line.words, Sense::Separated);
        let wanted: Vec<Sense> = match (dish.has(&line.words, Sense::Yolk), dish.has(&line.words, Sense::White)) {
            _ if separated => parts.to_vec(),
            (true, false) => vec![Sense::Yolk, Sense::Egg],
            (false, true) => vec![Sense::White, Sense::Egg],
            _ => vec![Sense::Egg],
        };
        let mentions = wanted.iter().filter_map(|part| own().find_map(|at| mention(dish, at, dish.sense(*part))));
        let found: Vec<Moment> = mentions.collect();
        let moment = if separated { found.iter().max() } else { found.first() };
        return moment.copied().unwrap_or((first, 0));
    }
    if line.is(Role::RawFlour) {
        // `the bread` is no longer the bread flour.
        let flour = own().find_map(|at| mention(dish, at, dish.sense(Sense::Flour)));
        return flour.unwrap_or((first, 0));
    }
    let named = own().find_map(|at| {
        let step = &dish.steps[at];
        let word = step
            .said
            .named
            .iter()
            .position(|named| named.iter().any(|named| named.surely && named.line == line.index))?;
        Some((at, step.said.words.get(word).map_or(0, |word| word.sentence)))
    });
    named.unwrap_or((first, 0))
}

fn mention(dish: &Dish<'_>, at: usize, told: Lexicon) -> Option<Moment> {
    let words = &dish.steps[at].words;
    told.find(words).map(|word| (at, words[word].sentence))
}

/// When a component takes up an earlier one: where its name is said or the step says so, else at once.
fn taken_up(dish: &Dish<'_>, later: usize, earlier: usize) -> Moment {
    let step = |at: &usize| {
        let step = &dish.facts.recipe.components[later].steps[dish.steps[*at].step];
        step.uses.iter().any(|used| used.component == earlier)
    };
    let first = steps_of(dish, later).next().unwrap_or_default();
    (steps_of(dish, later).find(step).unwrap_or(first), 0)
}

/// Whether a step cooks what has been in since a moment.
fn cooks(dish: &Dish<'_>, at: usize, from: Moment, line: Option<usize>) -> bool {
    if at < from.0 {
        return false;
    }
    let step = &dish.steps[at];
    if line.is_some_and(|line| toasts_flour(dish, step, line)) {
        return false;
    }
    let fried = super::burns::heats_fat(dish, step) && dish.has(&step.words, Sense::LowersIn);
    let last = last_sentence(step);
    let first = if at == from.0 { from.1 } else { 0 };
    fried
        || (step.sets_oven && !is_brief(dish, step))
        || (first..=last).any(|sentence| sentence_cooks(dish, step, sentence, line))
}

/// Flour that is toasted by itself stays raw: dry heat spares what lives in it. Source: FDA, Handling Flour Safely.
fn toasts_flour(dish: &Dish<'_>, step: &DishStep<'_>, line: usize) -> bool {
    let is_flour = |index: usize| {
        let of = |line: &&DishLine<'_>| line.component == step.component && line.index == index;
        dish.lines.iter().find(of).is_some_and(|line| line.is(Role::RawFlour))
    };
    let mut named = step.said.named.iter().flatten().filter(|named| named.surely);
    is_flour(line) && dish.has(&step.words, Sense::HeatsFlour) && named.all(|named| is_flour(named.line))
}

fn sentence_cooks(dish: &Dish<'_>, step: &DishStep<'_>, sentence: usize, line: Option<usize>) -> bool {
    let (_, words) = step.sentence(sentence);
    if dish.has(words, Sense::IntoHotWater) && !dish.has(words, Sense::Bowl) {
        return true;
    }
    if is_of_others(dish, step, sentence, line) {
        return false;
    }
    let probed = step.probed().filter(|heat| heat.sentence == sentence || last_sentence(step) == sentence);
    let probed: Vec<f64> = probed.map(|heat| heat.high).filter(|high| *high <= MASS_UP_TO).collect();
    if let Some(hottest) = probed.iter().copied().reduce(f64::max).filter(|hottest| *hottest > 40.0) {
        let fried_or_baked =
            dish.has(words, Sense::OvenCooks) && step.heats.iter().any(|heat| heat.to_use == Use::Oven);
        return hottest >= COOKED_FROM || fried_or_baked;
    }
    let oven = dish.has(words, Sense::OvenCooks) && !is_brief(dish, step);
    let thick = dish.has(words, Sense::Nappe)
        || dish.has(words, Sense::Thickened) && dish.has(words, Sense::OnHeat) && !dish.has(words, Sense::Pale);
    oven || thick
        || (dish.tells(words, dish.sense(Sense::PanCooks), dish.sense(Sense::HotLiquid))
            && !dish.has(words, Sense::OffHeat))
}

fn last_sentence(step: &DishStep<'_>) -> usize {
    step.words.last().map_or(0, |word| word.sentence)
}

/// Whether a sentence heats other lines alone: `Boil the sugar and water`; what follows in another clause does not count,
/// as in `Bake and dust with cocoa`.
fn is_of_others(dish: &Dish<'_>, step: &DishStep<'_>, sentence: usize, line: Option<usize>) -> bool {
    let (first, words) = step.sentence(sentence);
    let heated = [Sense::OvenCooks, Sense::PanCooks, Sense::OnHeat];
    let verb = heated.iter().filter_map(|heated| dish.sense(*heated).find(words)).min();
    let clause = verb.map_or(0..words.len(), |verb| verb..clause_end(dish, words, verb));
    let mut named = Vec::new();
    for lines in clause.clone().filter_map(|at| step.said.named.get(first + at)) {
        let surely = lines.iter().filter(|named| named.surely).map(|named| named.line);
        named.extend(surely.filter(|line| !is_medium(dish, step, *line)));
    }
    // `cuisez-les`
    let pronoun = |word: &Word| word.before == "-" && dish.sense(Sense::The).has(word);
    // `la crème` may be the cream of a line, and not the custard.
    let is_line =
        |at: usize| step.said.named.get(first + at).is_some_and(|named| named.iter().any(|named| named.surely));
    let whole = clause
        .into_iter()
        .any(|at| dish.sense(Sense::WholeMass).at(words, at) > 0 && !is_line(at) || pronoun(&words[at]));
    // Of several verbs any may be of this line: `Fry the onion, scramble in the eggs`.
    let own = line.is_some_and(|line| named.contains(&line) || is_cooked_by_name(dish, step, sentence, line));
    let hot = |heat: &super::dish::Heat| {
        heat.sentence == sentence && heat.to_use == Use::Thermometer && heat.low > MASS_UP_TO
    };
    let fried = dish.has(words, Sense::Frying) || dish.has(words, Sense::PanFries);
    (!own && !named.is_empty() && !whole) || (step.heats.iter().any(hot) && !fried)
}

/// Whether the clause of any verb of heat names a line.
fn is_cooked_by_name(dish: &Dish<'_>, step: &DishStep<'_>, sentence: usize, line: usize) -> bool {
    let (first, words) = step.sentence(sentence);
    let verb = |at: &usize| [Sense::OvenCooks, Sense::PanCooks].iter().any(|of| dish.sense(*of).at(words, *at) > 0);
    (0..words.len()).filter(verb).any(|verb| {
        let mut named =
            (verb..clause_end(dish, words, verb)).filter_map(|at| step.said.named.get(first + at)).flatten();
        named.any(|named| named.surely && named.line == line)
    })
}

/// What things are cooked in: oil, fat and water.
fn is_medium(dish: &Dish<'_>, step: &DishStep<'_>, line: usize) -> bool {
    let found = dish.lines.iter().find(|other| other.component == step.component && other.index == line);
    found.is_some_and(|line| matches!(line.family(), "oil" | "fat") || line.is(Role::Water))
}

/// Where the clause of a verb ends: at a comma, or before the next verb that puts something in.
fn clause_end(dish: &Dish<'_>, words: &[Word], verb: usize) -> usize {
    let ends = |at: &usize| {
        let word = &words[*at];
        word.before.contains([',', ';', '(', ':']) || dish.sense(Sense::ClauseVerb).at(words, *at) > 0
    };
    (verb + 1..words.len()).find(ends).unwrap_or(words.len())
}

/// Whether the heat is that of a torch or of some minutes under a grill.
fn is_brief(dish: &Dish<'_>, step: &DishStep<'_>) -> bool {
    let browned = dish.has(&step.words, Sense::Browned) && step.seconds.is_none_or(|seconds| seconds < BROWNED);
    browned || step.seconds.is_some_and(|seconds| seconds < BRIEF && dish.has(&step.words, Sense::Meringue))
}
