//! What it finds: a temperature at which what the step does cannot be done, where one slip explains it: the number of the
//! other scale, a digit too few or too many, two digits swapped, a minus that is lost.
//!
//! Why it matters: at 180 °F nothing browns, and yeast dies in water at 110 °C.
//!
//! Example: `Bake at 180 °F for 12 minutes, until golden.`
//!
//! Instead: `Bake at 180 °C for 12 minutes, until golden.`
//!
//! Source: common practice: ranges so wide that no sound recipe leaves them; usual ones where the temperature is the only
//! one in its scale, and all else in the recipe is in the other. What is baked is judged by its kind and its time in the
//! oven. Stages of sugar and safe cores have rules of their own.

use super::oven_too_hot::HOTTEST_CELSIUS;
use super::temperature_scales_disagree::of_one_scale;
use crate::facts::{Reading, Said, Setting, Stated, StepKey};
use crate::measure::{Number, Scale, Use, fahrenheit, whole_fahrenheit};
use crate::proof::Context;
use crate::source::{Finding, Span};

/// No step of a sound recipe states more; so work stays in bounds.
const MOST: usize = 24;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let texts = context.said().filter(|said| said.key != StepKey::Mind);
    let mut findings: Vec<Finding> = texts.flat_map(|said| in_text(context, said)).collect();
    for line in context.facts.in_lines() {
        let shown = context.recipe.source.slice(&line.stated.span);
        let reading = line.reading.as_ref();
        findings.extend(reading.and_then(|reading| unlikely(reading, &line.stated, shown, line.stated.span.clone())));
    }
    findings
}

fn in_text(context: &Context<'_>, said: &Said<'_>) -> Vec<Finding> {
    let of = |(at, setting): (usize, &Setting)| {
        let before = at.checked_sub(1).map(|at| &said.settings[at]);
        let stated = only(setting).filter(|stated| !is_difference(said, before, setting, stated))?;
        // That is told already.
        if setting.ways.windows(2).any(|two| of_one_scale(&two[0], &two[1]).is_some()) {
            return None;
        }
        let hot = stated.temperature.celsius().1 > Number::from_integer(HOTTEST_CELSIUS);
        if hot && setting.to_use == Use::Oven {
            return None;
        }
        let (shown, place) = (&said.text[stated.span.clone()], said.span(stated.span.clone()));
        let readings = context.facts.readings(said, setting, stated);
        readings.iter().find_map(|reading| unlikely(reading, stated, shown, place.clone()))
    };
    said.settings.iter().take(MOST).enumerate().filter_map(of).collect()
}

/// Whether it says by how much, itself or as the other way of what stands before it: `by 30 °C (55 °F)`.
fn is_difference(said: &Said<'_>, before: Option<&Setting>, setting: &Setting, stated: &Stated) -> bool {
    let same = |before: &Setting| {
        let end = before.ways.last().map_or(0, |way| way.span.end);
        before.to_use == Use::Difference && said.text[end..stated.span.start].trim().trim_matches(['(', '/']).is_empty()
    };
    setting.to_use == Use::Difference || before.is_some_and(same)
}

/// The temperature of a setting in one scale; two scales that agree are no slip of one, and a gas mark has none.
fn only(setting: &Setting) -> Option<&Stated> {
    let first = setting.ways.first()?;
    let same = |way: &Stated| !way.gas && way.temperature.scale == first.temperature.scale;
    setting.ways.iter().all(same).then_some(first)
}

fn unlikely(reading: &Reading, stated: &Stated, shown: &str, place: Span) -> Option<Finding> {
    let (temperature, range) = (stated.temperature, reading.range);
    let possible = fits(temperature.celsius(), range);
    let meant = if possible { None } else { meant(stated, range, reading.digits) };
    if possible || (meant.is_none() && !reading.never) {
        return alone(reading, stated, shown, place);
    }
    let message = match &meant {
        Some((scale, _)) if *scale != temperature.scale => {
            format!("`{shown}` is {}, no temperature for {}", converted(stated), reading.what)
        }
        _ => format!("`{shown}` is no temperature for {}", reading.what),
    };
    let (low, high) = range;
    let label = format!("{low} to {high} °C ({} to {} °F)", whole_fahrenheit(low), whole_fahrenheit(high));
    let help = meant.map_or_else(|| "check the digits".to_string(), |(_, meant)| format!("is it `{meant}`?"));
    Some(Finding::at(place, message).label(label).help(help))
}

/// What is possible and unusual, where it is the only one in its scale and would be usual in the other.
fn alone(reading: &Reading, stated: &Stated, shown: &str, place: Span) -> Option<Finding> {
    if !reading.lone || fits(stated.temperature.celsius(), reading.usual) {
        return None;
    }
    let (scale, meant) = meant(stated, reading.usual, false)?;
    let sign = scale.sign();
    let message = format!("`{shown}` is {}, and all else is in {sign}", converted(stated));
    Some(Finding::at(place, message).label("the only one in its scale").help(format!("is it `{meant}`?")))
}

/// The higher end in the other scale, to the nearest degree.
fn converted(stated: &Stated) -> String {
    let number = match stated.temperature.scale {
        Scale::Celsius => fahrenheit(stated.temperature.high),
        Scale::Fahrenheit => stated.temperature.celsius().1,
    };
    let scale = stated.temperature.scale.other().sign();
    format!("{} {scale}", number.round().to_integer()).replace('-', "−")
}

fn fits((low, high): (Number, Number), range: (i64, i64)) -> bool {
    high >= Number::from_integer(range.0) && low <= Number::from_integer(range.1)
}

/// The temperature that a single slip makes of this one, where it fits a range.
fn meant(stated: &Stated, range: (i64, i64), digits: bool) -> Option<(Scale, String)> {
    let (number, scale) = (stated.temperature.high, stated.temperature.scale);
    let whole = number.is_integer().then(|| number.to_integer())?;
    let other = match scale {
        Scale::Celsius => Scale::Fahrenheit,
        Scale::Fahrenheit => Scale::Celsius,
    };
    let written = whole.abs().to_string();
    let swapped = (1..written.len()).filter_map(|at| {
        let mut swapped: Vec<char> = written.chars().collect();
        swapped.swap(at - 1, at);
        swapped.into_iter().collect::<String>().parse().ok()
    });
    let of_digits = [whole * 10, whole + 100, -whole, whole / 10, whole - 100].into_iter().chain(swapped);
    let of_digits = of_digits.filter(|_| digits).map(|number: i64| (number, scale));
    // Below nothing a minus is lost sooner than a scale is mistaken.
    let minus = (digits && range.1 < 0).then_some((-whole, scale));
    let slips = minus.into_iter().chain(std::iter::once((whole, other))).chain(of_digits);
    let celsius = |(number, scale): &(i64, Scale)| {
        let number = Number::from_integer(*number);
        match scale {
            Scale::Celsius => number,
            Scale::Fahrenheit => crate::measure::celsius(number),
        }
    };
    let fitting = slips.into_iter().find(|slip| fits((celsius(slip), celsius(slip)), range));
    fitting.map(|(number, scale)| (scale, format!("{number} {}", scale.sign()).replace('-', "−")))
}
