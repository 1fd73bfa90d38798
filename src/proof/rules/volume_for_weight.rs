//! What it finds: a cup alone of something of which a cup weighs very different things in different hands.
//!
//! Why it matters: a cup of flour is 115 g spooned and 148 g scooped; that is another cake.
//!
//! Example: `2 cups plain flour`
//!
//! Instead: `250 g plain flour`; the cups are computed.
//!
//! Source: the pantry's range for the measure, where it is wider than a fifth. A workspace with `authority: cups` is
//! passed over.

use crate::measure::{Class, Dimension, Number, Unit};
use crate::pantry::Row;
use crate::proof::Context;
use crate::recipe::Ingredient;
use crate::source::Finding;
use crate::workspace::Authority;

/// A range wider than this share of the weight is too wide.
const WIDEST: f64 = 0.2;

const FAMILIES: [&str; 7] = ["flour", "starch", "cocoa", "chocolate", "sugar", "nut", "cheese"];

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    if context.site().authority == Authority::Cups {
        return Vec::new();
    }
    context.lines().filter_map(|(row, line)| by_volume(context, row?, line)).collect()
}

fn by_volume(context: &Context<'_>, row: &Row, ingredient: &Ingredient) -> Option<Finding> {
    let line = &ingredient.line;
    let kitchen = context.kitchen();
    let amount = line.amounts.first()?;
    let large = amount.unit.is_some_and(Unit::is_scooped) && amount.high >= Number::new(1, 4);
    let weighed = line.amounts.iter().any(|other| other.unit.is_some_and(|unit| unit.dimension() == Dimension::Weight));
    if !large || weighed || line.optional || row.class != Class::Structure || !FAMILIES.contains(&row.family.as_str()) {
        return None;
    }
    let range = kitchen.weigh_amount(line, 0, Some(row)).ok()?;
    if range.most.grams() - range.least.grams() < range.high.grams() * WIDEST {
        return None;
    }
    let words = kitchen.words();
    let span = ingredient.amounts.first().unwrap_or(&ingredient.span).clone();
    let written = context.recipe.source.slice(&span);
    let message = format!("`{written}` of {} weighs {}", line.name, words.weights(range.least, range.most));
    let found = Finding::at(span, message).label(format!("in cooks' hands ({})", range.source));
    Some(
        found.help(format!(
            "write the weight that you use, such as `{}`; the cups are computed",
            words.weight(range.high)
        )),
    )
}
