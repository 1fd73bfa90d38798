//! CHECK: everything that a sharp colleague would find before publishing.

mod allow;
mod archive;
mod context;
mod explain;
mod mend;
mod pair;
mod reading;
pub mod report;
mod rules;
mod shares;
mod slip;

use crate::facts::Facts;
use crate::source::{Finding, Level};

pub use allow::Levels;
pub use archive::Archive;
pub use context::{Context, Shortened, Surroundings, before};
pub use explain::{Explained, explain, explained, names, reference};
pub use mend::{Mended, TextChange, mended};

/// A rule: its name is the fault that it finds.
pub struct Rule {
    /// The fault, in words joined by hyphens.
    pub name: &'static str,
    /// How bad it is where the site says nothing else.
    pub level: Level,
    /// Its source file, of which the first comment explains it.
    source: &'static str,
    /// Reads a recipe, tells what it finds.
    check: fn(&Context<'_>) -> Vec<Finding>,
}

/// All findings of a recipe, in the order of their places; what the recipe allows is left out.
pub fn proof(facts: &Facts<'_>, around: Surroundings<'_>, levels: &Levels) -> Vec<Finding> {
    let context = Context::new(facts, around);
    let mut findings = Vec::new();
    for rule in rules::RULES {
        let Some(level) = levels.of(rule) else { continue };
        findings.extend((rule.check)(&context).into_iter().map(|found| Finding { rule: rule.name, level, ..found }));
    }
    let mut findings = allow::apply(facts.recipe, findings, levels);
    findings.sort_by_key(|finding| (finding.span.start, finding.rule));
    findings
}
