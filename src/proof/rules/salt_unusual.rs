//! What it finds: salt far outside its usual share of the flour or of the whole.
//!
//! Why it matters: one slipped decimal point, and nothing of the batch can be eaten.
//!
//! Example: `50 g fine salt` in a dough of 500 g flour
//!
//! Instead: `10 g fine salt`
//!
//! Source: common practice: 1.5 to 2.5 % of the flour in yeast doughs, up to 0.8 % of what is sweet, up to 2 % of the whole
//! elsewhere; brines and salted vegetables up to 12 %. Found are those well beyond. Cures, rubs and crusts are passed over.

use crate::language::Sense;
use crate::pantry::{Role, Row};
use crate::proof::Context;
use crate::proof::shares::{WeighedPart, grams, is_flour, is_yeast, judged, mass, parts, percent, with_used};
use crate::source::Finding;

/// The least and most of the flour in a yeast dough, in per cent.
const OF_FLOUR: (f64, f64) = (0.4, 3.5);

/// The most of the whole, in per cent.
const OF_ALL: f64 = 2.4;

/// The most of what is sweet, in per cent, and how much of it is sugar.
const OF_SWEET: f64 = 0.9;
const SWEET: f64 = 12.0;

/// The most of vegetables and fruit that lie in salt, in per cent.
const OF_PICKLE: f64 = 16.0;

/// Less than this is seasoned by the pinch, in grams.
const SMALL: f64 = 120.0;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    judged(context).filter_map(|component| unusual(context, component)).collect()
}

fn unusual(context: &Context<'_>, component: usize) -> Option<Finding> {
    let own = parts(context, component);
    let salts: Vec<&WeighedPart<'_>> = own.iter().filter(|part| part.row.family == "salt").collect();
    let salt: f64 = salts.iter().map(|part| part.grams).sum();
    let first = salts.first()?;
    let names = format!("{} {}", context.recipe.title, context.recipe.components[component].name).to_lowercase();
    let salty = context.language().tells(Sense::Salty, &names)
        || context.language().tells(Sense::SaltyName, &context.recipe.components[component].name)
        || context.said_in(component).any(|said| said.tells(Sense::Salty))
        || context.facts.is_rinsed_off(component, first.line)
        || lies_in_salt(context, component, &own);
    let all = mass(context, component);
    if all < SMALL {
        return None;
    }
    let of_all = salt * 100.0 / all;
    if salty {
        let pickle = grams(&own, is_plant) > all * 0.3;
        return (pickle && of_all > OF_PICKLE).then(|| finding(first, of_all, "whole", "up to 12 %"));
    }
    let rooms = with_used(context, component);
    let within: Vec<WeighedPart<'_>> = rooms.iter().flat_map(|room| parts(context, *room)).collect();
    let starter = grams(&within, |row| row.is(Role::Starter));
    let flour = grams(&within, is_flour) + starter / 2.0;
    let is_dough = within.iter().any(|part| is_yeast(part.row)) && grams(&own, is_flour) > all * 0.3;
    let share = salt * 100.0 / flour.max(1.0);
    if is_dough {
        let usual = (OF_FLOUR.0..=OF_FLOUR.1).contains(&share);
        return (!usual).then(|| finding(first, share, "flour", "1.5 to 2.5 %"));
    }
    // A caramel may be salted.
    let caramel = context.language().tells(Sense::Caramel, &names) || context.language().tells(Sense::Toffee, &names);
    if is_sweet(&own, all) && !caramel && of_all > OF_SWEET {
        return Some(finding(first, of_all, "whole", "up to 0.8 %"));
    }
    (of_all > OF_ALL).then(|| finding(first, of_all, "whole", "up to 2 %"))
}

/// Fruit, vegetables and leaves that stand for days: lemons in salt, a lime pickle, a ferment by any name.
fn lies_in_salt(context: &Context<'_>, component: usize, own: &[WeighedPart<'_>]) -> bool {
    const DAYS: u64 = 3 * 86_400;
    let later = |at: &usize| *at == component || context.uses(*at, component);
    let steps = (0..context.recipe.components.len()).filter(later).flat_map(|at| &context.recipe.components[at].steps);
    let stands: u64 = steps.filter_map(|step| step.wait).map(|wait| wait.high).fold(0, u64::saturating_add);
    // What the pantry does not know may be a fruit.
    let all = mass(context, component);
    stands >= DAYS && all - grams(own, |row| !is_plant(row)) > all * 0.3
}

fn is_plant(row: &Row) -> bool {
    matches!(row.family.as_str(), "vegetable" | "fruit" | "herb")
}

/// Much sugar, and nothing that makes it a chutney or a marinade.
fn is_sweet(own: &[WeighedPart<'_>], all: f64) -> bool {
    const SAVOURY: [&str; 9] = ["vegetable", "meat", "poultry", "fish", "condiment", "acid", "cheese", "pulse", "herb"];
    grams(own, |row| row.family == "sugar") * 100.0 > all * SWEET
        && grams(own, |row| SAVOURY.contains(&row.family.as_str())) <= 0.0
}

fn finding(part: &WeighedPart<'_>, share: f64, of: &str, usual: &str) -> Finding {
    let line = &part.ingredient;
    let message = format!("{} is {} of the {of}; {usual} is usual", line.line.name, percent(share));
    let span = line.amounts.first().unwrap_or(&line.span).clone();
    Finding::at(span, message).help("check the decimal point and the unit")
}
