//! What it finds: one temperature given in two scales, with a fan setting or with a gas mark, that are not the same.
//!
//! Why it matters: half of the readers bake at the wrong one, and nobody can tell which was meant.
//!
//! Example: `oven: 190 °C (350 °F)`
//!
//! Instead: `oven: 190 °C (375 °F)`, or one scale alone; the other is computed.
//!
//! Source: NIST SP 811 for the scales; the dial's steps and the gas marks as in common handbooks. An oven may be 10 °C
//! off and frying fat 5 °C, other temperatures 1 °C, or 1.5 °C where both end in 0 or 5. A fan oven is set 5 to 30 °C
//! lower (common practice).

use num_rational::Ratio;

use crate::facts::{Said, Setting, Stated};
use crate::language::{Sense, sentence, sentence_at};
use crate::measure::{Number, Scale, Temperature, Use, decimals};
use crate::proof::Context;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for said in context.said() {
        for Setting { ways, to_use } in said.settings.iter().filter(|setting| setting.to_use != Use::Difference) {
            let first = &ways[0];
            if let Some((wrong, other)) = ways.windows(2).find_map(|two| of_one_scale(&two[0], &two[1])) {
                findings.push(wrong_scale(said, wrong, other));
                continue;
            }
            let pairs = ways.windows(2).map(|two| (&two[0], &two[1]));
            let wrong = pairs.into_iter().find(|(before, other)| !agree(said, first, before, other, *to_use));
            findings.extend(wrong.map(|(_, other)| finding(said, first, other, *to_use)));
        }
    }
    findings
}

/// Whether the first of a group and another mean one temperature; `before` is the one in front of the other.
fn agree(said: &Said<'_>, first: &Stated, before: &Stated, other: &Stated, to_use: Use) -> bool {
    if first.fan != other.fan {
        return fan_agrees(first, other);
    }
    if first.temperature.scale == other.temperature.scale && !other.gas && !first.gas {
        // `180 °C (170 °C)` may be a range or a choice.
        return true;
    }
    let slack = if first.gas || other.gas { Ratio::new(14, 1) } else { slack(said, first, other, to_use) };
    let off = apart(first.temperature, other.temperature);
    // A second scale behind a fan setting may be that of the oven without a fan, and the other way round.
    let of_fan = before.fan && !other.gas && apart(before.temperature, other.temperature) <= slack;
    off <= slack || of_fan || (first.fan && fan_agrees(first, &Stated { fan: false, ..other.clone() }))
}

/// Of a pair in one scale that would be one temperature in two, `105 °F (221 °F)`, the one whose scale is wrong and the other.
pub(super) fn of_one_scale<'s>(one: &'s Stated, other: &'s Stated) -> Option<(&'s Stated, &'s Stated)> {
    let scale = one.temperature.scale;
    if scale != other.temperature.scale || one.fan != other.fan || one.gas || other.gas {
        return None;
    }
    let (cold, hot) = if one.temperature.high < other.temperature.high { (one, other) } else { (other, one) };
    let as_scales = |stated: &Stated, scale| Temperature { scale, ..stated.temperature };
    let off = apart(as_scales(cold, Scale::Celsius), as_scales(hot, Scale::Fahrenheit));
    let wrong = if scale == Scale::Fahrenheit { (cold, hot) } else { (hot, cold) };
    (off <= Number::new(3, 2)).then_some(wrong)
}

fn wrong_scale(said: &Said<'_>, wrong: &Stated, other: &Stated) -> Finding {
    let shown = |stated: &Stated| said.text[stated.span.clone()].to_string();
    let message = format!("`{}` and `{}` are far apart in one scale, and the same in two", shown(wrong), shown(other));
    let mended = format!("{} {}", range(wrong.temperature.low, wrong.temperature.high), wrong.temperature.scale.other().sign());
    Finding::at(said.span(wrong.span.clone()), message)
        .other(said.span(other.span.clone()), "the other")
        .help(format!("is it `{mended}`?"))
}

/// How far apart two temperatures are in °C, at the end where they are farther.
fn apart(one: Temperature, other: Temperature) -> Number {
    let gap = |a: Number, b: Number| if a > b { a - b } else { b - a };
    let (one, other) = (one.celsius(), other.celsius());
    gap(one.0, other.0).max(gap(one.1, other.1))
}

/// Whether a fan setting is as far below the other as ovens ask.
fn fan_agrees(one: &Stated, other: &Stated) -> bool {
    let (fan, still) = if one.fan { (one, other) } else { (other, one) };
    let lower = still.temperature.celsius().1 - fan.temperature.celsius().1;
    (Number::from_integer(5)..=Number::from_integer(32)).contains(&lower)
}

fn slack(said: &Said<'_>, first: &Stated, other: &Stated, to_use: Use) -> Number {
    if to_use == Use::Oven {
        return Number::from_integer(10);
    }
    let tells = |of: Sense| {
        let mut own = sentence(&said.words, sentence_at(&said.words, first.span.start));
        own.any(|at| said.tells_at(of, at))
    };
    let fives = |stated: &Stated| (stated.temperature.high / 5).is_integer();
    match () {
        () if tells(Sense::FryingFat) => Number::from_integer(5),
        () if tells(Sense::Roughly) => Number::new(5, 2),
        () if fives(first) && fives(other) => Number::new(3, 2),
        () => Number::from_integer(1),
    }
}

fn finding(said: &Said<'_>, first: &Stated, other: &Stated, to_use: Use) -> Finding {
    let shown = |stated: &Stated| said.text[stated.span.clone()].to_string();
    let place = said.span(other.span.clone());
    let base = |label: &str, message: String| {
        Finding::at(place.clone(), message).label(label).other(said.span(first.span.clone()), "the first stated")
    };
    if first.fan != other.fan && first.temperature.scale == other.temperature.scale {
        let message = format!("`{}` and `{}` are not one oven with a fan and without", shown(first), shown(other));
        return base("", message).help("a fan oven is set about 20 °C (25 to 35 °F) lower");
    }
    let (low, high) = other.temperature.celsius();
    let in_first = match first.temperature.scale {
        Scale::Celsius => format!("{} °C", range(low, high)),
        Scale::Fahrenheit => {
            let (low, high) = if other.temperature.scale == Scale::Fahrenheit {
                (other.temperature.low, other.temperature.high)
            } else {
                (crate::measure::fahrenheit(low), crate::measure::fahrenheit(high))
            };
            format!("{} °F", range(low, high))
        }
    };
    let message = format!("`{}` is {in_first}, not `{}`", shown(other), shown(first));
    let found = base("not the same temperature", message);
    if other.gas || first.gas || first.fan != other.fan {
        return found.help("keep the one that you bake at; the others are computed");
    }
    let written = replacement(&shown(other), first.temperature.converted(to_use));
    let help = format!("if `{}` is right, write `{written}`, or leave it out: it is computed", shown(first));
    found.help(help)
}

fn range(low: Number, high: Number) -> String {
    let whole = |number: Number| decimals(number.round(), 0, '.');
    if low == high { whole(low) } else { format!("{}–{}", whole(low), whole(high)) }
}

/// A temperature's text with other numbers, its sign and spacing kept.
fn replacement(written: &str, right: Temperature) -> String {
    let end = written.rfind(|c: char| c.is_ascii_digit() || "½¼¾".contains(c));
    let end = end.map_or(0, |at| at + written[at..].chars().next().map_or(0, char::len_utf8));
    format!("{}{}", range(right.low, right.high), &written[end..])
}
