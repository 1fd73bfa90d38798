//! What it finds: a temperature without its scale, in a step's text or in `oven` and `heat`.
//!
//! Why it matters: 200 is a moderate oven in one scale and a warming drawer in the other.
//!
//! Example: `Bake at 375 for twenty minutes.`
//!
//! Instead: `Bake at 375 °F for twenty minutes.`
//!
//! Source: rule of the house.

use crate::facts::{Said, StepKey};
use crate::language::{Sense, Word, sentence};
use crate::proof::Context;
use crate::source::Finding;
use crate::text::{lengths, temperatures};

/// Temperatures of ovens, sugar and cores in either scale lie here.
const PLAUSIBLE: std::ops::RangeInclusive<u32> = 30..=600;

/// From here up a number alone behind `at` or `to` is a temperature.
const OVEN_FROM: u32 = 100;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let texts = context.said().filter(|said| !matches!(said.key, StepKey::Oven | StepKey::Heat));
    texts.flat_map(in_text).collect()
}

fn in_text(said: &Said<'_>) -> Vec<Finding> {
    let taken: Vec<_> = temperatures(said.text)
        .into_iter()
        .map(|mention| mention.span)
        .chain(lengths(said.text).into_iter().map(|mention| mention.span))
        .collect();
    let free = |word: &&(usize, &Word)| {
        !taken.iter().any(|span| span.start <= word.1.span.start && word.1.span.start < span.end)
    };
    said.words
        .iter()
        .enumerate()
        .collect::<Vec<_>>()
        .iter()
        .filter(free)
        .filter_map(|(at, word)| bare(said, *at, word))
        .collect()
}

fn bare(said: &Said<'_>, at: usize, word: &Word) -> Option<Finding> {
    let degrees: u32 = word.written.parse().ok().filter(|number| PLAUSIBLE.contains(number))?;
    let before = at.checked_sub(1).map(|at| &said.words[at])?;
    let next = said.words.get(at + 1).filter(|next| next.sentence == word.sentence);
    let behind = &said.text[word.span.end..];
    let says_degrees =
        behind.trim_start().starts_with(['°', 'º']) || next.is_some() && said.tells_at(Sense::Degree, at + 1);
    let about_heat = said
        .words
        .iter()
        .enumerate()
        .any(|(at, other)| other.sentence == word.sentence && said.tells_at(Sense::Heat, at));
    let sentence = sentence(&said.words, word.sentence);
    let turned = sentence.into_iter().any(|at| said.tells_at(Sense::Turns, at));
    let at_or_to = before.sentence == word.sentence && said.tells_at(Sense::BeforeHeat, at - 1);
    let bare_end = next.is_none_or(|next| {
        !word.is_joined(next) && !said.tells_at(Sense::NoDegree, at + 1) && may_follow(said, at + 1)
    });
    // `a 350 oven`
    let of_oven = next.is_some_and(|next| next.before.trim().is_empty()) && said.tells_at(Sense::Oven, at + 1);
    let at_or_to = at_or_to || of_oven;
    let plain = at_or_to
        && degrees >= OVEN_FROM
        && about_heat
        && bare_end
        && !behind.starts_with(['%', '/', ':', '-', '–', '×']);
    if !(plain || (says_degrees && about_heat)) || (says_degrees && turned && !at_or_to) {
        return None;
    }
    let message = format!("`{degrees}` says no scale");
    let found = Finding::at(said.span(word.span.clone()), message).label("°C or °F?");
    Some(found.help(format!("write `{degrees} °C` or `{degrees} °F`; the other scale is computed")))
}

/// Whether a word may follow a temperature, and is nothing that a number counts.
fn may_follow(said: &Said<'_>, at: usize) -> bool {
    said.tells_at(Sense::BehindHeat, at) || said.words[at].before.contains(['.', ',', ';', ':', ')', '('])
}
