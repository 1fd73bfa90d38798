//! What it finds: a recipe in which no step says how long it takes.
//!
//! Why it matters: a cook asks first whether there is time for it; hands-on and waiting times are added up from the steps.
//!
//! Example: `steps: [Mix the batter., Bake until golden.]`
//!
//! Instead: `{do: Bake until golden., time: 25 min}`
//!
//! Source: rule of the house. Times in the text are enough to be silent, though they are not added up.

use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let steps = || context.recipe.components.iter().flat_map(|component| &component.steps);
    let in_text = || context.said().any(|said| !said.durations.is_empty());
    if steps().any(|step| step.time.is_some() || step.wait.is_some()) || steps().next().is_none() || in_text() {
        return Vec::new();
    }
    let found = Finding::at(context.recipe.root.key("title").span.clone(), "no step says how long it takes");
    vec![found.help("add `time:` to steps with hands on or in the oven, and `wait:` to the others")]
}
