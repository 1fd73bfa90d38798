//! Measures in running text: temperatures and lengths, found where they stand.

use std::sync::LazyLock;

use crate::language::measure_words;
use crate::measure::{LengthUnit, Number, Scale, Temperature, vulgar};
use crate::source::Span;

/// What may stand between a number and its unit.
const BLANKS: [char; 3] = [' ', '\u{A0}', '\u{202F}'];

/// What stands between two numbers, and how it is printed.
static BETWEEN: LazyLock<Vec<(String, &str)>> = LazyLock::new(|| {
    let signs = [("–", "–"), ("-", "–"), (" – ", "–"), (" x ", PRODUCT), (" × ", PRODUCT), ("×", PRODUCT)];
    let signs = signs.map(|(mark, between)| (mark.to_string(), between));
    signs.into_iter().chain(measure_words().to.iter().map(|to| (format!(" {to} "), "–"))).collect()
});

/// Between the sides of a thing.
const PRODUCT: &str = " × ";

/// The most sides of a thing.
const SIDES: usize = 3;

/// A temperature in a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TemperatureMention {
    /// Its bytes.
    pub span: Span,
    /// What it says; a gas mark by its degrees Fahrenheit.
    pub temperature: Temperature,
    /// Whether it is a gas mark.
    pub gas: bool,
}

/// A length in a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LengthMention {
    /// Its bytes.
    pub span: Span,
    /// The numbers: one, two for a range, two or three for a product (`20 x 30 cm`).
    pub numbers: Vec<Number>,
    /// What stands between the numbers: `–` or ` × `.
    pub between: &'static str,
    /// Their unit.
    pub unit: LengthUnit,
}

/// The temperatures in a text, in order: `121 °C`, `375F`, `160–170 degrees C`.
pub fn temperatures(text: &str) -> Vec<TemperatureMention> {
    let mut found = Vec::new();
    let mut from = 0;
    while let Some(numbers) = next_numbers(text, from) {
        from = numbers.span.end;
        if let Some((scale, length)) = scale(&text[numbers.span.end..])
            && numbers.between != PRODUCT
        {
            let high = *numbers.values.last().unwrap_or(&numbers.values[0]);
            let temperature = Temperature { low: numbers.values[0], high, scale };
            from = numbers.span.end + length;
            found.push(TemperatureMention { span: numbers.span.start..from, temperature, gas: false });
        }
    }
    found
}

/// The temperatures and gas marks in a text, in order; no two of them share a byte, and of two that would the first is
/// taken.
pub fn settings(text: &str) -> Vec<TemperatureMention> {
    let mut found: Vec<TemperatureMention> = temperatures(text).into_iter().chain(gas_marks(text)).collect();
    found.sort_by_key(|mention| mention.span.start);
    let mut end = 0;
    found.retain(|mention| {
        let apart = mention.span.start >= end;
        if apart {
            end = mention.span.end;
        }
        apart
    });
    found
}

/// `gas mark 4`, `gas 4`, `Gas Mark ½`.
fn gas_marks(text: &str) -> Vec<TemperatureMention> {
    let (lower, words) = (text.to_ascii_lowercase(), measure_words());
    let mark = |(start, gas): (usize, &str)| {
        let rest = lower[start + gas.len()..].trim_start_matches(BLANKS);
        let marked = words.mark.iter().find_map(|mark| rest.strip_prefix(mark.as_str()));
        let rest = marked.unwrap_or(rest).trim_start_matches(BLANKS);
        let (mark, end) = number(&lower, lower.len() - rest.len())?;
        let temperature = Temperature::gas_mark(mark)?;
        Some(TemperatureMention { span: start..end, temperature, gas: true })
    };
    words.gas.iter().flat_map(|gas| lower.match_indices(gas.as_str())).filter_map(mark).collect()
}

