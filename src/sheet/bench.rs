use serde::Serialize;

use super::amounts::{self, ShownLine};
use super::factor::Factor;
use crate::facts::{Facts, LineFacts};
use crate::kitchen::Kitchen;
use crate::measure::Weight;

/// A recipe's amounts at the batches asked for, for production; it goes with the recipe's [`super::Sheet`].
///
/// Every list that is named after batches has one element a batch, in the order asked.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Bench {
    /// The batches as read: `1/2`, `2`.
    pub batches: Vec<String>,
    /// Mass of all ingredients at each batch, `1,240 g`.
    pub mass: Vec<String>,
    /// The components in working order, which is the order of [`super::Sheet::components`].
    pub components: Vec<BenchComponent>,
}

/// A component at each batch.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BenchComponent {
    /// As written.
    pub name: String,
    /// Mass of its own ingredients at each batch; empty where none of them has a weight.
    pub mass: Vec<String>,
    /// Its ingredient lines in the order written.
    pub lines: Vec<BenchLine>,
}

/// An ingredient line at each batch.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BenchLine {
    /// As written.
    pub name: String,
    /// Preparation: `diced`.
    pub prep: Option<String>,
    /// Remark, without brackets.
    pub note: Option<String>,
    /// Whether it may be left out.
    pub optional: bool,
    /// The amount at each batch.
    pub amounts: Vec<ScaledAmount>,
}

/// An amount at one batch, computed as a line of the sheet is.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ScaledAmount {
    /// As [`super::SheetLine::weight`].
    pub weight: Option<String>,
    /// As [`super::SheetLine::measure`].
    pub measure: Option<String>,
}

/// Computes a recipe's amounts at some batches.
pub fn bench(facts: &Facts<'_>, factors: &[Factor]) -> Bench {
    let kitchen = facts.kitchen;
    let components = facts.recipe.components.iter().zip(&facts.lines);
    let (components, masses): (Vec<_>, Vec<_>) =
        components.map(|(entry, lines)| component(&entry.name, lines, kitchen, factors)).unzip();
    let total = |at: usize| masses.iter().map(|mass: &Vec<Weight>| mass[at]).fold(Weight::ZERO, Weight::plus);
    Bench {
        batches: factors.iter().map(Factor::to_string).collect(),
        mass: (0..factors.len()).map(|at| kitchen.words().weight(total(at))).collect(),
        components,
    }
}

/// A component and its mass at each batch.
fn component(
    name: &str,
    facts: &[LineFacts<'_>],
    kitchen: &Kitchen,
    factors: &[Factor],
) -> (BenchComponent, Vec<Weight>) {
    let mut masses = vec![Weight::ZERO; factors.len()];
    let mut lines = Vec::with_capacity(facts.len());
    for of_line in facts {
        let mut amounts = Vec::with_capacity(factors.len());
        for (factor, mass) in factors.iter().zip(&mut masses) {
            let ShownLine { weight, measure, high, .. } = amounts::at(of_line, factor.number(), kitchen);
            *mass = mass.plus(high);
            amounts.push(ScaledAmount { weight, measure });
        }
        let line = &of_line.ingredient.line;
        lines.push(BenchLine {
            name: line.name.clone(),
            prep: line.prep.as_deref().and_then(|prep| kitchen.language().without_flags(prep)),
            note: line.note.as_deref().and_then(|note| kitchen.language().without_flags(note)),
            optional: line.optional,
            amounts,
        });
    }
    let weighed = masses.iter().any(|mass| *mass > Weight::ZERO);
    let mass = if weighed { masses.iter().map(|mass| kitchen.words().weight(*mass)).collect() } else { Vec::new() };
    (BenchComponent { name: name.to_string(), mass, lines }, masses)
}
