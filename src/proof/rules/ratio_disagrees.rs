//! What it finds: a declared ratio that the weights do not have, or one that names an ingredient the component lacks.
//!
//! Why it matters: cooks remember and scale by the ratio.
//!
//! Example: `ratio: {of: [flour, butter], is: "2:1"}` over 200 g flour and 120 g butter
//!
//! Instead: `is: "5:3"`
//!
//! Source: rule of the house; a part may be off by 5 %, as a household cup may.

use crate::facts::LineFacts;
use crate::kitchen::Kitchen;
use crate::measure::{Number, Weight, decimals};
use crate::pantry::words;
use crate::proof::Context;
use crate::recipe::Ratio;
use crate::source::Finding;

/// How far a part may be off, in thousandths.
const SLACK_PER_MILLE: u32 = 50;

/// The largest number of a ratio that people say.
const LARGEST_TERM: i64 = 20;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let declared = context.recipe.components.iter().enumerate().filter_map(|(at, one)| Some((at, one.ratio.as_ref()?)));
    declared.filter_map(|(component, ratio)| judge(context, component, ratio)).collect()
}

fn judge(context: &Context<'_>, component: usize, ratio: &Ratio) -> Option<Finding> {
    let lines = &context.facts.lines[component];
    let mut weights = Vec::new();
    for name in &ratio.of {
        match weight(lines, name, context.kitchen()) {
            None => {
                let message = format!(
                    "the ratio names `{name}`, and no ingredient of {} is called so",
                    context.recipe.components[component].name
                );
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
fn weight(lines: &[LineFacts<'_>], name: &str, kitchen: &Kitchen) -> Option<Option<Weight>> {
    let wanted = words(name);
    let called = |is_called: &dyn Fn(&[String]) -> bool| -> Vec<&LineFacts<'_>> {
        lines.iter().filter(|line| is_called(&words(&line.ingredient.line.name))).collect()
    };
    let mut found = called(&|said| said.ends_with(&wanted));
    if found.is_empty() {
        found = called(&|said| said.windows(wanted.len().max(1)).any(|part| part == wanted));
    }
    if found.is_empty() {
        // The pantry may know it under another name.
        let row = kitchen.pantry().find(name)?;
        found = lines.iter().filter(|line| line.row.is_some_and(|own| own.id == row.id)).collect();
    }
    if found.is_empty() {
        return None;
    }
    let weights = found.iter().map(|line| line.weighed.as_ref().map(|weighed| weighed.high));
    Some(weights.collect::<Option<Vec<Weight>>>().map(|all| all.into_iter().fold(Weight::ZERO, Weight::plus)))
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
