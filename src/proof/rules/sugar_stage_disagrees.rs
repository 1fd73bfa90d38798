//! What it finds: the name of a sugar stage beside a temperature that is not of that stage.
//!
//! Why it matters: soft ball and hard ball are a fondant and a nougat.
//!
//! Example: `Cook the syrup to the soft ball stage, 130 °C.`
//!
//! Instead: `Cook the syrup to the soft ball stage, 115 °C.`
//!
//! Source: Colorado State University Extension, Candy Making at High Elevation, and three further published tables; 2 °C
//! beside them pass, for caramels more.

use crate::facts::{Said, StepKey};
use crate::language::Sense;
use crate::measure::{Number, Temperature, whole_fahrenheit};
use crate::proof::Context;
use crate::source::{Finding, Span};
use crate::text::temperatures;

/// A stage, the lowest and highest °C of it in the tables, and how far off it is still called so.
type Stage = (Sense, i64, i64, i64);

const STAGES: [Stage; 8] = [
    (Sense::ThreadStage, 102, 113, 2),
    (Sense::SoftBall, 112, 116, 2),
    (Sense::FirmBall, 116, 121, 2),
    (Sense::HardBall, 121, 130, 2),
    (Sense::SoftCrack, 132, 143, 2),
    (Sense::HardCrack, 146, 155, 2),
    (Sense::LightCaramel, 160, 170, 6),
    (Sense::DarkCaramel, 180, 190, 8),
];

/// Below this no sugar is meant.
const LEAST_CELSIUS: i64 = 95;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let texts = context.said().filter(|said| matches!(said.key, StepKey::Do | StepKey::Until));
    texts.flat_map(|said| in_text(context, said)).collect()
}

fn in_text(context: &Context<'_>, said: &Said<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for at in 0..said.words.len() {
        let length = |stage: &Stage| context.language().lexicon(stage.0).at(&said.words, at);
        let Some(stage) = STAGES.iter().find(|stage| length(stage) > 0) else { continue };
        let elsewhere = (at.saturating_sub(3)..at).any(|before| said.tells_at(Sense::PastStage, before));
        let last = &said.words[at + length(stage) - 1];
        let place = said.words[at].span.start..last.span.end;
        let beside = if elsewhere { Vec::new() } else { beside(context, said, &place) };
        if let Some((span, _)) = beside.first()
            && beside.iter().all(|(_, temperature)| is_outside(*temperature, stage))
        {
            findings.push(finding(said, place, span.clone(), stage));
        }
    }
    findings
}

/// The temperatures next to a stage in its sentence, the nearer first, else the step's own.
fn beside(context: &Context<'_>, said: &Said<'_>, place: &Span) -> Vec<(Span, Temperature)> {
    let sentence = |at: usize| said.words.iter().find(|word| word.span.end > at).map(|word| word.sentence);
    let hot = temperatures(said.text).into_iter().filter(|mention| is_hot(mention.temperature));
    let near: Vec<_> = hot.filter(|mention| sentence(mention.span.start) == sentence(place.start)).collect();
    let before = near.iter().rfind(|mention| mention.span.end <= place.start);
    let after = near.iter().find(|mention| mention.span.start >= place.end);
    let mut beside: Vec<_> = before.into_iter().chain(after).collect();
    beside.sort_by_key(|mention| mention.span.start.abs_diff(place.end).min(place.start.abs_diff(mention.span.end)));
    if !beside.is_empty() {
        return beside.into_iter().map(|mention| (said.span(mention.span.clone()), mention.temperature)).collect();
    }
    let heat = context.said_in(said.component).find(|other| other.step == said.step && other.key == StepKey::Heat);
    let stated = heat.into_iter().flat_map(|heat| {
        let hot = temperatures(heat.text).into_iter().filter(|mention| is_hot(mention.temperature));
        hot.map(|mention| (heat.span(mention.span), mention.temperature))
    });
    stated.collect()
}

fn is_hot(temperature: Temperature) -> bool {
    temperature.celsius().1 >= Number::from_integer(LEAST_CELSIUS)
}

fn is_outside(temperature: Temperature, stage: &Stage) -> bool {
    let (low, high) = temperature.celsius();
    high < Number::from_integer(stage.1 - stage.3) || low > Number::from_integer(stage.2 + stage.3)
}

fn finding(said: &Said<'_>, place: Span, temperature: Span, stage: &Stage) -> Finding {
    let (_, low, high, _) = stage;
    let named = said.text[place.clone()].to_lowercase();
    let message = format!("{named} is {low}–{high} °C ({}–{} °F)", whole_fahrenheit(*low), whole_fahrenheit(*high));
    Finding::at(temperature, message)
        .other(said.span(place), "the stage")
        .help("name the stage that is meant, or change the temperature")
}
