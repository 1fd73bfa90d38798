//! Running text with its temperatures and lengths in both systems.

use pulldown_cmark::{Event, Parser};

use crate::measure::{LengthUnit, Number, Scale, Temperature, Use, Words, other_length};
use crate::recipe::Degrees;
use crate::recipe::prose::{lengths, temperatures};

/// A temperature for reading: `180 °C`, `112–115 °C`.
fn one_scale(temperature: Temperature, words: &Words) -> String {
    let scale = match temperature.scale {
        Scale::Celsius => "°C",
        Scale::Fahrenheit => "°F",
    };
    let number = |degrees: Number| words.decimal(degrees, 1).replace('-', "−");
    if temperature.low == temperature.high {
        return format!("{} {scale}", number(temperature.high));
    }
    format!("{}–{} {scale}", number(temperature.low), number(temperature.high))
}

/// A stated temperature in both scales: `180 °C (350 °F)`, `180 °C fan (350 °F fan)`.
///
/// The author's own second scale is kept.
pub(super) fn both_scales(degrees: &Degrees, to_use: Use, words: &Words) -> String {
    let second = degrees.second.unwrap_or_else(|| degrees.stated.converted(to_use));
    let fan = if degrees.fan { " fan" } else { "" };
    format!("{}{fan} ({}{fan})", one_scale(degrees.stated, words), one_scale(second, words))
}

/// A text with each temperature and length followed by its other system in brackets; what the author states in both
/// already stays as it is.
pub(super) fn in_both_systems(text: &str, words: &Words) -> String {
    with_lengths(&with_temperatures(text, words), words)
}

/// Temperatures above this, in a sentence about an oven, are settings of its dial.
const OVEN_FROM_CELSIUS: i64 = 100;

fn with_temperatures(text: &str, words: &Words) -> String {
    let found = temperatures(text);
    let lower = text.to_lowercase();
    let speaks_of_oven = ["oven", "bake", "preheat", "roast"].iter().any(|word| lower.contains(word));
    let mut written = String::with_capacity(text.len() + 16 * found.len());
    let mut from = 0;
    for (at, mention) in found.iter().enumerate() {
        let stated = mention.temperature;
        written.push_str(&text[from..mention.span.start]);
        from = mention.span.end;
        let paired = |other: usize| {
            let Some(other) = found.get(other) else { return false };
            let (first, last) = (mention.span.start.min(other.span.start), mention.span.end.max(other.span.end));
            let gap = last - first - mention.span.len() - other.span.len();
            other.temperature.scale != stated.scale && gap <= 4
        };
        written.push_str(&one_scale(stated, words));
        if paired(at + 1) || (at > 0 && paired(at - 1)) {
            continue;
        }
        let dial = speaks_of_oven && stated.celsius().0 >= Number::from_integer(OVEN_FROM_CELSIUS);
        let other = stated.converted(if dial { Use::Oven } else { Use::Thermometer });
        written.push_str(&format!(" ({})", one_scale(other, words)));
    }
    written.push_str(&text[from..]);
    written
}

fn with_lengths(text: &str, words: &Words) -> String {
    let found = lengths(text);
    let mut written = String::with_capacity(text.len() + 12 * found.len());
    let mut from = 0;
    for (at, mention) in found.iter().enumerate() {
        written.push_str(&text[from..mention.span.end]);
        from = mention.span.end;
        let next =
            found.get(at + 1).is_some_and(|next| is_other(next.unit, mention.unit, &text[from..next.span.start]));
        let before = at > 0 && {
            let previous = &found[at - 1];
            is_other(previous.unit, mention.unit, &text[previous.span.end..mention.span.start])
        };
        if next || before {
            continue;
        }
        let others: Vec<(Number, LengthUnit)> =
            mention.numbers.iter().map(|number| other_length(*number, mention.unit)).collect();
        let Some((_, unit)) = others.last() else { continue };
        let mut numbers: Vec<String> = others.iter().map(|(number, _)| length_number(*number, *unit, words)).collect();
        numbers.dedup();
        written.push_str(&format!(" ({} {})", numbers.join(mention.between), length_name(*unit)));
    }
    written.push_str(&text[from..]);
    written
}

/// Whether two lengths side by side are one length in two systems.
fn is_other(one: LengthUnit, other: LengthUnit, between: &str) -> bool {
    (one == LengthUnit::Inch) != (other == LengthUnit::Inch) && between.len() <= 4
}

fn length_number(number: Number, unit: LengthUnit, words: &Words) -> String {
    match unit {
        LengthUnit::Inch => words.number(number),
        _ => words.decimal(number, 1),
    }
}

fn length_name(unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Millimetre => "mm",
        LengthUnit::Centimetre => "cm",
        LengthUnit::Inch => "in",
    }
}

/// The text of inline Markdown without its marks.
pub(super) fn without_marks(markdown: &str) -> String {
    let mut text = String::with_capacity(markdown.len());
    for event in Parser::new(markdown) {
        match event {
            Event::Text(part) | Event::Code(part) | Event::InlineHtml(part) | Event::Html(part) => text.push_str(&part),
            Event::SoftBreak | Event::HardBreak => text.push(' '),
            _ => {}
        }
    }
    if text.is_empty() { markdown.to_string() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_systems_stand_side_by_side() {
        let words = Words::of("en-US").unwrap();
        let case = |text: &str, wanted: &str| assert_eq!(in_both_systems(text, &words), wanted);
        case("Cook the syrup to 121 °C.", "Cook the syrup to 121 °C (250 °F).");
        case("Heat the oven to 180 °C.", "Heat the oven to 180 °C (350 °F).");
        case("Bake at 375F", "Bake at 375 °F (190 °C)");
        case("to 180 °C / 350 °F", "to 180 °C / 350 °F");
        case("Freeze at −18 °C", "Freeze at −18 °C (0 °F)");
        case("a 23 cm ring", "a 23 cm (9 in) ring");
        case("a 20 x 30 cm tin", "a 20 x 30 cm (8 × 12 in) tin");
        case("a 23 cm (9 inch) ring", "a 23 cm (9 inch) ring");
        case("3.5 mm thick", "3.5 mm (1/8 in) thick");
    }
}
