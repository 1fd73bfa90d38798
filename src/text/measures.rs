//! Measures in running text: temperatures and lengths, found where they stand.

use crate::measure::{LengthUnit, Number, Scale, Temperature, vulgar};
use crate::source::Span;

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
    /// The numbers: one, two for a range or a product (`20 x 30 cm`).
    pub numbers: Vec<Number>,
    /// What stands between two numbers: `–` or ` × `.
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
            && numbers.between != " × "
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
    let lower = text.to_ascii_lowercase();
    let mark = |(start, gas): (usize, &str)| {
        let blank = [' ', '\u{A0}', '\u{202F}'];
        let rest = lower[start + gas.len()..].trim_start_matches(blank);
        let rest = rest.strip_prefix("mark").unwrap_or(rest).trim_start_matches(blank);
        let (mark, end) = number(&lower, lower.len() - rest.len())?;
        let temperature = Temperature::gas_mark(mark)?;
        Some(TemperatureMention { span: start..end, temperature, gas: true })
    };
    lower.match_indices("gas").filter_map(mark).collect()
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
        for (mark, between) in
            [("–", "–"), ("-", "–"), (" to ", "–"), (" – ", "–"), (" x ", " × "), (" × ", " × "), ("×", " × ")]
        {
            let Some(rest) = text[end..].strip_prefix(mark) else { continue };
            let second_start = text.len() - rest.len();
            if let Some((second, end)) = number(text, second_start) {
                return Some(Numbers { values: vec![first, second], between, span: start..end });
            }
        }
        return Some(Numbers { values: vec![first], between: "", span: start..end });
    }
}

/// The number at a byte, and where it ends.
fn number(text: &str, start: usize) -> Option<(Number, usize)> {
    super::number(&text[start..]).map(|(value, length)| (value, start + length))
}

/// A temperature scale at the start of a text, and its length.
fn scale(rest: &str) -> Option<(Scale, usize)> {
    let after_space = rest.trim_start_matches([' ', '\u{A0}', '\u{202F}']);
    let mut after = after_space;
    let mut marked = false;
    for mark in ["°", "º", "degrees", "degree", "deg"] {
        if let Some(stripped) = after.strip_prefix(mark) {
            after = stripped.trim_start_matches([' ', '\u{A0}', '\u{202F}']);
            marked = true;
            break;
        }
    }
    let words = [
        ("celsius", Scale::Celsius),
        ("Celsius", Scale::Celsius),
        ("fahrenheit", Scale::Fahrenheit),
        ("Fahrenheit", Scale::Fahrenheit),
        ("C", Scale::Celsius),
        ("F", Scale::Fahrenheit),
    ];
    for (word, scale) in words {
        let Some(end) = after.strip_prefix(word) else { continue };
        let letter_alone = word.len() > 1 || marked || rest.len() - after.len() <= 1;
        if letter_alone && !end.starts_with(char::is_alphanumeric) {
            return Some((scale, rest.len() - end.len()));
        }
    }
    None
}

/// A unit of length at the start of a text, and its length.
fn length_unit(rest: &str) -> Option<(LengthUnit, usize)> {
    let after = rest.strip_prefix([' ', '-', '\u{A0}', '\u{202F}']).unwrap_or(rest);
    let words = [
        ("millimetres", LengthUnit::Millimetre),
        ("millimeters", LengthUnit::Millimetre),
        ("mm", LengthUnit::Millimetre),
        ("centimetres", LengthUnit::Centimetre),
        ("centimeters", LengthUnit::Centimetre),
        ("centimetre", LengthUnit::Centimetre),
        ("centimeter", LengthUnit::Centimetre),
        ("cm", LengthUnit::Centimetre),
        ("inches", LengthUnit::Inch),
        ("in.", LengthUnit::Inch),
        ("inch", LengthUnit::Inch),
        ("″", LengthUnit::Inch),
        ("\"", LengthUnit::Inch),
    ];
    words.into_iter().find_map(|(word, unit)| {
        let end = after.strip_prefix(word)?;
        (!end.starts_with(char::is_alphanumeric)).then(|| (unit, rest.len() - end.len()))
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
    }
}
