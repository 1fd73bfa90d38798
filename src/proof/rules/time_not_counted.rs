//! What it finds: a step that tells of a long time in its text alone, in a recipe whose other steps state theirs.
//!
//! Why it matters: the sums and Start to finish leave it out, and the reader eats at midnight.
//!
//! Example: `Leave on the counter overnight.` beside steps with `time:` and `wait:`
//!
//! Instead: `{do: Leave on the counter., wait: overnight}`
//!
//! Source: rule of the house. Ten minutes and more are told; times of a part (`each`, `every`, `the last`) and of keeping
//! are passed over.

use crate::facts::{Said, StepKey};
use crate::language::Sense;
use crate::proof::Context;
use crate::source::Finding;

/// From here up a time is missed, in seconds.
const LONG: u64 = 600;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let mut steps = context.recipe.components.iter().flat_map(|component| &component.steps);
    if !steps.any(|step| step.time.is_some() || step.wait.is_some()) {
        return Vec::new();
    }
    context.said().filter(|said| said.key == StepKey::Do).filter_map(|said| not_counted(context, said)).collect()
}

fn not_counted(context: &Context<'_>, said: &Said<'_>) -> Option<Finding> {
    let step = &context.recipe.components[said.component].steps[said.step];
    if step.time.is_some() || step.wait.is_some() || said.tells(Sense::PartOfTime) || said.tells(Sense::Kept) {
        return None;
    }
    let found = &said.durations;
    let (span, _) = found.iter().find(|(_, time)| time.low >= LONG)?;
    let written = &said.text[span.clone()];
    let found = Finding::at(said.span(span.clone()), format!("`{written}` is not counted"));
    Some(found.help("state it as `time` of hands or of the oven, or as `wait`"))
}
