//! Lengths of time.

use crate::language::{Language, TimeUnit, TimeWords, Word};
use crate::measure::{Duration, LARGEST, Number};
use crate::source::Span;

/// `overnight` in hours. Common practice.
const OVERNIGHT: (u64, u64) = (8, 12);

const HOUR: u64 = 3600;

/// Reads `22–25 min`, `1 h 30 min`, `1 1/2 hours`, `90 s`, `overnight`, `2 days`, in the words of a language; `None` for
/// anything else.
pub fn duration(text: &str, words: &TimeWords) -> Option<Duration> {
    let lower = text.trim().to_lowercase().replace('\u{2019}', "'");
    let about = words.about.iter().find_map(|about| lower.strip_prefix(about.as_str())?.strip_prefix(' '));
    let rest = about.unwrap_or(&lower).trim();
    if words.overnight.iter().any(|overnight| overnight == rest) {
        return Some(Duration { low: OVERNIGHT.0 * HOUR, high: OVERNIGHT.1 * HOUR });
    }
    match words.spoken.get(rest) {
        Some(figures) => read(figures, words),
        None => read(rest, words),
    }
}

/// Words of the longest length of time: `about 1 hour and 30 to 40 minutes`.
const LONGEST: usize = 9;

/// The lengths of time in running text, with their places, in order; `said` is its words.
pub fn durations(text: &str, said: &[Word], language: &Language) -> Vec<(Span, Duration)> {
    let words = language.times();
    let mut found = Vec::new();
    let starts: Vec<usize> = said.iter().map(|word| word.span.start).collect();
    let may_start = |word: &Word| {
        let begins = |phrase: &String| phrase.starts_with(word.written.as_str());
        word.written.starts_with(char::is_numeric) || words.overnight.iter().chain(&words.about).any(begins)
    };
    let end_of =
        |start: usize| text[start..].find(|c: char| !c.is_alphanumeric()).map_or(text.len(), |length| start + length);
    let mut from = 0;
    while from < starts.len() {
        if let Some((to, span)) = spoken(text, &starts[from..], words) {
            found.extend(duration(&text[span.clone()], words).map(|length| (span, length)));
            from += to;
            continue;
        }
        let last = starts.len().min(from + LONGEST);
        let end = end_of(starts[from]);
        let unit_behind = || {
            let next = *starts.get(from + 1)?;
            words.unit(&text[next..end_of(next)]).filter(|_| !is_digit(text, starts[from]))
        };
        let count = unit_behind().and_then(|_| language.count(&text[starts[from]..end].to_lowercase()));
        if count.is_none() && !may_start(&said[from]) {
            from += 1;
            continue;
        }
        // `two hours` is read as `2 hours`.
        let of = |span: &Span| match count {
            Some(count) => duration(&format!("{count}{}", &text[end..span.end]), words),
            None => duration(&text[span.clone()], words),
        };
        // A length of time ends in a unit, in a number that has one or leaves it out, or in a word of its own.
        let may_end = |to: &usize| {
            let word = &text[starts[*to]..end_of(starts[*to])];
            let own = || words.overnight.iter().any(|phrase| phrase.ends_with(&word.to_lowercase()));
            is_digit(text, starts[*to])
                || words.unit(word).is_some()
                || words.unit(&word.to_lowercase()).is_some()
                || own()
        };
        let read = (from..last).rev().filter(may_end).find_map(|to| {
            let span = starts[from]..end_of(starts[to]);
            let before = text[..span.start].trim_end();
            let range = before.ends_with(['–', '-', '/', '.', ',']) && before.len() == span.start;
            (!range).then(|| of(&span)).flatten().map(|read| (to, span, read))
        });
        match read {
            Some((to, span, read)) => {
                found.push((span, read));
                from = to + 1;
            }
            None => from += 1,
        }
    }
    found
}

/// The longest length said in words that begins a text at the first of some word starts: how many words, and its bytes.
fn spoken(text: &str, starts: &[usize], words: &TimeWords) -> Option<(usize, Span)> {
    let rest = &text[starts[0]..];
    // A typographic apostrophe is longer than the plain one of the phrase.
    let length = |phrase: &str| {
        let same =
            |said: char, own: char| said == own || said == '\u{2019}' && own == '\'' || said.to_lowercase().eq([own]);
        let mut said = rest.char_indices();
        let fits = phrase.chars().all(|own| said.next().is_some_and(|(_, said)| same(said, own)));
        let behind = said.as_str();
        (fits && !behind.starts_with(char::is_alphanumeric)).then_some(rest.len() - behind.len())
    };
    let phrases = words.spoken.keys().chain(&words.overnight);
    let span = starts[0]..starts[0] + phrases.filter_map(|phrase| length(phrase)).max()?;
    Some((starts.iter().take_while(|start| **start < span.end).count(), span))
}

fn is_digit(text: &str, at: usize) -> bool {
    text[at..].starts_with(|c: char| c.is_ascii_digit())
}

