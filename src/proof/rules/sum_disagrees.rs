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
use crate::language::{Language, Sense};
use crate::proof::Context;
use crate::proof::rules::yield_disagrees::{is_weighed, pieces};
use crate::proof::shares::{mass, weight, with_used};
use crate::source::{Finding, Span};
use crate::text::quantities;

/// How much more than listed is no rounding.
const MORE: f64 = 1.06;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let texts = context.said().filter(|said| said.key == StepKey::Do);
    texts.flat_map(|said| amounts(context, said).into_iter().chain(divided(context, said))).collect()
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

/// How many words behind an order to divide what it divides may stand.
const REACH: usize = 5;

/// The pieces of a yield that is one count of one thing, `24 rolls`.
fn pieces_made(makes: &str, language: &Language) -> Option<f64> {
    let said = language.read(makes);
    let mut counts = said.iter().filter_map(|word| language.count(&word.written));
    let one = counts.next().filter(|count| (2..=500).contains(count))?;
    let plain =
        said.len() <= 4 && quantities(makes, &said, language).is_empty() && !language.tells(Sense::JoinsClauses, makes);
    (plain && counts.next().is_none() && said[0].written.starts_with(char::is_numeric)).then_some(one as f64)
}

/// `Divide into 20 pieces of 60 g`.
fn divided(context: &Context<'_>, said: &Said<'_>) -> Option<Finding> {
    let first = (0..said.words.len()).find(|at| said.tells_at(Sense::Divides, *at))?;
    let sentence = said.words[first].sentence;
    let last = said.words.iter().rfind(|word| word.sentence == sentence)?;
    let clause = &said.text[said.words[first].span.start..last.span.end];
    let language = context.language();
    let (one, count) = pieces(clause, language)?;
    // `Divide the dough into 8` is of that alone, whatever the component lists beside it.
    let component = (0..said.component).find(|earlier| {
        let at = context.facts.names_component(said, *earlier).filter(|at| said.words[*at].sentence == sentence);
        context.uses(said.component, *earlier) && at.is_some_and(|at| at > first && at <= first + REACH)
    });
    let rooms = with_used(context, component.unwrap_or(said.component));
    let all: f64 = rooms.iter().map(|room| mass(context, *room)).sum();
    let known = rooms.iter().flat_map(|room| &context.facts.lines[*room]).all(is_weighed);
    // `Divide into pieces of 85 g`, as many as the recipe makes.
    let made = || context.recipe.makes.as_deref().and_then(|makes| pieces_made(makes, language));
    let stated = one * count.map_or_else(made, |count| Some(count as f64)).filter(|count| *count > 1.0)?;
    (known && stated > all * MORE).then(|| {
        let (stated, all) = (weight(context, stated), weight(context, all));
        let message = format!("the pieces weigh {stated} together, and the ingredients {all}");
        Finding::at(said.span(said.words[first].span.start..last.span.end), message)
            .help("count the pieces and their weight again")
    })
}
