//! What it finds: an oven setting that household ovens do not have.
//!
//! Why it matters: most often it is degrees Fahrenheit under the sign for Celsius, and it burns everything.
//!
//! Example: `oven: 350 °C`
//!
//! Instead: `oven: 350 °F`, or name the oven: `in a pizza oven at 400 °C`.
//!
//! Source: household dials end at 250 to 290 °C (550 °F); common practice.

use crate::facts::{Said, StepKey};
use crate::language::Sense;
use crate::measure::{Number, Scale, Use};
use crate::proof::Context;
use crate::source::Finding;

/// The end of the hottest household dial, 550 °F.
pub(super) const HOTTEST_CELSIUS: i64 = 290;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let named = |said: &Said<'_>| said.tells(Sense::HotOven) && said.tells(Sense::OvenOfFire);
    let special = context.said().any(named);
    let texts = context.said().filter(|said| !special && said.key != StepKey::Heat);
    texts.flat_map(|said| too_hot(context, said)).collect()
}

fn too_hot(context: &Context<'_>, said: &Said<'_>) -> Vec<Finding> {
    let hot = |degrees: Number| degrees > Number::from_integer(HOTTEST_CELSIUS);
    let settings = said.settings.iter().filter(|setting| setting.to_use == Use::Oven);
    let stated = settings.flat_map(|setting| &setting.ways).filter(|stated| hot(stated.temperature.celsius().1));
    stated
        .map(|stated| {
            let shown = &said.text[stated.span.clone()];
            let found =
                Finding::at(said.span(stated.span.clone()), format!("`{shown}` is hotter than household ovens get"));
            let found = found.label("household ovens end at about 290 °C (550 °F)");
            let number = context.kitchen().words().decimal(stated.temperature.high, 1);
            match stated.temperature.scale {
                Scale::Celsius => found.help(format!("is it `{number} °F`?")),
                Scale::Fahrenheit => found.help("check the digits, or name the oven that it is for"),
            }
        })
        .collect()
}
