//! What it finds: a part of something that comes in pieces and cannot be divided by eye.
//!
//! Why it matters: nobody can crack 1.3 eggs; each reader rounds another way.
//!
//! Example: `1.3 large eggs`
//!
//! Instead: `65 g egg, beaten`; whole eggs and a spoonful are computed.
//!
//! Source: rule of the house. Halves, thirds and quarters of fruit, pods and sheets can be cut; of an egg only what is
//! beaten can be divided.

use crate::facts::LineFacts;
use crate::language::Sense;
use crate::measure::{Dimension, Number, Unit};
use crate::pantry::{Role, Row};
use crate::proof::Context;
use crate::recipe::Amount;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    context.facts.all_lines().filter_map(|line| part(context, line.row?, line)).collect()
}

fn part(context: &Context<'_>, row: &Row, facts: &LineFacts<'_>) -> Option<Finding> {
    let ingredient = facts.ingredient;
    let line = &ingredient.line;
    let amount = line.amounts.first()?;
    let counted = |amount: &Amount| amount.unit.is_none_or(is_piece);
    let has_other = line.amounts.iter().any(|amount| !counted(amount));
    if has_other || !counted(amount) || (amount.high.is_integer() && amount.low.is_integer()) {
        return None;
    }
    let texts = [Some(&line.name), line.prep.as_ref(), line.note.as_ref()];
    let beaten = texts.into_iter().flatten().any(|text| context.language().tells(Sense::Beaten, text));
    let egg = row.is_any(&[Role::WholeEgg, Role::EggWhite, Role::EggYolk]);
    let cuttable = |number: Number| matches!(*number.denom(), 1 | 2 | 3 | 4 | 8);
    if (egg && beaten) || (!egg && cuttable(amount.low) && cuttable(amount.high)) {
        return None;
    }
    let kitchen = context.kitchen();
    let number = kitchen.words().number(amount.high);
    let span = ingredient.amounts.first().unwrap_or(&ingredient.span).clone();
    let found =
        Finding::at(span, format!("`{number}` of {} is not a whole number", line.name)).label("who can measure this?");
    Some(match &facts.weighed {
        Some(weighed) => found.help(format!("write the weight: `{}`", kitchen.words().weight(weighed.high))),
        None => found.help("write the weight"),
    })
}

fn is_piece(unit: Unit) -> bool {
    unit.dimension() == Dimension::Count && !unit.is_divided()
}
