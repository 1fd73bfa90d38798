//! What it finds: gelatine, agar, pectin or a gum far outside its usual share of what it sets.
//!
//! Why it matters: the one end runs, the other bounces.
//!
//! Example: `80 g gelatine` in 750 g of cream and milk
//!
//! Instead: `8 g gelatine`
//!
//! Source: mousses 0.6 to 1.1 %, set creams 0.8 to 1.3 %, jellies 0.9 to 1.6 % of 200 bloom gelatine (a trade table);
//! agar 0.2 to 1.5 %, pectin 0.3 to 2 %, gums under 1 % (common practice). Found are those well beyond; marshmallows,
//! sweets, glazes and gelatine mass are passed over.

use crate::language::Sense;
use crate::pantry::Role;
use crate::proof::Context;
use crate::proof::shares::{Usual, grams, judged, mass, parts, unusual, usual, with_used};
use crate::source::Finding;

/// Usual shares, and those that pass.
const SHARES: [Usual; 4] = [
    (Role::DryGelatine, "0.6 to 1.6 %", 0.15, 4.0),
    (Role::Agar, "0.2 to 1.5 %", 0.08, 3.0),
    (Role::Pectin, "0.3 to 2 %", 0.02, 5.0),
    (Role::Gum, "up to 1 %", 0.0, 3.0),
];

/// So much of the most that passes may be left in what it ends in.
const IN_THE_END: f64 = 0.6;

/// So much of the most that passes sets what is to tremble. Common practice: panna cotta has 0.8 to 1.3 % gelatine.
const SOFTLY: f64 = 0.6;

/// Less than this is not set on its own, in grams.
const SMALL: f64 = 60.0;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    judged(context).flat_map(|component| in_component(context, component)).collect()
}

fn in_component(context: &Context<'_>, component: usize) -> Vec<Finding> {
    let names = format!("{} {}", context.recipe.title, context.recipe.components[component].name).to_lowercase();
    let own = parts(context, component);
    let of_others = mass(context, component) - grams(&own, |row| row.family == "gelling");
    let only_water = own.iter().all(|part| part.row.family == "gelling" || part.row.is(Role::Water));
    let later = (component + 1..context.recipe.components.len()).filter(|later| context.uses(*later, component));
    let whole = |room: usize| with_used(context, room).iter().map(|room| mass(context, *room)).sum::<f64>();
    let in_the_end = later.map(whole).fold(0.0, f64::max);
    if context.language().tells(Sense::FirmJelly, &names) || only_water || of_others < SMALL {
        return Vec::new();
    }
    let summary = context.recipe.summary.as_deref().unwrap_or_default();
    let trembles = context.language().tells(Sense::SoftlySet, summary)
        || context.said_in(component).any(|said| said.tells(Sense::SoftlySet));
    let with_used = whole(component);
    let judged = own.iter().filter_map(|part| {
        let (_, usual, least, most) = usual(&SHARES, part)?;
        let most = if trembles { most * SOFTLY } else { most };
        let of_own = part.grams * 100.0 / of_others.max(1.0);
        let of_all = part.grams * 100.0 / with_used.max(1.0);
        // A base that later takes up cream or fruit holds more than the whole will; and not all of that is set.
        let thinned = part.grams * 100.0 < most * IN_THE_END * in_the_end;
        let high = of_all > most && !(thinned && of_all < most * 2.0);
        let share = if high { of_all } else { of_own };
        (high || of_own < least).then(|| {
            unusual(part, share, "what it sets", usual).help("check the decimal point, the unit and the grade")
        })
    });
    judged.collect()
}
