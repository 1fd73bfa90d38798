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

/// Two words that name a stage, the lowest and highest °C of it in the tables, and how far off it is still called so.
const STAGES: [(&str, &str, i64, i64, i64); 8] = [
    ("thread", "stage", 102, 113, 2),
    ("soft", "ball", 112, 116, 2),
    ("firm", "ball", 116, 121, 2),
    ("hard", "ball", 121, 130, 2),
    ("soft", "crack", 132, 143, 2),
    ("hard", "crack", 146, 155, 2),
    ("light", "caramel", 160, 170, 6),
    ("dark", "caramel", 180, 190, 8),
];

type Stage = (&'static str, &'static str, i64, i64, i64);

/// Below this no sugar is meant.
const LEAST_CELSIUS: i64 = 95;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let texts = context.said().filter(|said| matches!(said.key, StepKey::Do | StepKey::Until));
    texts.flat_map(|said| in_text(context, said)).collect()
}

fn in_text(context: &Context<'_>, said: &Said<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (at, two) in said.words.windows(2).enumerate() {
        let named = |stage: &&Stage| stage.0 == two[0].stem && stage.1 == two[1].stem;
        let Some(stage) = STAGES.iter().find(named) else { continue };
        let elsewhere = (at.saturating_sub(3)..at).any(|before| said.tells_at(Sense::PastStage, before));
        let place = two[0].span.start..two[1].span.end;
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
    high < Number::from_integer(stage.2 - stage.4) || low > Number::from_integer(stage.3 + stage.4)
}

fn finding(said: &Said<'_>, place: Span, temperature: Span, stage: &Stage) -> Finding {
    let (one, other, low, high, _) = stage;
    let message =
        format!("{one} {other} is {low}–{high} °C ({}–{} °F)", whole_fahrenheit(*low), whole_fahrenheit(*high));
    Finding::at(temperature, message)
        .other(said.span(place), "the stage")
        .help("name the stage that is meant, or change the temperature")
}
