//! Temperatures that stand together in a text, and what they are for.

use super::step_key::StepKey;
use crate::language::{Differences, Language, Sense, Word, measure_words, sentence, sentence_at};
use crate::measure::{Temperature, Use};
use crate::source::Span;
use crate::text::TemperatureMention;

/// One setting of a text, in all the ways that it is stated: `180 °C (160 °C fan, 350 °F, gas mark 4)`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setting {
    /// The ways, at least one, in order.
    pub ways: Vec<Stated>,
    /// What it is for.
    pub to_use: Use,
}

impl Setting {
    /// Whether it is stated in both scales already; a gas mark is none of them.
    pub fn is_in_both_scales(&self) -> bool {
        let degrees: Vec<&Stated> = self.ways.iter().filter(|stated| !stated.gas).collect();
        degrees.iter().any(|stated| stated.temperature.scale != degrees[0].temperature.scale)
    }
}

/// A temperature in a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stated {
    /// Its bytes.
    pub span: Span,
    /// What it says; a gas mark by its degrees Fahrenheit.
    pub temperature: Temperature,
    /// A fan oven is meant.
    pub fan: bool,
    /// It is a gas mark.
    pub gas: bool,
}

/// Whether an oven is on at a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Oven {
    /// No step has set one.
    Off,
    /// One before has.
    On,
    /// This very step does.
    SetHere,
}

/// The settings of a text that stands under a key of a step.
pub(super) fn settings(text: &str, words: &[Word], key: StepKey, oven: Oven, language: &Language) -> Vec<Setting> {
    let is_apart = |place: &Span| is_difference(text, place, language.differences());
    let setting = |ways: Vec<Stated>| {
        let (from, to) = (ways[0].span.start, ways[ways.len() - 1].span.end);
        let to_use = match is_apart(&(from..to)) {
            true => Use::Difference,
            false => purpose(words, from..to, key, oven, language),
        };
        Setting { ways, to_use }
    };
    groups(text, language, is_apart).into_iter().map(setting).collect()
}

/// The settings of an ingredient line: `warmed to 38 °C`.
pub(super) fn settings_of_line(text: &str, words: &[Word], language: &Language) -> Vec<Setting> {
    let found = settings(text, words, StepKey::Heat, Oven::Off, language);
    found.into_iter().filter(|setting| setting.to_use != Use::Difference).collect()
}

/// `by 20 °C`, `5 °C less`: how much hotter or colder, and no temperature.
fn is_difference(text: &str, place: &Span, differences: &Differences) -> bool {
    let before = text[..place.start].trim_end_matches([' ', '(']).to_lowercase();
    let behind = text[place.end..].trim_start_matches([' ', '\u{A0}', '(', ')']).to_lowercase();
    let apart = |rest: &str| !rest.starts_with(char::is_alphanumeric);
    let leads =
        |word: &String| before.strip_suffix(word.as_str()).is_some_and(|rest| !rest.ends_with(char::is_alphanumeric));
    let follows = |word: &String| behind.strip_prefix(word.as_str()).is_some_and(apart);
    differences.before.iter().any(leads) || differences.behind.iter().any(follows)
}

/// The temperatures of a text in groups; those of a group mean one setting. What is apart stands in none with others.
fn groups(text: &str, language: &Language, is_apart: impl Fn(&Span) -> bool) -> Vec<Vec<Stated>> {
    let mut groups: Vec<Vec<Stated>> = Vec::new();
    for TemperatureMention { span, temperature, gas } in crate::text::settings(text) {
        let mut stated = Stated { span, temperature, fan: false, gas };
        let joined = groups.last_mut().filter(|group| {
            let gap = &text[group.last().map_or(0, |last| last.span.end)..stated.span.start];
            let apart = is_apart(&stated.span) || group.last().is_some_and(|last| is_apart(&last.span));
            is_joint(gap, language) && !(says_or(gap, language) && has_both_scales(group)) && !apart
        });
        match joined {
            Some(group) => {
                let last = group.last_mut().expect("no group is empty");
                let (behind, ahead) = parted(&text[last.span.end..stated.span.start]);
                last.fan |= measure_words().says_fan(behind) && !ahead.is_empty();
                stated.fan = measure_words().says_fan(ahead) || (ahead.is_empty() && measure_words().says_fan(behind));
                group.push(stated);
            }
            None => {
                let sentence = text[..stated.span.start].rsplit(['.', ',', ';', '/', '(']).next().unwrap_or_default();
                stated.fan = measure_words().says_fan(sentence);
                groups.push(vec![stated]);
            }
        }
    }
    for group in &mut groups {
        let last = group.last_mut().expect("no group is empty");
        let rest = text[last.span.end..].trim_start_matches([' ', '(']);
        let next = rest.split([',', '.', ';', '/', ')', '(']).next().unwrap_or_default();
        last.fan |= measure_words().says_fan(&next.split_whitespace().take(2).collect::<Vec<_>>().join(" "));
    }
    groups
}

