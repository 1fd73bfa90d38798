//! What it finds: a yield by weight that the ingredients cannot give.
//!
//! Why it matters: portions, prices and tins are planned by it.
//!
//! Example: `makes: two 900 g loaves` from 1,000 g of dough
//!
//! Instead: `makes: two 450 g loaves`
//!
//! Source: rule of the house. Baking and straining take away up to half; nothing adds weight. A recipe with an amount that
//! cannot be weighed is passed over.

use crate::measure::{Unit, Weight};
use crate::proof::Context;
use crate::proof::shares::mass;
use crate::proof::words::{Word, words};
use crate::recipe::Ingredient;
use crate::source::Finding;

/// The least and most that the yield may be of what goes in.
const SHARES: (f64, f64) = (0.4, 1.06);

const NUMBERS: [&str; 13] =
    ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    disagreement(context).into_iter().collect()
}

fn disagreement(context: &Context<'_>) -> Option<Finding> {
    let makes = context.recipe.makes.as_deref()?;
    let stated = grams(makes)?;
    if context.lines().any(|(_, line)| !is_weighed(context, line)) {
        return None;
    }
    let all: f64 = (0..context.recipe.components.len()).map(|component| mass(context, component)).sum();
    let share = stated / all.max(1.0);
    if (SHARES.0..=SHARES.1).contains(&share) {
        return None;
    }
    let words = context.kitchen().words();
    let weight = |grams: f64| words.weight(Weight::from_milligrams((grams * 1000.0) as i64));
    let message = format!("`{makes}` is {}, and the ingredients weigh {}", weight(stated), weight(all));
    let label = if share > 1.0 { "more comes out than goes in" } else { "less than half comes out" };
    let span = context.recipe.root.key("makes").span.clone();
    Some(Finding::at(span, message).label(label).help("count the pieces and their weight again"))
}

/// Whether a line's weight is known, or too small to matter.
fn is_weighed(context: &Context<'_>, ingredient: &Ingredient) -> bool {
    let line = &ingredient.line;
    let tiny = |unit: Option<Unit>| matches!(unit, Some(Unit::Pinch | Unit::Dash | Unit::Drop));
    let small = line.to_taste
        || line.optional
        || line.amounts.is_empty()
        || line.amounts.iter().all(|amount| tiny(amount.unit));
    small || context.kitchen().weigh(line).is_ok()
}

/// `two 450 g loaves`, `12 rolls of 70 g`, `about 1.1 kg`: all of it in grams; none where no weight is said.
fn grams(makes: &str) -> Option<f64> {
    let said = words(&makes.replace(',', ""));
    let units = [("g", 1.0), ("gram", 1.0), ("kg", 1000.0), ("oz", 28.349_523_125), ("lb", 453.592_37)];
    let unit_of = |word: &str| units.iter().find(|(unit, _)| *unit == word).map(|(_, grams)| *grams);
    let at = said.iter().position(|word| unit_of(&word.stem).is_some() || is_joined(&word.written))?;
    let (number, factor, first) = if is_joined(&said[at].written) {
        let digits = said[at].written.trim_end_matches(char::is_alphabetic);
        let unit = unit_of(&said[at].written[digits.len()..])?;
        (decimal(&said, at, digits)?, unit, at)
    } else {
        let before = at.checked_sub(1)?;
        (decimal(&said, before, &said[before].written)?, unit_of(&said[at].stem)?, before)
    };
    let weight = number * factor;
    // The whole part of the weight's own number is no count.
    let before = if said[first].before == "." { first.saturating_sub(1) } else { first };
    let count = said[..before].iter().find_map(|word| count(&word.written));
    let range = makes.contains('–') || makes.contains('-');
    (!range).then_some(weight * count.unwrap_or(1.0))
}

/// `450g`.
fn is_joined(word: &str) -> bool {
    let unit = word.trim_start_matches(|c: char| c.is_ascii_digit());
    unit.len() < word.len() && matches!(unit, "g" | "kg" | "oz" | "lb")
}

/// A number with the part before its decimal point, which is a word of its own.
fn decimal(said: &[Word], at: usize, digits: &str) -> Option<f64> {
    let whole = at.checked_sub(1).filter(|_| said[at].before == ".").map(|at| said[at].written.clone());
    match whole {
        Some(whole) => format!("{whole}.{digits}").parse().ok(),
        None => digits.parse().ok(),
    }
}

fn count(word: &str) -> Option<f64> {
    let named = NUMBERS.iter().position(|name| *name == word).map(|number| number as f64);
    named.or_else(|| word.parse().ok()).filter(|number| *number > 0.0)
}
