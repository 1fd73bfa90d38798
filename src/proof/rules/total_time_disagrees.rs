//! What it finds: a summary that promises a time in which the steps cannot be done.
//!
//! Why it matters: readers choose by it, and are still waiting at midnight.
//!
//! Example: `summary: Ready in 30 minutes.` over steps of 3 h
//!
//! Instead: `summary: Twenty minutes of work and three hours of rest.`
//!
//! Source: rule of the house; the shortest way through the steps may be a quarter above.

use crate::language::{Language, Sense, Word};
use crate::measure::Duration;
use crate::proof::Context;
use crate::source::Finding;
use crate::text::duration;
use crate::yaml::Value;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    disagreement(context).into_iter().collect()
}

fn disagreement(context: &Context<'_>) -> Option<Finding> {
    let node = context.recipe.root.get("summary")?;
    let Value::Scalar(summary) = &node.value else { return None };
    let said = context.language().read(summary);
    let (first, last, promised) = promise(summary, &said, context.language())?;
    let all = context.facts.times().start_to_finish?;
    if all.low * 4 <= promised.high * 5 {
        return None;
    }
    let span = node.part(&context.recipe.source, said[first].span.start..said[last].span.end);
    let written = &summary[said[first].span.start..said[last].span.end];
    let message = format!(
        "the steps take {}, not `{written}`",
        context.kitchen().language().duration(Duration::seconds(all.low))
    );
    Some(
        Finding::at(span, message)
            .label("from the first step to the last")
            .help("say the time of the work and that of waiting"),
    )
}

/// A time behind a word of promise, with `in`, `within` or nothing between; hands-on times are no promise of the whole.
fn promise(summary: &str, said: &[Word], language: &Language) -> Option<(usize, usize, Duration)> {
    for (at, _) in said.iter().enumerate().filter(|(_, word)| language.lexicon(Sense::Promise).has(word)) {
        for first in at + 1..said.len().min(at + 5) {
            let last = (first + 1 < said.len()).then_some(first + 1)?;
            let text = &summary[said[first].span.start..said[last].span.end];
            let sentence = said.iter().filter(|word| word.sentence == said[at].sentence);
            if let Some(promised) = duration(text, language.times())
                && sentence.clone().all(|word| !language.lexicon(Sense::HandsOn).has(word))
                && said[first].sentence == said[at].sentence
            {
                return Some((first, last, promised));
            }
        }
    }
    None
}
