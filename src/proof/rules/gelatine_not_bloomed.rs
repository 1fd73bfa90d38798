//! What it finds: gelatine among the ingredients, and no step that soaks or blooms it.
//!
//! Why it matters: dry gelatine melts into strings, and the set is weak where they are not.
//!
//! Example: `Stir the gelatine into the hot cream.` as the only word of it
//!
//! Instead: `{do: Soak the gelatine in plenty of cold water., wait: 10 min}`
//!
//! Source: common practice; powder takes five times its weight of water, sheets cold water to cover.

use crate::language::Sense;
use crate::pantry::Role;
use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    if context.said().any(|said| said.tells(Sense::Bloomed)) || context.facts.said.is_empty() {
        return Vec::new();
    }
    let line = context.lines().find(|(row, line)| {
        let text = format!(
            "{} {}",
            line.line.prep.as_deref().unwrap_or_default(),
            line.line.note.as_deref().unwrap_or_default()
        );
        // `200 bloom` is a strength.
        let strength = |text: &str| {
            let measure = context.language().lexicon(Sense::BloomStrength);
            context.language().read(text).iter().all(|word| measure.has(word) || word.stem.parse::<u32>().is_ok())
        };
        let bloomed = !strength(&text) && context.language().tells(Sense::Bloomed, &text);
        row.is_some_and(|row| row.is(Role::DryGelatine)) && !bloomed
    });
    let found = line.map(|(_, line)| {
        let message = format!("no step soaks the {}", line.line.name);
        Finding::at(line.span.clone(), message).help("say how: sheets in cold water, powder in five times its weight")
    });
    found.into_iter().collect()
}
