//! What it finds: an amount in a step that is more than the ingredients list, and pieces that weigh more than the dough.
//!
//! Why it matters: the reader weighs what the step says, and runs out of it.
//!
//! Example: `Cream 200 g butter` where 150 g are listed; `Divide into 20 pieces of 60 g` of 800 g dough
//!
//! Instead: `Cream the butter`, and the amount is shown beside the step
//!
//! Source: rule of the house; 6 % are left for rounding.

use crate::facts::{Said, StepKey};
use crate::language::Sense;
use crate::proof::Context;
use crate::proof::rules::yield_disagrees::grams;
use crate::proof::shares::{mass, weight, with_used};
use crate::source::{Finding, Span};

/// How much more than listed is no rounding.
const MORE: f64 = 1.06;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let texts = context.said().filter(|said| said.key == StepKey::Do);
    texts.flat_map(|said| amounts(context, said).into_iter().chain(pieces(context, said))).collect()
}

/// `200 g butter`, `all 6 eggs`, `650 g of flour`.
fn amounts(context: &Context<'_>, said: &Said<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (at, word) in said.words.iter().enumerate() {
        let Some((stated, by_weight, behind)) = stated(context, said, at) else { continue };
        let Some(lines) = named_behind(said, behind).or_else(|| named_before(said, at, behind)) else { continue };
        let facts = &context.facts.lines[said.component];
        let listed: Option<f64> = lines
            .iter()
            .map(|line| {
                let amount = facts[*line].ingredient.line.amounts.first()?;
                let counted = amount.unit.is_none();
                match by_weight {
                    true => facts[*line].grams(),
                    false => counted.then(|| *amount.high.numer() as f64 / *amount.high.denom() as f64),
                }
            })
            .sum();
        if let Some(listed) = listed.filter(|listed| stated > listed * MORE) {
            let names: Vec<&str> = lines.iter().map(|line| facts[*line].ingredient.line.name.as_str()).collect();
            let shown = &said.text[word.span.start..said.words[behind - 1].span.end];
            let listed = if by_weight { weight(context, listed) + " of" } else { format!("{listed:.0}") };
            let message = format!("`{shown}`, and {listed} {} are listed", names.join(" and "));
            findings.push(
                Finding::at(place(said, at, behind), message).help("list what is needed, or name the line alone"),
            );
        }
    }
    findings
}

fn place(said: &Said<'_>, at: usize, behind: usize) -> Span {
    said.span(said.words[at].span.start..said.words[behind - 1].span.end)
}

/// A weight or a count at a word: the number in grams or pieces, whether it is a weight, and the word behind it.
fn stated(context: &Context<'_>, said: &Said<'_>, at: usize) -> Option<(f64, bool, usize)> {
    let word = &said.words[at];
    if let Some(quantity) = said.quantities.iter().find(|quantity| quantity.span.start == word.span.start) {
        let behind = said.words.partition_point(|word| word.span.start < quantity.span.end);
        return quantity.grams().map(|grams| (grams, true, behind));
    }
    let count = context.language().count(&word.written)? as f64;
    let next = said.words.get(at + 1).filter(|next| next.sentence == word.sentence)?;
    let decimal = word.before == "." || next.before.contains(['.', '/', '–', '-']);
    let all = at > 0 && said.tells_at(Sense::All, at - 1);
    (all && !decimal).then_some((count, false, at + 1))
}

/// The lines that the words behind an amount name: all of one name, right behind it.
fn named_behind(said: &Said<'_>, behind: usize) -> Option<Vec<usize>> {
    let mut at = behind;
    while at < said.words.len() && [Sense::Linking, Sense::All].into_iter().any(|of| said.tells_at(of, at)) {
        at += 1;
    }
    let limit = (at + 3).min(said.words.len());
    let first = (at..limit).find(|at| !said.named[*at].is_empty())?;
    let between = (at..=first).skip(1).all(|at| said.words[at].before.trim().is_empty());
    let mut lines: Vec<usize> = said.named[first].iter().map(|named| named.line).collect();
    lines.dedup();
    between.then_some(lines)
}

/// The lines that stand before `400 g in all`.
fn named_before(said: &Said<'_>, at: usize, behind: usize) -> Option<Vec<usize>> {
    let in_all = said.words.get(behind).is_some_and(|word| word.sentence == said.words[at].sentence)
        && said.tells_at(Sense::InAll, behind);
    let last = (at.saturating_sub(3)..at).rev().find(|before| !said.named[*before].is_empty()).filter(|_| in_all)?;
    Some(said.named[last].iter().map(|named| named.line).collect())
}

/// `Divide into 20 pieces of 60 g`.
fn pieces(context: &Context<'_>, said: &Said<'_>) -> Option<Finding> {
    let first = (0..said.words.len()).find(|at| said.tells_at(Sense::Divides, *at))?;
    let sentence = said.words[first].sentence;
    let last = said.words.iter().rfind(|word| word.sentence == sentence)?;
    let clause = &said.text[said.words[first].span.start..last.span.end];
    let stated = grams(clause, context.language())?;
    let all: f64 = with_used(context, said.component).iter().map(|room| mass(context, *room)).sum();
    let known = context.facts.lines[said.component].iter().all(|line| line.grams().is_some());
    let count =
        clause.split(|c: char| !c.is_alphanumeric()).any(|word| context.language().count(word).is_some_and(|n| n > 1));
    (known && count && stated > all * MORE).then(|| {
        let (stated, all) = (weight(context, stated), weight(context, all));
        let message = format!("the pieces weigh {stated} together, and the ingredients {all}");
        Finding::at(said.span(said.words[first].span.start..last.span.end), message)
            .help("count the pieces and their weight again")
    })
}
