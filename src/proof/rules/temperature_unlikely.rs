//! What it finds: a temperature at which what the step does cannot be done, where one slip explains it: the number of the
//! other scale, a digit too few or too many, two digits swapped, a minus that is lost.
//!
//! Why it matters: at 180 °F nothing browns, and yeast dies in water at 110 °C.
//!
//! Example: `Bake at 180 °F for 12 minutes, until golden.`
//!
//! Instead: `Bake at 180 °C for 12 minutes, until golden.`
//!
//! Source: common practice: ranges so wide that no sound recipe leaves them. Stages of sugar and safe cores have rules
//! of their own.

use std::ops::Range;

use crate::facts::{Said, Setting, Stated, StepKey};
use crate::language::{Sense, sentence, sentence_at};
use crate::measure::{Number, Scale, Use, whole_fahrenheit};
use crate::proof::Context;
use crate::source::Finding;

/// What is done at a temperature: the words of its sentence that tell it, those that make it something else, what it is
/// called, and its range in °C.
struct Doing {
    told: &'static [Sense],
    unless: &'static [Sense],
    /// Words of the very clause of the temperature; where there are some, what makes it something else stands there too.
    near: &'static [Sense],
    to_use: Option<Use>,
    /// Whether no recipe goes there, slip or none.
    never: bool,
    /// The longest time in minutes at which the range holds; more of it does the same with less heat.
    within: Option<u64>,
    what: &'static str,
    range: (i64, i64),
}

const fn doing(told: &'static [Sense], unless: &'static [Sense], what: &'static str, range: (i64, i64)) -> Doing {
    Doing { told, unless, near: &[], to_use: Some(Use::Thermometer), never: false, within: None, what, range }
}

/// What is looked for, the surest first.
const DOINGS: [Doing; 14] = [
    Doing { near: &[Sense::Freezer], to_use: None, ..doing(&[], &[], "a freezer", (-45, -5)) },
    Doing { near: &[Sense::Fridge], to_use: None, ..doing(&[], &[Sense::OvenCooks], "a refrigerator", (-3, 14)) },
    Doing { near: &[Sense::Works], ..doing(&[Sense::ChocolateThing], &[], "chocolate to work with", (26, 36)) },
    doing(&[Sense::SettingPoint], &[], "jam at its setting point", (101, 111)),
    Doing { never: true, ..doing(&[Sense::Nappe], &[], "custard that coats a spoon", (70, 92)) },
    doing(
        &[Sense::CustardThing, Sense::CooksTo],
        &[Sense::OvenCooks, Sense::Bath, Sense::Churned, Sense::Freezer, Sense::Cooled],
        "custard",
        (50, 96),
    ),
    doing(&[Sense::Yeast, Sense::WetThing], &[Sense::Proves, Sense::OvenCooks], "water that yeast bears", (10, 50)),
    Doing { to_use: None, ..doing(&[Sense::Proves, Sense::Dough], &[Sense::OvenCooks], "a dough that rises", (0, 50)) },
    doing(&[Sense::Amber], &[], "amber caramel", (145, 215)),
    doing(&[Sense::Fat, Sense::PanFries], &[Sense::OvenCooks, Sense::Core], "fat for frying", (110, 235)),
    doing(&[Sense::Flesh, Sense::Registers], &[Sense::Fat], "the core of meat", (40, 105)),
    Doing {
        to_use: Some(Use::Oven),
        within: Some(60),
        ..doing(
            &[Sense::OvenCooks, Sense::Browns],
            &[Sense::LowOven],
            "an oven that browns within the hour",
            (120, 600),
        )
    },
    Doing {
        to_use: Some(Use::Oven),
        ..doing(&[Sense::OvenCooks, Sense::Browns], &[Sense::LowOven], "an oven that browns", (100, 600))
    },
    Doing { to_use: Some(Use::Oven), ..doing(&[Sense::OvenCooks], &[Sense::LowOven], "baking", (75, 600)) },
];

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let texts = context.said().filter(|said| matches!(said.key, StepKey::Do | StepKey::Heat | StepKey::Oven));
    texts.flat_map(|said| in_text(context, said)).collect()
}

fn in_text(context: &Context<'_>, said: &Said<'_>) -> Vec<Finding> {
    let settings = said.settings.iter().filter(|setting| setting.to_use != Use::Difference);
    settings.filter_map(|setting| unlikely(context, said, setting)).collect()
}

