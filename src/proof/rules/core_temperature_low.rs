//! What it finds: poultry, minced meat or an egg dish cooked to less than the safe minimum at the core.
//!
//! Why it matters: Salmonella and others live below it.
//!
//! Example: `{do: Bake the quiche until set., heat: 62 °C}`
//!
//! Instead: `heat: 72 °C`
//!
//! Source: FoodSafety.gov and USDA FSIS, safe minimum internal temperatures: poultry 74 °C (165 °F), minced meat and egg
//! dishes 71 °C (160 °F). Local food law comes first.

use crate::facts::{Said, StepKey};
use crate::language::Sense;
use crate::measure::{Number, Temperature};
use crate::pantry::{Role, Row};
use crate::proof::Context;
use crate::proof::shares::{parts, with_used};
use crate::source::{Finding, Span};
use crate::text::temperatures;

/// What is cooked, and the least it is cooked to, in °C and °F.
type CookedDish = (&'static str, i64, i64);

const POULTRY: CookedDish = ("poultry", 74, 165);
const MINCED: CookedDish = ("minced meat", 71, 160);
const EGG: CookedDish = ("an egg dish", 71, 160);

/// Below this something is warmed or cooled, not cooked.
const COOKING_FROM: i64 = 50;

/// The core of a bird in the oven may be stated far too low: 47 for 74 °C.
const IN_OVEN_FROM: i64 = 30;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    context.said().filter_map(|said| too_low(context, said)).collect()
}

fn too_low(context: &Context<'_>, said: &Said<'_>) -> Option<Finding> {
    let step = &context.recipe.components[said.component].steps[said.step];
    let core = said.tells(Sense::Core);
    let mut whole_text =
        context.said_in(said.component).filter(|other| other.step == said.step && other.key == StepKey::Do);
    let otherwise = whole_text.any(|other| other.tells(Sense::NotDone)) && step.oven.is_none() && !core;
    let cooked = said.key == StepKey::Heat || (core && matches!(said.key, StepKey::Do | StepKey::Until));
    if !cooked || otherwise {
        return None;
    }
    let in_oven = said.key == StepKey::Heat && step.oven.is_some();
    let (span, stated) = coolest(said, if in_oven { IN_OVEN_FROM } else { COOKING_FROM })?;
    let (what, least, fahrenheit) = dish(context, said, step.oven.is_some() || core)?;
    let highest = stated.celsius().1;
    if highest < Number::from_integer(COOKING_FROM) && (what, least, fahrenheit) != POULTRY {
        return None;
    }
    // A degree is left for rounding.
    if highest >= Number::from_integer(least - 1) || cooked_later(context, said, least) {
        return None;
    }
    let message =
        format!("`{}` is below the safe minimum for {what}, {least} °C ({} °F)", &said.text[span.clone()], fahrenheit);
    let found = Finding::at(said.span(span), message).label("not safe for everybody");
    Some(found.help(format!("cook to {least} °C at the core, or say for whom it is not; local food law comes first")))
}

/// The lowest temperature that is one of cooking, and not an oven's.
fn coolest(said: &Said<'_>, from: i64) -> Option<(Span, Temperature)> {
    let in_range = |temperature: Temperature| {
        let high = temperature.celsius().1;
        high >= Number::from_integer(from) && high < Number::from_integer(100)
    };
    let after_core = |span: &Span| {
        said.key == StepKey::Heat
            || said
                .words
                .iter()
                .enumerate()
                .any(|(at, word)| word.span.start < span.end + 30 && said.tells_at(Sense::Core, at))
    };
    let found = temperatures(said.text)
        .into_iter()
        .filter(|mention| in_range(mention.temperature) && after_core(&mention.span));
    found.map(|mention| (mention.span, mention.temperature)).min_by_key(|(_, temperature)| temperature.celsius().1)
}

/// What is cooked in a step: by its component's ingredients and those of the components that go in.
fn dish(context: &Context<'_>, said: &Said<'_>, is_core: bool) -> Option<CookedDish> {
    let rooms = with_used(context, said.component);
    let rows: Vec<&Row> = rooms.iter().flat_map(|room| parts(context, *room)).map(|part| part.row).collect();
    if rows.iter().any(|row| row.is(Role::Poultry)) {
        return Some(POULTRY);
    }
    if rows.iter().any(|row| row.is(Role::MincedMeat)) {
        return Some(MINCED);
    }
    let names = rooms.iter().map(|room| context.recipe.components[*room].name.as_str());
    let names = names.chain([context.recipe.title.as_str()]).collect::<Vec<_>>().join(" ");
    let named = context.language().tells(Sense::EggDish, &names)
        || context.said_in(said.component).any(|other| other.step == said.step && other.tells(Sense::EggDishSurely));
    let eggs = rows.iter().any(|row| row.is(Role::RawEgg));
    (eggs && (named || is_core)).then_some(EGG)
}

/// Whether a later step, or one of a component that takes this one up, cooks it further.
fn cooked_later(context: &Context<'_>, said: &Said<'_>, least: i64) -> bool {
    let later = |other: &&Said<'_>| {
        let same = other.component == said.component && other.step > said.step;
        same || (other.component > said.component && context.uses(other.component, said.component))
    };
    let hot = |other: &Said<'_>| {
        let oven = other.key == StepKey::Oven
            || (other.key == StepKey::Do && (other.tells(Sense::Baked) || other.tells(Sense::Boiled)));
        oven || temperatures(other.text)
            .iter()
            .any(|mention| mention.temperature.celsius().1 >= Number::from_integer(least - 1))
    };
    context.said().filter(later).any(hot)
}