/// The lengths in a text, in order: `23 cm`, `9-inch`, `20 x 30 cm`, `3 mm`.
pub fn lengths(text: &str) -> Vec<LengthMention> {
    let mut found = Vec::new();
    let mut from = 0;
    while let Some(numbers) = next_numbers(text, from) {
        from = numbers.span.end;
        if let Some((unit, length)) = length_unit(&text[numbers.span.end..])
            && numbers.values.iter().all(|n| *n > Number::from_integer(0))
        {
            from = numbers.span.end + length;
            let span = numbers.span.start..from;
            found.push(LengthMention { span, numbers: numbers.values, between: numbers.between, unit });
        }
    }
    found
}

struct Numbers {
    values: Vec<Number>,
    between: &'static str,
    span: Span,
}

/// The next number or pair of numbers from a byte on.
fn next_numbers(text: &str, from: usize) -> Option<Numbers> {
    let mut at = from;
    loop {
        let start = at + text[at..].find(|c: char| c.is_ascii_digit() || vulgar(c).is_some())?;
        let inside_word =
            text[..start].chars().next_back().is_some_and(|c| c.is_alphanumeric() || c == '.' || c == ',');
        let Some((first, end)) = number(text, start).filter(|_| !inside_word) else {
            at = start
                + text[start..].chars().take_while(|c| c.is_alphanumeric()).map(char::len_utf8).sum::<usize>().max(1);
            continue;
        };
        let minus = text[..start].ends_with(['-', '−'])
            && !text[..start].trim_end_matches(['-', '−']).ends_with(|c: char| c.is_alphanumeric());
        let sign_length = text[..start].chars().next_back().map_or(0, char::len_utf8);
        let (first, start) = if minus { (-first, start - sign_length) } else { (first, start) };
        let mut numbers = Numbers { values: vec![first], between: "", span: start..end };
        while let Some((next, between, end)) = joined(text, &numbers) {
            numbers.values.push(next);
            (numbers.between, numbers.span.end) = (between, end);
        }
        return Some(numbers);
    }
}

/// The number that is joined to some before it, what stands between, and where it ends: a range has two ends, a product
/// up to three sides.
fn joined(text: &str, numbers: &Numbers) -> Option<(Number, &'static str, usize)> {
    let most = if numbers.between == PRODUCT { SIDES } else { 2 };
    let marks = BETWEEN.iter().filter(|(_, between)| numbers.values.len() == 1 || *between == PRODUCT);
    marks.filter(|_| numbers.values.len() < most).find_map(|(mark, between)| {
        let rest = text[numbers.span.end..].strip_prefix(mark.as_str())?;
        number(text, text.len() - rest.len()).map(|(next, end)| (next, *between, end))
    })
}

/// The number at a byte, and where it ends.
fn number(text: &str, start: usize) -> Option<(Number, usize)> {
    super::number(&text[start..]).map(|(value, length)| (value, start + length))
}

/// A temperature scale at the start of a text, and its length.
fn scale(rest: &str) -> Option<(Scale, usize)> {
    let words = measure_words();
    let after_space = rest.trim_start_matches(BLANKS);
    let marks = ["°", "º"].into_iter().chain(words.degrees.iter().map(String::as_str));
    // The shortest of what is left: `degrees` and not `degree`.
    let marked = marks.filter_map(|mark| after_space.strip_prefix(mark)).min_by_key(|after| after.len());
    let after = marked.map_or(after_space, |after| after.trim_start_matches(BLANKS));
    let scales = [(&words.celsius, "C", Scale::Celsius), (&words.fahrenheit, "F", Scale::Fahrenheit)];
    scales.into_iter().find_map(|(names, letter, scale)| {
        let named = names.iter().find_map(|name| behind_name(after, name));
        let by_letter = || {
            let end = after.strip_prefix(letter)?;
            (marked.is_some() || rest.len() - after.len() <= 1).then_some(end)
        };
        let end = named.or_else(by_letter).filter(|end| !end.starts_with(char::is_alphanumeric))?;
        Some((scale, rest.len() - end.len()))
    })
}

