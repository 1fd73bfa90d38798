//! What it finds: baking powder, soda or yeast far outside its usual share of the flour.
//!
//! Why it matters: a slipped decimal point makes bricks, or soap.
//!
//! Example: `50 g baking powder` on 200 g flour
//!
//! Instead: `8 g baking powder`
//!
//! Source: common practice. Usual shares of the flour: baking powder 2 to 6 %, soda 0.5 to 2 %, dried yeast 0.1 to 3 %,
//! fresh yeast 0.5 to 8 %; found are those well beyond.

use crate::pantry::Role;
use crate::proof::Context;
use crate::proof::shares::{Usual, WeighedPart, grams, is_flour, is_yeast, judged, parts, unusual, usual};
use crate::source::Finding;

/// Usual shares, and those that pass.
const SHARES: [Usual; 6] = [
    (Role::BakingPowder, "2 to 6 %", 0.5, 10.0),
    (Role::BakingSoda, "0.5 to 2 %", 0.05, 4.0),
    (Role::BakingAmmonia, "0.5 to 2 %", 0.05, 4.0),
    (Role::Potash, "0.5 to 2 %", 0.05, 4.0),
    (Role::DriedYeast, "0.1 to 3 %", 0.01, 5.0),
    (Role::FreshYeast, "0.5 to 8 %", 0.02, 12.0),
];

/// A component with less flour than this share of its weight is not raised by it.
const LEAST_FLOUR: f64 = 0.15;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    judged(context).flat_map(|at| among(&raised(context, at)).into_iter().chain(too_slow(context, at))).collect()
}

/// What a component's raisers raise: its own lines, and the flour of what a starter or a sponge goes into.
fn raised<'a>(context: &Context<'a>, component: usize) -> Vec<WeighedPart<'a>> {
    let own = parts(context, component);
    let later = (component + 1..context.recipe.components.len()).filter(|later| context.uses(*later, component));
    let flour = later.flat_map(|later| parts(context, later)).filter(|part| is_flour(part.row));
    let flour: Vec<WeighedPart<'a>> = flour.collect();
    // What is flour in one alone is a paste and no dough.
    if own.iter().any(|part| is_yeast(part.row)) { own.into_iter().chain(flour).collect() } else { own }
}

/// Yeast that is too little for the hours that it is given. Common practice: 0.4 % dried or 1 % fresh doubles a dough in
/// three hours at room temperature.
fn too_slow(context: &Context<'_>, component: usize) -> Option<Finding> {
    const SLOWLY: u64 = 4 * 3600;
    const LEAST: [(Role, f64); 2] = [(Role::DriedYeast, 0.25), (Role::FreshYeast, 0.7)];
    let own = parts(context, component);
    let starter =
        own.iter().any(|part| part.row.is(Role::Starter)) || !context.recipe.components[component].uses.is_empty();
    let flour = grams(&own, is_flour);
    let (part, least) =
        own.iter().find_map(|part| Some((part, LEAST.iter().find(|(role, _)| part.row.is(*role))?.1)))?;
    let share = part.grams * 100.0 / flour.max(1.0);
    let later =
        (component..context.recipe.components.len()).filter(|at| *at == component || context.uses(*at, component));
    let waits = later.flat_map(|at| &context.recipe.components[at].steps).filter_map(|step| step.wait);
    let waits: Vec<u64> = waits.map(|wait| wait.high).collect();
    let hours: u64 = waits.iter().sum();
    let told = !waits.is_empty() && hours <= SLOWLY && share < least * 0.6 && share >= 0.02 && flour > 0.0 && !starter;
    told.then(|| {
        unusual(part, share, "the flour", if least < 0.5 { "0.4 to 1.5 %" } else { "1 to 4 %" })
            .label(format!("with {} to rise", context.language().duration(crate::measure::Duration::seconds(hours))))
            .help("check the decimal point and the unit, or give it a night")
    })
}

fn among(parts: &[WeighedPart<'_>]) -> Vec<Finding> {
    let flour =
        grams(parts, |row| is_flour(row) || matches!(row.family.as_str(), "starch" | "grain" | "cocoa" | "nut"));
    let all = grams(parts, |_| true);
    if grams(parts, is_flour) < all * LEAST_FLOUR || flour <= 0.0 {
        return Vec::new();
    }
    let raisers = parts.iter().filter(|part| part.row.family == "leavening" || is_yeast(part.row)).count();
    let self_raising = parts.iter().any(|part| part.row.is(Role::SelfRaising));
    let eggs = grams(parts, |row| row.family == "egg");
    let alone = raisers == 1 && !self_raising && eggs < flour * 0.6;
    let judged = parts.iter().filter_map(|part| {
        let (_, usual, least, most) = usual(&SHARES, part)?;
        let share = part.grams * 100.0 / flour;
        let wrong = share > most || (alone && share < least);
        wrong.then(|| {
            unusual(part, share, "the flour", usual)
                .label(format!("on {flour:.0} g of flour and the like"))
                .help("check the decimal point and the unit")
        })
    });
    judged.collect()
}
