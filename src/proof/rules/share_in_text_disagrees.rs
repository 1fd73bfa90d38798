//! What it finds: a share or a ratio that a step or the summary states in words, and that the weights do not have.
//!
//! Why it matters: cooks remember the ratio, and scale by it.
//!
//! Example: `toss the cabbage with 2 % of its weight in salt` over 2.5 kg of cabbage and 125 g of salt
//!
//! Instead: 50 g of salt
//!
//! Source: rule of the house; a share may be off by 15 %, as people round, and vegetables and fruit lose up to a third when
//! they are trimmed. Only what is said of lines that can be weighed is compared.

use crate::facts::{Claim, LineFacts};
use crate::proof::Context;
use crate::proof::shares::{percent, weight};
use crate::source::Finding;

/// How far a share may be off, as a fraction of it.
const SLACK: f64 = 0.15;

/// What is left of vegetables and fruit when they are trimmed. Common practice.
const TRIMMED: f64 = 0.65;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    context.facts.claims().iter().filter_map(|claim| disagreement(context, claim)).collect()
}

fn disagreement(context: &Context<'_>, claim: &Claim) -> Option<Finding> {
    let lines = &context.facts.lines[claim.component];
    let grams = |of: &[usize]| of.iter().map(|line| lines[*line].grams()).sum::<Option<f64>>().filter(|sum| *sum > 0.0);
    let (part, base) = (grams(&claim.part)?, grams(&claim.base)?);
    let share = part / base;
    let trimmed =
        |line: &usize| lines[*line].row.is_some_and(|row| matches!(row.family.as_str(), "vegetable" | "fruit"));
    let least = if claim.base.iter().any(trimmed) { claim.share * TRIMMED } else { claim.share };
    if (least * (1.0 - SLACK)..=claim.share * (1.0 + SLACK)).contains(&share) {
        return None;
    }
    let name = |of: &[usize]| names(of, lines);
    let message = format!(
        "{} of {} on {} of {} is {}",
        weight(context, part),
        name(&claim.part),
        weight(context, base),
        name(&claim.base),
        percent(share * 100.0)
    );
    Some(
        Finding::at(claim.span.clone(), message)
            .label(format!("the text says {}", percent(claim.share * 100.0)))
            .help("weigh it again, or say the share that it is"),
    )
}

fn names(of: &[usize], lines: &[LineFacts<'_>]) -> String {
    of.iter().map(|line| lines[*line].ingredient.line.name.as_str()).collect::<Vec<_>>().join(" and ")
}
