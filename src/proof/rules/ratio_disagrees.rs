//! What it finds: a declared ratio that the weights do not have, or one that names an ingredient the component lacks.
//!
//! Why it matters: cooks remember and scale by the ratio.
//!
//! Example: `ratio: {of: [flour, butter], is: "2:1"}` over 200 g flour and 120 g butter
//!
//! Instead: `is: "5:3"`
//!
//! Source: rule of the house; a part may be off by 5 %, as a household cup may.

use crate::measure::{Number, Weight, decimals};
use crate::pantry::words;
use crate::proof::Context;
use crate::recipe::{Component, Ratio};
use crate::source::Finding;

/// How far a part may be off, in thousandths.
const SLACK_PER_MILLE: u32 = 50;

/// The largest number of a ratio that people say.
const LARGEST_TERM: i64 = 20;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let declared =
        context.recipe.components.iter().filter_map(|component| Some((component, component.ratio.as_ref()?)));
    declared.filter_map(|(component, ratio)| judge(context, component, ratio)).collect()
}

fn judge(context: &Context<'_>, component: &Component, ratio: &Ratio) -> Option<Finding> {
    let mut weights = Vec::new();
    for name in &ratio.of {
        match weight(context, component, name) {
            None => {
                let message = format!("the ratio names `{name}`, and no ingredient of {} is called so", component.name);
                let help = "name each by the end of its line's name: `flour` for `140 g plain flour`";
                return Some(Finding::at(ratio.span.clone(), message).help(help));
            }
            Some(None) => return None,
            Some(Some(weight)) => weights.push(weight),
        }
    }
    let base = weights[0].nanograms() as f64 / float(ratio.is[0]);
    let off = weights.iter().zip(&ratio.is).any(|(weight, part)| {
        let right = base * float(*part);
        (weight.nanograms() as f64 - right).abs() * 1000.0 > right * f64::from(SLACK_PER_MILLE)
    });
    off.then(|| finding(context, ratio, &weights))
}

/// What the lines of a name weigh together: none where there is none, nothing inside where one cannot be weighed.
fn weight(context: &Context<'_>, component: &Component, name: &str) -> Option<Option<Weight>> {
    let wanted = words(name);
    let is_called = |line: &str| {
        let said = words(line);
        said.ends_with(&wanted) || said.windows(wanted.len().max(1)).any(|part| part == wanted)
    };
    let exact: Vec<_> = component.ingredients.iter().filter(|line| words(&line.line.name).ends_with(&wanted)).collect();
    let lines = match exact.as_slice() {
        [] => component.ingredients.iter().filter(|line| is_called(&line.line.name)).collect(),
        _ => exact,
    };
    let lines = match lines.as_slice() {
        [] => same_row(context, component, name),
        _ => lines,
    };
    if lines.is_empty() {
        return None;
    }
    let weights = lines.iter().map(|line| context.kitchen().weigh(&line.line).ok().map(|weighed| weighed.high));
    Some(weights.collect::<Option<Vec<Weight>>>().map(|all| all.into_iter().fold(Weight::ZERO, Weight::plus)))
}

/// The lines that the pantry knows under another name.
fn same_row<'c>(context: &Context<'_>, component: &'c Component, name: &str) -> Vec<&'c crate::recipe::Ingredient> {
    let Some(wanted) = context.kitchen().pantry().find(name) else { return Vec::new() };
    let is_it = |line: &&crate::recipe::Ingredient| {
        context.kitchen().ingredient(&line.line).is_some_and(|row| row.id == wanted.id)
    };
    component.ingredients.iter().filter(is_it).collect()
}

fn finding(context: &Context<'_>, ratio: &Ratio, weights: &[Weight]) -> Finding {
    let shown: Vec<String> = ratio
        .of
        .iter()
        .zip(weights)
        .map(|(name, weight)| format!("{} {name}", context.kitchen().words().weight(*weight)))
        .collect();
    let said: Vec<String> = ratio.is.iter().map(|part| decimals(*part, 2, '.')).collect();
    let right = simplest(weights);
    let message = format!("the weights are {right}, not `{}`", said.join(":"));
    let found = Finding::at(ratio.span.clone(), message).label(shown.join(", "));
    let written = context.recipe.source.slice(&ratio.span);
    let quote = written.chars().next().filter(|c| matches!(c, '"' | '\'')).unwrap_or('"');
    found
        .help(format!("if the weights are right, write `{right}`"))
        .mend(ratio.span.clone(), format!("{quote}{right}{quote}"))
}

/// The weights as the smallest whole numbers within 2 %, else with one decimal against the smallest.
fn simplest(weights: &[Weight]) -> String {
    let grams: Vec<f64> = weights.iter().map(|weight| weight.grams()).collect();
    let least = grams.iter().copied().fold(f64::INFINITY, f64::min).max(f64::MIN_POSITIVE);
    for scale in 1..=LARGEST_TERM {
        let parts: Vec<f64> = grams.iter().map(|weight| weight / least * scale as f64).collect();
        if parts.iter().all(|part| (part - part.round()).abs() <= part * 0.02)
            && parts.iter().all(|part| *part <= 100.0)
        {
            return parts.iter().map(|part| format!("{part:.0}")).collect::<Vec<_>>().join(":");
        }
    }
    grams.iter().map(|weight| format!("{:.1}", weight / least)).collect::<Vec<_>>().join(":")
}

fn float(number: Number) -> f64 {
    *number.numer() as f64 / *number.denom() as f64
}
