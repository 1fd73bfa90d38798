//! What it finds: a step whose text states a time that its own `time` and `wait` do not allow.
//!
//! Why it matters: the page sums up the keys, and the reader follows the text.
//!
//! Example: `{do: Leave to rest for two hours., wait: 20 min}`
//!
//! Instead: `{do: Leave to rest., wait: 2 h}`
//!
//! Source: rule of the house. One time in the text is compared, and only where it is half as long again as the keys, or a
//! tenth of them; times of a part (`each`, `a side`, `the last`) are passed over.

use crate::facts::{Said, StepKey};
use crate::language::{Sense, clause};
use crate::measure::Duration;
use crate::proof::Context;
use crate::source::{Finding, Span};

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    context.said().filter(|said| said.key == StepKey::Do).filter_map(|said| disagrees(context, said)).collect()
}

/// Whether the clause of a length of time says that it is of a part.
fn is_of_a_part(said: &Said<'_>, span: &Span) -> bool {
    let own = said.words.partition_point(|word| word.span.start < span.start);
    clause(&said.words, own, |_| false).any(|at| said.tells_at(Sense::PartOfTime, at))
}

fn disagrees(context: &Context<'_>, said: &Said<'_>) -> Option<Finding> {
    let step = &context.recipe.components[said.component].steps[said.step];
    let keys = [step.time, step.wait].into_iter().flatten().reduce(Duration::plus)?;
    // `every hour` and `two minutes a side` are no time of the step.
    let whole: Vec<&(Span, Duration)> = said.durations.iter().filter(|(span, _)| !is_of_a_part(said, span)).collect();
    let [(span, stated)] = whole.as_slice() else { return None };
    if said.tells(Sense::Kept) {
        return None;
    }
    let longer = stated.low * 2 > keys.high * 3;
    let one_key = step.time.is_some() != step.wait.is_some();
    let range = stated.low != stated.high;
    let tenth = one_key && range && keys.low == stated.low * 10 && keys.high == stated.high * 10;
    let shorter = one_key && keys.high * 2 < stated.low && step.time.is_some();
    if !(longer || tenth || shorter) {
        return None;
    }
    let language = context.language();
    let message = format!(
        "the text says {}, and the step's own times are {}",
        language.duration(*stated),
        language.duration(keys)
    );
    Some(
        Finding::at(said.span(span.clone()), message)
            .help("say it once: the time of a step belongs to `time` or `wait`"),
    )
}
