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

use crate::kitchen::{Kitchen, Weighed};
use crate::measure::{Class, Dimension, Number, Unit, Weight};
use crate::proof::Context;
use crate::recipe::{Amount, Fullness, Ingredient, Line};
use crate::source::Finding;

const RULE: &str = "stated-pair-disagrees";

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    context.lines().filter_map(|(_, line)| disagreement(line, context.kitchen())).collect()
}

fn disagreement(ingredient: &Ingredient, kitchen: &Kitchen) -> Option<Finding> {
    let line = &ingredient.line;
    if line.each || line.amounts.len() < 2 {
        return None;
    }
    let first = judged(line, 0, kitchen)?;
    (1..line.amounts.len()).find_map(|at| {
        let second = judged(line, at, kitchen)?;
        let (weight_at, measure_at) = if first.is_weight { (0, at) } else { (at, 0) };
        let (weight, measure) = if first.is_weight { (&first, &second) } else { (&second, &first) };
        (!agree(weight, measure)).then(|| finding(ingredient, kitchen, (weight_at, weight), (measure_at, measure)))
    })
}

/// An amount with what it weighs and how far it may be off.
struct Judged {
    weighed: Weighed,
    is_weight: bool,
    tolerance_per_mille: u32,
    rounding: Weight,
}

/// Containers hold what their maker puts in; only what is measured or counted is judged.
fn is_container(amount: &Amount) -> bool {
    let varies = matches!(amount.unit, Some(Unit::Bunch | Unit::Head | Unit::Sprig | Unit::Stalk | Unit::Piece));
    varies || amount.unit.is_some_and(Unit::is_container)
}

fn judged(line: &Line, at: usize, kitchen: &Kitchen) -> Option<Judged> {
    let amount = line.amounts.get(at).filter(|amount| !is_container(amount))?;
    let row = kitchen.ingredient(line);
    let mut weighed = kitchen.weigh_amount(line, at, row).ok()?;
    let is_weight = amount.unit.is_some_and(|unit| unit.dimension() == Dimension::Weight);
    if amount.fullness == Some(Fullness::Heaped) {
        // A heaped spoon holds up to twice a level one. Common practice.
        weighed.most = weighed.most.plus(weighed.most);
    }
    let class = row.map_or(Class::Structure, |row| row.class);
    let rounding = if is_weight { rounding(amount, weighed.low, class) } else { Weight::ZERO };
    Some(Judged { weighed, is_weight, tolerance_per_mille: class.tolerance_per_mille(), rounding })
}

/// Half of the last place stated: 0.5 g of `122 g`, 0.05 g of `1.5 g`; at most a tenth of a weight that must be exact.
fn rounding(amount: &Amount, weight: Weight, class: Class) -> Weight {
    let place = amount.unit.and_then(|unit| Weight::of(Number::from_integer(1), unit)).and_then(Result::ok);
    let half_place = place.unwrap_or(Weight::ZERO).nanograms() / 2 / amount.low.denom().clamp(&1, &100);
    let exact = matches!(class, Class::Leavening | Class::Gelling | Class::Salt);
    let most = weight.nanograms() / if exact { 10 } else { 6 };
    Weight::from_nanograms(half_place.min(most))
}

/// Whether the weight lies within what the measure can weigh.
fn agree(weight: &Judged, measure: &Judged) -> bool {
    let slack = |bound: Weight| {
        let tolerance = bound.nanograms() / 1000 * i64::from(measure.tolerance_per_mille);
        tolerance + weight.rounding.nanograms().max(measure.rounding.nanograms())
    };
    let least = measure.weighed.least.nanograms() - slack(measure.weighed.least);
    let most = measure.weighed.most.nanograms() + slack(measure.weighed.most);
    weight.weighed.high.nanograms() >= least && weight.weighed.low.nanograms() <= most
}

fn finding(
    ingredient: &Ingredient,
    kitchen: &Kitchen,
    (weight_at, weight): (usize, &Judged),
    (measure_at, measure): (usize, &Judged),
) -> Finding {
    let line = &ingredient.line;
    let words = kitchen.words();
    let said = |at: usize| {
        let amount = &line.amounts[at];
        let low = words.number(amount.low);
        let number = if amount.low == amount.high { low } else { format!("{low}–{}", words.number(amount.high)) };
        amount.unit.map_or(number.clone(), |unit| format!("{number} {}", words.unit(unit, amount.high)))
    };
    let weighs = words.weights(measure.weighed.low, measure.weighed.high);
    let message = format!("`{}` of {} weighs {weighs}, not {}", said(measure_at), line.name, said(weight_at));
    let percent = weight.weighed.high.error_percent(measure.weighed.high);
    let label = match percent {
        p if p > 0.0 => format!("{p:.0} % more than the measure weighs"),
        p => format!("{:.0} % less than the measure weighs", -p),
    };
    let place = |at: usize| ingredient.amounts.get(at).unwrap_or(&ingredient.span).clone();
    let range = words.weights(measure.weighed.least, measure.weighed.most);
    Finding::warning(RULE, place(weight_at), message)
        .label(label)
        .other(place(measure_at), format!("{range} in cooks' hands ({})", measure.weighed.source))
        .help(help(line, kitchen, weight))
}

/// The measure that goes with the stated weight.
fn help(line: &Line, kitchen: &Kitchen, weight: &Judged) -> String {
    let right = kitchen.ingredient(line).and_then(|row| {
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
