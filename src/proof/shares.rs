//! What the parts of a component weigh against each other.

use super::Context;
use crate::facts::LineFacts;
use crate::measure::Weight;
use crate::pantry::{Role, Row};
use crate::recipe::Ingredient;
use crate::source::Finding;

/// A line that could be weighed.
#[derive(Debug)]
pub(super) struct WeighedPart<'a> {
    /// The line.
    pub ingredient: &'a Ingredient,
    /// Its place in its component.
    pub line: usize,
    /// What it is.
    pub row: &'a Row,
    /// Its weight.
    pub grams: f64,
}

/// How much of an ingredient is usual: its role, the share in words, and the least and most that pass, in per cent.
pub(super) type Usual = (Role, &'static str, f64, f64);

/// What is usual of a part's ingredient.
pub(super) fn usual(table: &[Usual], part: &WeighedPart<'_>) -> Option<Usual> {
    table.iter().copied().find(|(role, ..)| part.row.is(*role))
}

/// That a part's share is unusual, at its amount.
pub(super) fn unusual(part: &WeighedPart<'_>, share: f64, of: &str, usual: &str) -> Finding {
    let line = &part.ingredient;
    let message = format!("{} is {} of {of}; {usual} is usual", line.line.name, percent(share));
    Finding::at(line.amounts.first().unwrap_or(&line.span).clone(), message)
}

/// The components whose shares are held against what is usual everywhere: those of which the kitchen does not say what is
/// usual in its own.
pub(super) fn judged(context: &Context<'_>) -> impl Iterator<Item = usize> {
    (0..context.recipe.components.len()).filter(|component| !context.facts.is_of_the_kitchen(*component))
}

/// A component's lines of known ingredients that could be weighed.
pub(super) fn parts<'a>(context: &Context<'a>, component: usize) -> Vec<WeighedPart<'a>> {
    let part = |(line, facts): (usize, &LineFacts<'a>)| {
        Some(WeighedPart { ingredient: facts.ingredient, line, row: facts.row?, grams: facts.grams()? })
    };
    context.facts.lines[component].iter().enumerate().filter_map(part).collect()
}

/// What a component's lines weigh together in grams; with whatever it is of its lines, known or not.
pub(super) fn mass(context: &Context<'_>, component: usize) -> f64 {
    context.facts.lines[component].iter().filter_map(LineFacts::grams).sum()
}

/// The grams of those parts that a test picks.
pub(super) fn grams(parts: &[WeighedPart<'_>], pick: impl Fn(&Row) -> bool) -> f64 {
    parts.iter().filter(|part| pick(part.row)).map(|part| part.grams).sum()
}

/// A component and what goes into it of those before.
pub(super) fn with_used(context: &Context<'_>, component: usize) -> Vec<usize> {
    context.facts.with_used(component).into_iter().filter(|used| *used <= component).collect()
}

/// Flour of cereals and what stands in for it.
pub(super) fn is_flour(row: &Row) -> bool {
    row.family == "flour"
}

/// Raised by yeast, whatever its form.
pub(super) fn is_yeast(row: &Row) -> bool {
    row.is_any(&[Role::DriedYeast, Role::FreshYeast, Role::Starter])
}

/// Some grams as they are shown.
pub(super) fn weight(context: &Context<'_>, grams: f64) -> String {
    context.kitchen().words().weight(Weight::from_milligrams((grams * 1000.0).round() as i64))
}

/// `12 %`, `0.3 %`.
pub(super) fn percent(share: f64) -> String {
    let places = match share {
        _ if share >= 10.0 => 1.0,
        _ if share >= 1.0 => 10.0,
        _ => 100.0,
    };
    format!("{} %", (share * places).round() / places)
}
