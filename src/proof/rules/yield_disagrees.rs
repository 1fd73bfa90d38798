//! What it finds: a yield by weight that the ingredients cannot give.
//!
//! Why it matters: portions, prices and tins are planned by it.
//!
//! Example: `makes: two 900 g loaves` from 1,000 g of dough
//!
//! Instead: `makes: two 450 g loaves`
//!
//! Source: rule of the house. Baking takes away up to half; nothing adds weight. What is fried, strained, cured or boiled
//! down may leave less, and a recipe with an amount that cannot be weighed is passed over.

use crate::facts::LineFacts;
use crate::language::{Language, Sense, Word};
use crate::measure::Weight;
use crate::proof::Context;
use crate::proof::shares::mass;
use crate::source::Finding;
use crate::text::quantities;

/// The least and most that the yield may be of what goes in.
const SHARES: (f64, f64) = (0.4, 1.06);

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    disagreement(context).into_iter().collect()
}

fn disagreement(context: &Context<'_>) -> Option<Finding> {
    let makes = context.recipe.makes.as_deref()?;
    let stated = grams(makes, context.language())?;
    if !context.facts.all_lines().all(is_weighed) {
        return None;
    }
    let all: f64 = (0..context.recipe.components.len()).map(|component| mass(context, component)).sum();
    let share = stated / all.max(1.0);
    if (SHARES.0..=SHARES.1).contains(&share) {
        return None;
    }
    if share < SHARES.0 && is_one_of_several(makes, context.language()) {
        return None;
    }
    if share < SHARES.0 && context.said().any(|said| said.tells(Sense::Loss)) {
        return None;
    }
    let words = context.kitchen().words();
    let weight = |grams: f64| words.weight(Weight::from_milligrams((grams * 1000.0) as i64));
    let message = format!("`{makes}` is {}, and the ingredients weigh {}", weight(stated), weight(all));
    let label = if share > 1.0 { "more comes out than goes in" } else { "less than half comes out" };
    let span = context.recipe.root.key("makes").span.clone();
    Some(Finding::at(span, message).label(label).help("count the pieces and their weight again"))
}

/// `10 scones and four 370 g jars`: the weight is that of a part.
fn is_one_of_several(makes: &str, language: &Language) -> bool {
    makes.contains(',') || language.tells(Sense::JoinsClauses, makes)
}

/// Whether a line's weight is known, or too small to matter.
pub(super) fn is_weighed(facts: &LineFacts<'_>) -> bool {
    facts.weighed.is_some() || facts.is_slight()
}

/// `two 450 g loaves`, `12 rolls of 70 g`, `about 1.1 kg`: all of it in grams; none where no weight is said.
fn grams(makes: &str, language: &Language) -> Option<f64> {
    pieces(makes, language).map(|(weight, count)| weight * count.unwrap_or(1) as f64)
}

/// What a piece weighs in grams, and how many there are where that is said.
pub(super) fn pieces(makes: &str, language: &Language) -> Option<(f64, Option<i64>)> {
    let said = language.read(makes);
    let quantities = quantities(makes, &said, language);
    let (weighed, weight) = quantities.iter().find_map(|quantity| quantity.grams().map(|grams| (quantity, grams)))?;
    let first = said.partition_point(|word| word.span.start < weighed.span.start);
    // Of `8 pots and about 900 g sorbet` the eight are other things.
    let apart = |word: &Word| word.before.contains([',', ';', '+']) || language.lexicon(Sense::JoinsClauses).has(word);
    let same: Vec<&Word> = said[..=first].iter().rev().take_while(|word| !apart(word)).collect();
    let count = same.into_iter().skip(1).find_map(|word| language.count(&word.written).filter(|count| *count > 0));
    (weighed.low == weighed.high).then_some((weight, count))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn yields_are_read_as_cooks_write_them() {
        let case = |makes: &str, wanted: Option<f64>| {
            assert_eq!(grams(makes, &Language::default()).map(f64::round), wanted, "{makes}")
        };
        case("about 1 1/2 lb", Some(680.0));
        case("two 1/2 kg loaves", Some(1000.0));
        case("two 450 g loaves", Some(900.0));
        case("12 rolls of 70g", Some(840.0));
        case("about 1.1 kg", Some(1100.0));
        case("one 24 cm tart", None);
    }
}
