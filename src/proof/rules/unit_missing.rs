//! What it finds: a number without a unit before something that does not come in pieces.
//!
//! Why it matters: the line is read as a number of pieces, so it cannot be weighed, scaled or bought.
//!
//! Example: `100 plain flour`
//!
//! Instead: `100 g plain flour`
//!
//! Source: rule of the house.

use crate::measure::{Dimension, Number};
use crate::pantry::Row;
use crate::proof::Context;
use crate::recipe::Ingredient;
use crate::source::Finding;

/// From here up even what comes in pieces is hardly counted.
const TOO_MANY: i64 = 75;

/// What is never counted, whatever its measures.
const MASSES: [&str; 11] =
    ["flour", "sugar", "syrup", "starch", "salt", "cocoa", "oil", "liquid", "leavening", "dairy", "fat"];

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    context.lines().filter_map(|(row, line)| bare(context, row?, line)).collect()
}

fn bare(context: &Context<'_>, row: &Row, ingredient: &Ingredient) -> Option<Finding> {
    let line = &ingredient.line;
    let [amount] = line.amounts.as_slice() else { return None };
    if amount.unit.is_some() || amount.size.is_some() {
        return None;
    }
    let many = amount.high >= Number::from_integer(if comes_in_pieces(row) { TOO_MANY } else { 10 });
    let mass = MASSES.contains(&row.family.as_str()) && !comes_in_pieces(row);
    if !many && !mass {
        return None;
    }
    let number = context.kitchen().words().number(amount.high);
    let span = ingredient.amounts.first().unwrap_or(&ingredient.span).clone();
    let found = Finding::at(span, format!("`{number}` of {} has no unit", line.name)).label("grams, cups or pieces?");
    Some(found.help(format!("write the unit: `{number} g {}`", line.name)))
}

fn comes_in_pieces(row: &Row) -> bool {
    row.measures.iter().any(|measure| measure.of.dimension() == Dimension::Count && !measure.of.is_pinched())
}