/// Whether a text between two temperatures lets both be one setting.
fn is_joint(gap: &str, language: &Language) -> bool {
    let between = language.lexicon(Sense::BetweenWays);
    let joins = language.read(gap).iter().all(|word| between.has(word));
    gap.len() <= 40 && !gap.contains(". ") && !gap.contains('–') && joins && !gap.contains([';', '!', '?', ':'])
}

/// Another setting follows, not another way to say the same.
fn says_or(gap: &str, language: &Language) -> bool {
    language.tells(Sense::Or, gap)
}

fn has_both_scales(group: &[Stated]) -> bool {
    group.iter().any(|stated| stated.temperature.scale != group[0].temperature.scale)
}

/// What belongs to the temperature before a gap, and what to the one behind it.
fn parted(gap: &str) -> (&str, &str) {
    match gap.find(['/', ',', '(', '|', ')', '=']) {
        Some(at) => (&gap[..at], &gap[at..]),
        None => (gap, ""),
    }
}

/// What a temperature is for: by its key, else by the nearest word in front of it in its sentence, else by the nearest
/// behind it, else by what the oven does.
fn purpose(words: &[Word], place: Span, key: StepKey, oven: Oven, language: &Language) -> Use {
    match key {
        StepKey::Oven => return Use::Oven,
        StepKey::Heat => return Use::Thermometer,
        _ => {}
    }
    let (dial, probe) = (language.lexicon(Sense::Oven), language.lexicon(Sense::Probe));
    let cue = |word: &Word| match word {
        word if dial.has(word) => Some(Use::Oven),
        word if probe.has(word) => Some(Use::Thermometer),
        _ => None,
    };
    let own = &words[sentence(words, sentence_at(words, place.start))];
    let sentence = || own.iter();
    let before = sentence().filter(|word| word.span.end <= place.start).rev().find_map(cue);
    let behind = || sentence().filter(|word| word.span.start >= place.end).find_map(cue);
    let turned = || sentence().any(|word| language.lexicon(Sense::Turned).has(word));
    let by_oven = || match oven {
        Oven::SetHere => Use::Oven,
        Oven::On if turned() => Use::Oven,
        Oven::On | Oven::Off => Use::Thermometer,
    };
    before.or_else(behind).unwrap_or_else(by_oven)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_means_one_setting_stands_in_one_group() {
        let case = |text: &str, wanted: &[&str]| {
            let shown: Vec<String> = groups(text, &Language::default(), |_| false)
                .into_iter()
                .map(|group| {
                    let one = |stated: &Stated| {
                        format!("{}{}", &text[stated.span.clone()], if stated.fan { " fan" } else { "" })
                    };
                    group.iter().map(one).collect::<Vec<_>>().join("|")
                })
                .collect();
            assert_eq!(shown, wanted, "{text}");
        };
        case("Heat the oven to 180C/160C fan/gas 4.", &["180C|160C fan|gas 4"]);
        case("180 °C (fan 160 °C, 350 °F, gas mark 4)", &["180 °C|160 °C fan|350 °F|gas mark 4"]);
        case("180°C (160°C fan)", &["180°C|160°C fan"]);
        case("fan 160C (325F)", &["160C fan|325F"]);
        case("350 degrees F (175 degrees C)", &["350 degrees F|175 degrees C"]);
        case("Bake at 200 °C for 10 min, then at 350 °F.", &["200 °C", "350 °F"]);
        case("Cook to 121 °C. Cool to 95 °F", &["121 °C", "95 °F"]);
        case("−18 °C (0 °F) or 4 °C (40 °F)", &["−18 °C|0 °F", "4 °C|40 °F"]);
        case("a gas hob, gas mark ½", &["gas mark ½"]);
        case("Bake at gas 4/180C.", &["gas 4|180C"]);
        case("gas 4, 4-180 °C gas 4/180C/gas", &["gas 4|4-180 °C|gas 4|180C"]);
    }
}
