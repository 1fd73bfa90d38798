//! What it finds: two measures of one line that cannot be the same amount of the ingredient.
//!
//! Why it matters: one of them was said from memory, and half the readers will follow the wrong one.
//!
//! Example: `90 g (1/2 cup) buckwheat flour`
//!
//! Instead: `60 g (1/2 cup) buckwheat flour`, or the weight alone; the cups are computed.
//!
//! Source: the pantry's own figures, with the range that a measure weighs in cooks' hands. On top of that range a
//! pair may be off by the ingredient's tolerance and by the rounding of the stated weight (rules of the house).

use crate::facts::LineFacts;
use crate::kitchen::Kitchen;
use crate::pantry::Row;
use crate::proof::Context;
use crate::proof::pair::{Judged, agree, judged, volumes_agree};
use crate::proof::slip::slip;
use crate::recipe::Line;
use crate::source::Finding;

const RULE: &str = "stated-pair-disagrees";

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    context.facts.all_lines().filter_map(|line| disagreement(line, context.kitchen())).collect()
}

fn disagreement(facts: &LineFacts<'_>, kitchen: &Kitchen) -> Option<Finding> {
    let line = &facts.ingredient.line;
    if line.each || line.amounts.len() < 2 {
        return None;
    }
    (1..line.amounts.len()).find_map(|at| match volumes_agree(&line.amounts[0], &line.amounts[at], kitchen) {
        Some(true) => None,
        Some(false) => Some(volumes(facts, kitchen, at)),
        None => {
            let (first, second) = (judged(line, facts.row, 0, kitchen)?, judged(line, facts.row, at, kitchen)?);
            let (weight_at, measure_at) = if first.is_weight { (0, at) } else { (at, 0) };
            let (weight, measure) = if first.is_weight { (&first, &second) } else { (&second, &first) };
            (!agree(weight, measure)).then(|| finding(facts, kitchen, (weight_at, weight), (measure_at, measure)))
        }
    })
}

/// Two volumes that are not one.
fn volumes(facts: &LineFacts<'_>, kitchen: &Kitchen, at: usize) -> Finding {
    let (ingredient, row) = (facts.ingredient, facts.row);
    let line = &ingredient.line;
    let place = |at: usize| ingredient.amounts.get(at).unwrap_or(&ingredient.span).clone();
    let message = format!("`{}` is not `{}`", said(line, at, kitchen), said(line, 0, kitchen));
    let mut found = Finding::warning(RULE, place(at), message).other(place(0), "the other volume");
    if let (Some(first), Some(second)) = (judged(line, row, 0, kitchen), judged(line, row, at, kitchen))
        && let Some(slip) = slip((line, row), at, &first, &second, kitchen)
    {
        found = found.help(slip);
    }
    found
}

/// One of a line's amounts in words.
fn said(line: &Line, at: usize, kitchen: &Kitchen) -> String {
    let words = kitchen.words();
    let amount = &line.amounts[at];
    let low = words.number(amount.low);
    let number = if amount.low == amount.high { low } else { format!("{low}–{}", words.number(amount.high)) };
    match amount.unit.or(amount.size) {
        Some(unit) => format!("{number} {}", words.unit(unit, amount.high)),
        None => number,
    }
}

fn finding(
    facts: &LineFacts<'_>,
    kitchen: &Kitchen,
    (weight_at, weight): (usize, &Judged),
    (measure_at, measure): (usize, &Judged),
) -> Finding {
    let (ingredient, row) = (facts.ingredient, facts.row);
    let line = &ingredient.line;
    let words = kitchen.words();
    let weighs = words.weights(measure.weighed.low, measure.weighed.high);
    let of = if line.amounts[measure_at].unit.is_some() { "of " } else { "" };
    let (measured, stated) = (said(line, measure_at, kitchen), said(line, weight_at, kitchen));
    let message = format!("`{measured}` {of}{} weighs {weighs}, not {stated}", line.name);
    let percent = weight.weighed.high.error_percent(measure.weighed.high);
    let label = match percent {
        p if p > 0.0 => format!("{p:.0} % more than the measure weighs"),
        p => format!("{:.0} % less than the measure weighs", -p),
    };
    let place = |at: usize| ingredient.amounts.get(at).unwrap_or(&ingredient.span).clone();
    let range = words.weights(measure.weighed.least, measure.weighed.most);
    // Which of the two is right only the author knows: nothing is mended here.
    Finding::warning(RULE, place(weight_at), message)
        .label(label)
        .other(place(measure_at), format!("{range} in cooks' hands ({})", measure.weighed.source))
        .help(match slip((line, row), measure_at, weight, measure, kitchen) {
            Some(slip) => format!("{slip}; {}", help((line, row), kitchen, weight)),
            None => help((line, row), kitchen, weight),
        })
}

/// The measure that goes with the stated weight.
fn help((line, row): (&Line, Option<&Row>), kitchen: &Kitchen, weight: &Judged) -> String {
    let right = row.and_then(|row| {
        let counted = kitchen.is_counted(row, line).then(|| kitchen.count(row, line, weight.weighed.high));
        let count = counted.flatten().map(|counted| counted.short);
        count.or_else(|| kitchen.measure(row, line, weight.weighed.high).map(|measured| measured.text))
    });
    let shown = kitchen.words().weights(weight.weighed.low, weight.weighed.high);
    match right {
        Some(right) => format!("if the weight is right, write `{shown}` alone and the measure is computed: {right}"),
        None => format!("if the weight is right, write `{shown}` alone"),
    }
}
