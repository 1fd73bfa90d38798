//! What it finds: an amount below what the smallest spoon or a kitchen scale can measure, where it matters.
//!
//! Why it matters: whoever cannot weigh tenths of a gram puts in twice as much, or nothing.
//!
//! Example: `1/16 tsp baking soda`, `0.2 g instant yeast`
//!
//! Instead: `a pinch of`, a larger batch, or a part of a solution: `2 g of 1 g yeast in 10 g water`
//!
//! Source: a household set ends at 1/8 tsp (rule of the house). Salt and spices may be pinched.

use crate::facts::LineFacts;
use crate::kitchen::Kitchen;
use crate::measure::{Class, Dimension, Number, Unit};
use crate::proof::Context;
use crate::recipe::Amount;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    context.facts.all_lines().filter_map(|line| too_small(context, line)).collect()
}

fn too_small(context: &Context<'_>, facts: &LineFacts<'_>) -> Option<Finding> {
    let ingredient = facts.ingredient;
    let line = &ingredient.line;
    let (at, amount) = line.amounts.iter().enumerate().find(|(_, amount)| amount.unit.is_some())?;
    let other =
        |wanted: Dimension| line.amounts.iter().any(|other| other.unit.is_some_and(|unit| unit.dimension() == wanted));
    let unit = amount.unit?;
    let span = ingredient.amounts.get(at).unwrap_or(&ingredient.span).clone();
    let number = context.recipe.source.slice(&span);
    let message = match unit.dimension() {
        Dimension::Volume if is_below_set(amount, unit) && !other(Dimension::Weight) => {
            format!("`{number}` is less than the smallest spoon of a set, 1/8 tsp")
        }
        Dimension::Weight if line.amounts.len() == 1 && must_be_weighed(context.kitchen(), facts)? => {
            format!("`{number}` of {} is less than 1/8 tsp, and it matters", line.name)
        }
        _ => return None,
    };
    let help = "say `a pinch` where that will do, or make it part of a larger amount that can be measured";
    Some(Finding::at(span, message).label("who can measure this?").help(help))
}

fn is_below_set(amount: &Amount, unit: Unit) -> bool {
    let eighth = Number::new(1, 8);
    unit == Unit::Tsp && amount.high < eighth || unit == Unit::Tbsp && amount.high * 3 < eighth
}

/// Whether a weight is one that no spoon measures, of something that must not be guessed.
fn must_be_weighed(kitchen: &Kitchen, facts: &LineFacts<'_>) -> Option<bool> {
    let row = facts.row?;
    if !matches!(row.class, Class::Leavening | Class::Gelling) {
        return Some(false);
    }
    let weighed = facts.weighed.as_ref()?;
    let measured = kitchen.measure(row, &facts.ingredient.line, weighed.high)?;
    Some(measured.weigh && measured.measure.is_none())
}