/// What stands behind the name of a scale, which may have a capital.
fn behind_name<'t>(text: &'t str, name: &str) -> Option<&'t str> {
    let (start, end) = text.split_at_checked(name.len())?;
    start.eq_ignore_ascii_case(name).then_some(end)
}

/// A unit of length at the start of a text, and its length.
fn length_unit(rest: &str) -> Option<(LengthUnit, usize)> {
    let after = rest.strip_prefix([' ', '-', '\u{A0}', '\u{202F}']).unwrap_or(rest);
    let words = measure_words();
    let units: [(&[&str], &[String], LengthUnit); 3] = [
        (&["mm"], &words.millimetre, LengthUnit::Millimetre),
        (&["cm"], &words.centimetre, LengthUnit::Centimetre),
        (&["″", "\""], &words.inch, LengthUnit::Inch),
    ];
    units.into_iter().find_map(|(signs, words, unit)| {
        let mut names = signs.iter().copied().chain(words.iter().map(String::as_str));
        let end =
            names.find_map(|name| after.strip_prefix(name).filter(|end| !end.starts_with(char::is_alphanumeric)))?;
        Some((unit, rest.len() - end.len()))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn temperatures_are_found_where_they_stand() {
        let case = |text: &str, wanted: &[&str]| {
            let found: Vec<&str> = temperatures(text).into_iter().map(|m| &text[m.span]).collect();
            assert_eq!(found, wanted, "{text}");
        };
        case("Cook to 121 °C, then cool to 35°C.", &["121 °C", "35°C"]);
        case("Bake at 375F or 180–190 °C", &["375F", "180–190 °C"]);
        case("Freeze at −18 °C", &["−18 °C"]);
        case("Take 3 Cups and 2 Figs", &[]);
        case("vitamin B12 C", &[]);
        case("180 degrees Celsius", &["180 degrees Celsius"]);
        case("de 160 à 170 degrés Celsius", &["160 à 170 degrés Celsius"]);
        case("Bake at 180/160C fan", &["160C"]);
        case("Warm by 2 1/2 °C, not 1/2 °C", &["2 1/2 °C", "1/2 °C"]);
    }

    #[test]
    fn settings_never_share_a_byte() {
        let case = |text: &str, wanted: &[&str]| {
            let found: Vec<&str> = settings(text).into_iter().map(|m| &text[m.span]).collect();
            assert_eq!(found, wanted, "{text}");
        };
        case("Bake at gas 4/180C.", &["gas 4", "180C"]);
        case("gas mark 1/2/130 °C", &["gas mark 1/2", "130 °C"]);
        case("180C/gas 4", &["180C", "gas 4"]);
        case("gas 6-7 °C", &["gas 6"]);
        case("gas 4C", &["gas 4"]);
        case("Gas Mark ½, then gas½", &["Gas Mark ½", "gas½"]);
        case("a gas hob, 4 rings", &[]);
    }

    #[test]
    fn lengths_are_found_where_they_stand() {
        let case = |text: &str, wanted: &[&str]| {
            let found: Vec<&str> = lengths(text).into_iter().map(|m| &text[m.span]).collect();
            assert_eq!(found, wanted, "{text}");
        };
        case("Line a 23 cm ring with pastry 3.5 mm thick", &["23 cm", "3.5 mm"]);
        case("a 9-inch tin, 20 x 30 cm", &["9-inch", "20 x 30 cm"]);
        case("cut into 2 1/2 inch strips", &["2 1/2 inch"]);
        case("in 3 minutes", &[]);
        case("⅛ inch thick, a 9½-inch ring, 6–8 mm", &["⅛ inch", "9½-inch", "6–8 mm"]);
        case("a 20 × 30 cm tin", &["20 × 30 cm"]);
        case("a loaf tin, 21 × 11 × 6 cm", &["21 × 11 × 6 cm"]);
    }
}
