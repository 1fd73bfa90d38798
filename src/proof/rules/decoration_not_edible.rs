//! What it finds: glitter or dust for decoration that is not said to be edible, wire and thread without a word that they
//! come off, and flowers that are poisonous.
//!
//! Why it matters: much of what is sold for cakes is metal or plastic, and children were poisoned by copper and lead in
//! it; a wire is bitten on; lily of the valley harms by touch alone.
//!
//! Example: `1 tsp gold lustre dust`
//!
//! Instead: `1 tsp edible gold lustre dust`
//!
//! Source: FDA, decorative products in foods; CDC MMWR 70(43), 29 October 2021. Wires and thread: common practice. The
//! flowers are on the lists of poison centres (from memory); what is not named here is not safe for that.

use std::borrow::Cow;

use crate::facts::StepKey;
use crate::language::{Language, Lexicon, Sense, Word};
use crate::proof::Context;
use crate::source::{Finding, Span};

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let source = &context.recipe.source;
    let lines = context.lines().map(|(_, line)| LineOrStep {
        words: Cow::Owned(context.language().read(source.slice(&line.span))),
        span: line.span.clone(),
    });
    let said = context.said().filter(|said| matches!(said.key, StepKey::Do | StepKey::Mind));
    let steps = said
        .map(|said| LineOrStep { words: Cow::Borrowed(said.words.as_slice()), span: said.span(0..said.text.len()) });
    let texts: Vec<LineOrStep<'_>> = lines.chain(steps).collect();
    let language = context.language();
    [dust(&texts, language), hard(&texts, language), poisonous(&texts, language)].into_iter().flatten().collect()
}

/// A line or step, and its place.
struct LineOrStep<'a> {
    words: Cow<'a, [Word]>,
    span: Span,
}

/// The first text with what tells of something: the text, the place of its words and how many they are.
fn first<'t>(texts: &'t [LineOrStep<'_>], told: Lexicon) -> Option<(&'t LineOrStep<'t>, usize, usize)> {
    texts.iter().find_map(|text| {
        let at = told.find(&text.words)?;
        Some((text, at, told.at(&text.words, at)))
    })
}

fn says(texts: &[LineOrStep<'_>], told: Lexicon) -> bool {
    first(texts, told).is_some()
}

/// The words found, as they are written.
fn written((text, at, count): (&LineOrStep<'_>, usize, usize)) -> String {
    text.words[at..at + count].iter().map(|word| word.written.as_str()).collect::<Vec<_>>().join(" ")
}

fn dust(texts: &[LineOrStep<'_>], language: &Language) -> Option<Finding> {
    let dust = language.lexicon(Sense::Dust);
    let found = first(texts, dust)?;
    let mut named = texts.iter().filter(|text| dust.find(&text.words).is_some());
    if named.any(|text| language.lexicon(Sense::Edible).find(&text.words).is_some()) {
        return None;
    }
    let message = format!("nothing says that the {} is edible", written(found));
    Some(Finding::at(found.0.span.clone(), message).help(
        "use what is labelled edible with a list of ingredients, and say so: `edible ...`; `non-toxic` is not food",
    ))
}

fn hard(texts: &[LineOrStep<'_>], language: &Language) -> Option<Finding> {
    let found = first(texts, language.lexicon(Sense::Binding))?;
    if says(texts, language.lexicon(Sense::TakenOff)) {
        return None;
    }
    let message = format!("`{}`, and nothing says that it comes off before eating", written(found));
    let finding = Finding::at(found.0.span.clone(), message);
    Some(finding.help("say that it is removed before serving, and how many pieces there are to count"))
}

fn poisonous(texts: &[LineOrStep<'_>], language: &Language) -> Option<Finding> {
    let plants = language.lexicon(Sense::PoisonousPlant);
    let made = language.lexicon(Sense::MadeFlower);
    let real = |text: &&LineOrStep<'_>| {
        let at = (0..text.words.len()).filter(|at| plants.at(&text.words, *at) > 0);
        at.into_iter().any(|at| {
            let behind = at + plants.at(&text.words, at);
            let near = at.saturating_sub(1)..text.words.len().min(behind + 2);
            !near.into_iter().any(|near| made.at(&text.words, near) > 0)
        })
    };
    let text = texts.iter().find(real)?;
    let flower = written(first(std::slice::from_ref(text), plants)?);
    let found = Finding::at(text.span.clone(), format!("`{flower}` is poisonous: it must not lie on food"));
    Some(found.help("take a flower that is grown and sold for eating"))
}
