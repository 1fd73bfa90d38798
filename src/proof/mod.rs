//! CHECK: everything that a sharp colleague would find before publishing.

pub mod report;
mod rules;

use crate::kitchen::Kitchen;
use crate::recipe::Recipe;
use crate::source::Finding;

/// A rule: reads a recipe, tells what it finds.
type Rule = fn(&Recipe, &Kitchen) -> Vec<Finding>;

/// Every rule, in the order of their names.
const RULES: [Rule; 2] = [rules::stated_pair_disagrees::check, rules::unknown_ingredient::check];

/// All findings of a recipe, in the order of their places.
pub fn proof(recipe: &Recipe, kitchen: &Kitchen) -> Vec<Finding> {
    let mut findings: Vec<Finding> = RULES.iter().flat_map(|rule| rule(recipe, kitchen)).collect();
    findings.sort_by_key(|finding| (finding.span.start, finding.rule));
    findings
}