fn unlikely(context: &Context<'_>, said: &Said<'_>, setting: &Setting) -> Option<Finding> {
    // Two scales that agree are no slip of one.
    let [stated] = setting.ways.as_slice() else { return None };
    let doing = DOINGS.iter().find(|doing| is_doing(context, said, setting, stated, doing)).filter(|_| !stated.gas)?;
    if fits(stated.temperature.celsius(), doing.range) {
        return None;
    }
    let meant = meant(stated, doing.range);
    if meant.is_none() && !doing.never {
        return None;
    }
    let shown = &said.text[stated.span.clone()];
    let (low, high) = doing.range;
    let message = format!("`{shown}` is no temperature for {}", doing.what);
    let label = format!("{low} to {high} °C ({} to {} °F)", whole_fahrenheit(low), whole_fahrenheit(high));
    let help = meant.map_or_else(|| "check the digits".to_string(), |meant| format!("is it `{meant}`?"));
    Some(Finding::at(said.span(stated.span.clone()), message).label(label).help(help))
}

fn fits((low, high): (Number, Number), range: (i64, i64)) -> bool {
    high >= Number::from_integer(range.0) && low <= Number::from_integer(range.1)
}

/// Whether the words of a doing stand where the temperature does: those of its step under `heat` and `oven`.
fn is_doing(context: &Context<'_>, said: &Said<'_>, setting: &Setting, stated: &Stated, doing: &Doing) -> bool {
    if doing.to_use.is_some_and(|to_use| to_use != setting.to_use) {
        return false;
    }
    let step = &context.recipe.components[said.component].steps[said.step];
    let given = step.time.iter().chain(&step.wait).map(|time| time.high).sum::<u64>();
    if doing.within.is_some_and(|minutes| given == 0 || given > minutes * 60) {
        return false;
    }
    let (own, sentence, clause) = match said.key {
        StepKey::Do => (said, sentence_of(said, stated), clause(said, stated)),
        _ => match context.facts.said_under(said.component, said.step, StepKey::Do) {
            Some(other) => (other, 0..other.words.len(), 0..other.words.len()),
            None => return false,
        },
    };
    // What is fried has a core, and `heat` speaks of that.
    let of_core = said.key == StepKey::Heat && own.tells(Sense::Flesh);
    if of_core && doing.told.contains(&Sense::Fat) {
        return false;
    }
    let tells = |places: &Range<usize>, of: &Sense| places.clone().any(|at| own.tells_at(*of, at));
    let judged = if doing.near.is_empty() { &sentence } else { &clause };
    doing.told.iter().all(|of| tells(&sentence, of))
        && doing.near.iter().all(|of| tells(&clause, of))
        && !doing.unless.iter().any(|of| tells(judged, of))
}

fn sentence_of(said: &Said<'_>, stated: &Stated) -> Range<usize> {
    sentence(&said.words, sentence_at(&said.words, stated.span.start))
}

fn clause(said: &Said<'_>, stated: &Stated) -> Range<usize> {
    let sentence = sentence_of(said, stated);
    let at = said.words.partition_point(|word| word.span.end <= stated.span.start).min(sentence.end.saturating_sub(1));
    let parts = |at: usize| said.words[at].before.contains([',', ';', ':']) || said.tells_at(Sense::Then, at);
    let first = (sentence.start..=at).rev().find(|at| parts(*at)).unwrap_or(sentence.start);
    let last = (at + 1..sentence.end).find(|at| parts(*at)).unwrap_or(sentence.end);
    first..last
}

/// The temperature that a single slip makes of this one, where it fits a range.
fn meant(stated: &Stated, range: (i64, i64)) -> Option<String> {
    let (number, scale) = (stated.temperature.high, stated.temperature.scale);
    let whole = number.is_integer().then(|| number.to_integer())?;
    let other = match scale {
        Scale::Celsius => Scale::Fahrenheit,
        Scale::Fahrenheit => Scale::Celsius,
    };
    let digits = whole.abs().to_string();
    let swapped = (1..digits.len()).filter_map(|at| {
        let mut swapped: Vec<char> = digits.chars().collect();
        swapped.swap(at - 1, at);
        swapped.into_iter().collect::<String>().parse().ok()
    });
    let slips = [(whole, other), (whole * 10, scale), (whole + 100, scale), (-whole, scale), (whole / 10, scale)];
    let slips = slips.into_iter().chain(swapped.map(|number: i64| (number, scale)));
    let celsius = |(number, scale): &(i64, Scale)| {
        let number = Number::from_integer(*number);
        match scale {
            Scale::Celsius => number,
            Scale::Fahrenheit => crate::measure::celsius(number),
        }
    };
    let fitting = slips.into_iter().find(|slip| fits((celsius(slip), celsius(slip)), range));
    fitting.map(|(number, scale)| {
        let scale = if scale == Scale::Celsius { "°C" } else { "°F" };
        format!("{number} {scale}").replace('-', "−")
    })
}
