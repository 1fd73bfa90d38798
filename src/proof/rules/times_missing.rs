//! What it finds: a recipe in which no step says how long it takes.
//!
//! Why it matters: a cook asks first whether there is time for it; hands-on and waiting times are added up from the steps.
//!
//! Example: `steps: [Mix the batter., Bake until golden.]`
//!
//! Instead: `{do: Bake until golden., time: 25 min}`
//!
//! Source: rule of the house. Times in the text are enough to be silent, though they are not added up.

use crate::language::Word;
use crate::proof::Context;
use crate::source::Finding;

const UNITS: [&str; 10] = ["min", "minute", "hour", "h", "hr", "second", "day", "overnight", "week", "sec"];

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let steps = || context.recipe.components.iter().flat_map(|component| &component.steps);
    let is_time = |word: &Word| UNITS.contains(&word.stem.as_str()) || ends_in_unit(&word.written);
    let in_text = context.said().any(|said| said.words.iter().any(is_time));
    if steps().any(|step| step.time.is_some() || step.wait.is_some()) || in_text || steps().next().is_none() {
        return Vec::new();
    }
    let found = Finding::at(context.recipe.root.key("title").span.clone(), "no step says how long it takes");
    vec![found.help("add `time:` to steps with hands on, and `wait:` to the others")]
}

/// `25min`, `2h`.
fn ends_in_unit(word: &str) -> bool {
    let unit = word.trim_start_matches(|c: char| c.is_ascii_digit());
    unit.len() < word.len() && (UNITS.contains(&unit) || unit == "mins")
}