/// One or more `number[–number] unit`, added up.
fn read(text: &str, words: &TimeWords) -> Option<Duration> {
    let mut rest = text;
    let mut total = Duration::default();
    let mut any = false;
    while !rest.is_empty() {
        let (low, after) = number(rest)?;
        if let Some(minutes) = after_hours(low, after, total) {
            total = total.plus(Duration::seconds(minutes * 60));
            break;
        }
        let mut high = low;
        rest = after.trim_start();
        if let Some((end, after)) = range_mark(rest, words).and_then(number) {
            high = end;
            rest = after.trim_start();
        }
        let (mut unit, mut after) = unit(rest, words)?;
        let low_unit = unit;
        if let Some((end, behind)) = range_mark(after.trim_start(), words).and_then(number) {
            // `1 h to 90 min`: the other end has its own unit.
            high = end;
            (unit, after) = self::unit(behind.trim_start(), words)?;
        }
        total = total.plus(Duration { low: seconds(low, low_unit)?, high: seconds(high, unit)? });
        any = true;
        rest = after.trim_start_matches(['.', ',', ' ']).trim_start();
        let and = words.and.iter().find_map(|and| rest.strip_prefix(and.as_str())?.strip_prefix(' '));
        rest = and.unwrap_or(rest).trim_start();
    }
    (any && total.low <= total.high && total.high > 0).then_some(total)
}

/// The minutes of `1 h 30` and `1h05`, which bear no unit: two digits that end the text, behind whole hours.
fn after_hours(number: Number, after: &str, total: Duration) -> Option<u64> {
    let minutes = u64::try_from(number.to_integer()).ok().filter(|_| number.is_integer() && after.is_empty())?;
    let hours = total.low == total.high && total.low >= HOUR && total.low.is_multiple_of(HOUR);
    (hours && minutes < 60).then_some(minutes)
}

/// To the nearest second.
fn seconds(number: Number, unit: TimeUnit) -> Option<u64> {
    let whole = number * Number::from_integer(i64::try_from(unit.seconds()).ok()?);
    u64::try_from(whole.round().to_integer()).ok().filter(|_| number <= Number::from_integer(LARGEST))
}

/// What is behind `–` or `to` and the like.
fn range_mark<'t>(text: &'t str, words: &TimeWords) -> Option<&'t str> {
    let dash = ["–", "-", "—"].iter().find_map(|mark| text.strip_prefix(mark));
    let word = || words.range.iter().find_map(|word| text.strip_prefix(word.as_str())?.strip_prefix(' '));
    dash.or_else(word).map(str::trim_start)
}

fn number(text: &str) -> Option<(Number, &str)> {
    super::number(text).map(|(number, end)| (number, &text[end..]))
}

fn unit<'t>(text: &'t str, words: &TimeWords) -> Option<(TimeUnit, &'t str)> {
    let end = text.find(|c: char| !c.is_alphabetic()).unwrap_or(text.len());
    words.unit(&text[..end]).map(|unit| (unit, &text[end..]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::Dictionary;

    #[test]
    fn durations_as_written() {
        let words = Dictionary::of("fr").unwrap();
        let read = |text: &str| duration(text, words.times());
        let case = |text: &str, low, high| assert_eq!(read(text), Some(Duration { low, high }), "{text}");
        case("22–25 min", 1320, 1500);
        case("12-15 mins", 720, 900);
        case("1 h", 3600, 3600);
        case("1 h 30 min", 5400, 5400);
        case("1 1/2 hours", 5400, 5400);
        case("1½ h", 5400, 5400);
        case("90 s", 90, 90);
        case("overnight", 28_800, 43_200);
        case("2 to 3 days", 172_800, 259_200);
        case("1 h to 90 min", 3600, 5400);
        case("about 1 hour and 10 minutes", 4200, 4200);
        case("3 jours", 259_200, 259_200);
        case("une nuit", 28_800, 43_200);
        case("environ 2 heures et 15 minutes", 8100, 8100);
        case("2 à 3 h", 7200, 10_800);
        case("1,5 h", 5400, 5400);
        for bad in ["", "soon", "5", "h", "3 to 2 h", "1/0 h", "99999999999 h"] {
            assert!(read(bad).is_none(), "{bad}");
        }
    }

    #[test]
    fn durations_in_running_text() {
        let case = |tag: &str, text: &str, wanted: &[(&str, u64)]| {
            let language = Language::of(tag).unwrap();
            let found = durations(text, &language.read(text), &language);
            let found: Vec<_> = found.iter().map(|(span, length)| (&text[span.clone()], length.high)).collect();
            assert_eq!(found, wanted, "{text}");
        };
        case("en-US", "Bake for half an hour, then 10 minutes more.", &[("half an hour", 1800), ("10 minutes", 600)]);
        case("en-US", "An hour and a half. Two hours.", &[("An hour and a half", 5400), ("Two hours", 7200)]);
        case("en-US", "three-quarters of an hour; half an hourglass", &[("three-quarters of an hour", 2700)]);
        case("fr", "Laissez lever toute une nuit.", &[("toute une nuit", 43_200)]);
        case(
            "fr",
            "Laissez une demi-heure puis trois quarts d’heure.",
            &[("une demi-heure", 1800), ("trois quarts d’heure", 2700)],
        );
    }
}
