//! What it finds: an amount that no component of its kind has, where one slip explains it: a digit too many or too few,
//! ounces written as grams, a tablespoon for a teaspoon, two lines swapped.
//!
//! Why it matters: the dish fails for everybody who follows it, and the cook on camera never used that amount.
//!
//! Example: `20 g plain flour` in a sponge with four eggs
//!
//! Instead: `120 g plain flour`
//!
//! Source: shares of many kinds of component, mostly common practice, in `src/facts/kinds/`. The kind is told by the
//! name, the parts and the steps; where it is not told, nothing is said. `allow:` the rule for a formula of your own.

use super::{gelling_unusual, leavening_unusual, salt_unusual};
use crate::facts::{Oddity, Slip};
use crate::proof::Context;
use crate::proof::shares::weight;
use crate::recipe::Ingredient;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let components = 0..context.recipe.components.len();
    let odd = components.filter_map(|component| Some((component, context.facts.oddity(component)?)));
    let mut findings: Vec<Finding> = odd.map(|(component, oddity)| finding(context, component, &oddity)).collect();
    if !findings.is_empty() {
        // What salt, raising and gelling tell by rules of their own is not told twice.
        let others = [salt_unusual::check, leavening_unusual::check, gelling_unusual::check];
        let told: Vec<Finding> = others.into_iter().flat_map(|check| check(context)).collect();
        findings.retain(|found| !told.iter().any(|other| other.span == found.span));
    }
    findings
}

fn finding(context: &Context<'_>, component: usize, oddity: &Oddity) -> Finding {
    let entry = &context.recipe.components[component];
    let line = |at: usize| &entry.ingredients[at];
    let place = |line: &Ingredient| line.amounts.first().unwrap_or(&line.span).clone();
    let at = match oddity.slip {
        Slip::Amount { line, .. } | Slip::Swapped(line, _) => line,
    };
    let percent = |share: f64| if share < 10.0 { format!("{share:.1}") } else { format!("{share:.0}") };
    let (from, to) = oddity.usual;
    let (share, part, kind) = (percent(oddity.share), oddity.part, &oddity.kind);
    let message = match oddity.base {
        "serving" | "plate" if from <= 0.0 => {
            format!("{part} is {share} g a serving; up to {} g is usual", percent(to))
        }
        "serving" | "plate" => {
            format!("{part} is {share} g a serving; {} to {} g is usual in {kind}", percent(from), percent(to))
        }
        base if from <= 0.0 => format!("{part} is {share} % of the {base}; up to {} % is usual in {kind}", percent(to)),
        base => format!("{part} is {share} % of the {base}; {} to {} % is usual in {kind}", percent(from), percent(to)),
    };
    let mut found = Finding::at(place(line(at)), message);
    if entry.name.to_lowercase() != oddity.kind.to_lowercase() {
        found = found.label(format!("{} is taken for {}", entry.name, oddity.kind));
    }
    match oddity.slip {
        Slip::Amount { grams, .. } => {
            let weight = weight(context, grams);
            found.help(format!("`{weight}` of {} would be usual; check the digits and the unit", line(at).line.name))
        }
        Slip::Swapped(_, other) => {
            let (one, two) = (&line(at).line.name, &line(other).line.name);
            found.other(place(line(other)), "the other").help(format!("are the amounts of {one} and {two} swapped?"))
        }
    }
}
