//! What it finds: a step that bakes or roasts before any oven was set.
//!
//! Why it matters: the reader stands before a cold oven with a batter that does not wait.
//!
//! Example: `Spread the batter in the tin and bake until golden.` as the first word of an oven
//!
//! Instead: `{do: Spread the batter in the tin and bake until golden., oven: 180 °C}`
//!
//! Source: rule of the house.

use crate::facts::Word;
use crate::facts::{Said, StepKey};
use crate::proof::Context;
use crate::source::Finding;
use crate::text::temperatures;

/// Words in front of which `bake` is an order.
const BEFORE: [&str; 8] = ["and", "then", "or", "to", "now", "finally", "immediately", "gently"];

/// Words behind which `bake` and `roast` are no order.
const NOT_ORDERS: [&str; 6] = ["tray", "tin", "sheet", "paper", "bead", "parchment"];

/// Other ways to set an oven.
const SETTINGS: [&str; 9] = ["gas", "preheat", "preheated", "degree", "moderate", "broiler", "hot", "slow", "grill"];

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
    let speaks = said.has(&["oven", "bake", "roast"]);
    let number =
        said.words.iter().any(|word| word.written.parse().is_ok_and(|number: u32| (100..600).contains(&number)));
    step.oven.is_some() || (speaks && (number || !temperatures(said.text).is_empty() || said.has(&SETTINGS)))
}

fn order_to_bake<'s>(said: &'s Said<'_>) -> Option<&'s Word> {
    let found = said.words.iter().enumerate().find(|(at, word)| {
        let before = at.checked_sub(1).map(|at| &said.words[at]);
        let starts = before.is_none_or(|before| {
            before.sentence != word.sentence
                || BEFORE.contains(&before.stem.as_str())
                || word.before.contains([',', ':'])
        });
        let noun = said.words.get(at + 1).is_some_and(|next| NOT_ORDERS.contains(&next.stem.as_str()));
        matches!(word.written.as_str(), "bake" | "roast") && starts && !noun
    });
    found.map(|(_, word)| word)
}
