//! What it finds: a step that bakes or roasts before any oven was set.
//!
//! Why it matters: the reader stands before a cold oven with a batter that does not wait.
//!
//! Example: `Spread the batter in the tin and bake until golden.` as the first word of an oven
//!
//! Instead: `{do: Spread the batter in the tin and bake until golden., oven: 180 °C}`
//!
//! Source: rule of the house.

use crate::facts::{Said, StepKey};
use crate::language::{Sense, Word};
use crate::proof::Context;
use crate::source::Finding;
use crate::text::temperatures;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    for said in context.said().filter(|said| said.key == StepKey::Do) {
        if sets_oven(context, said) {
            return Vec::new();
        }
        if let Some(word) = order_to_bake(said) {
            let found = Finding::at(said.span(word.span.clone()), format!("`{}`, and no oven was set", word.written));
            return vec![found.help("add `oven:` to this step or to one before it")];
        }
    }
    Vec::new()
}

fn sets_oven(context: &Context<'_>, said: &Said<'_>) -> bool {
    let step = &context.recipe.components[said.component].steps[said.step];
    let speaks = said.tells(Sense::Baked);
    let number =
        said.words.iter().any(|word| word.written.parse().is_ok_and(|number: u32| (100..600).contains(&number)));
    step.oven.is_some() || (speaks && (number || !temperatures(said.text).is_empty() || said.tells(Sense::OvenSetting)))
}

fn order_to_bake<'s>(said: &'s Said<'_>) -> Option<&'s Word> {
    let found = said.words.iter().enumerate().find(|(at, word)| {
        let before = at.checked_sub(1).map(|at| &said.words[at]);
        let starts = before.is_none_or(|before| {
            before.sentence != word.sentence
                || said.tells_at(Sense::BeforeOrder, at - 1)
                || word.before.contains([',', ':'])
        });
        let noun = said.tells_at(Sense::NoOrder, at + 1);
        said.tells_at(Sense::OvenOrder, *at) && word.written == word.stem && starts && !noun
    });
    found.map(|(_, word)| word)
}
