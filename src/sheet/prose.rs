//! Running text with its temperatures and lengths in both systems.

use pulldown_cmark::{Event, Parser};

use crate::facts::{Said, Setting};
use crate::language::{Language, Words};
use crate::measure::{LengthUnit, Number, Scale, Temperature, Use, other_length};
use crate::recipe::Degrees;
use crate::text::lengths;

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
pub(super) fn both_scales(degrees: &Degrees, to_use: Use, language: &Language) -> String {
    let second = degrees.second.unwrap_or_else(|| degrees.stated.converted(to_use));
    let words = language.words();
    let fan = if degrees.fan { format!(" {}", language.say("fan", &[])) } else { String::new() };
    format!("{}{fan} ({}{fan})", one_scale(degrees.stated, words), one_scale(second, words))
}

/// What a step says, with each temperature and length followed by its other system in brackets; what the author states
/// in both already stays as it is.
pub(super) fn in_both_systems(said: &Said<'_>, words: &Words) -> String {
    with_lengths(with_temperatures(said.text, &said.settings, words).trim(), words)
}

/// Settings of a dial in running text are above this; what is below may be a core's, and is converted to the degree.
const DIAL_FROM_CELSIUS: i64 = 100;

fn with_temperatures(text: &str, settings: &[Setting], words: &Words) -> String {
    let mut written = String::with_capacity(text.len() + 16 * settings.len());
    let mut from = 0;
    for setting in settings {
        let in_both = setting.is_in_both_scales();
        for way in setting.ways.iter().filter(|way| !way.gas) {
            written.push_str(&text[from..way.span.start]);
            written.push_str(&one_scale(way.temperature, words));
            from = way.span.end;
            if !in_both {
                let dial = way.temperature.celsius().0 >= Number::from_integer(DIAL_FROM_CELSIUS);
                let other = way.temperature.converted(match setting.to_use {
                    Use::Oven if !dial => Use::Thermometer,
                    to_use => to_use,
                });
                written.push_str(&format!(" ({})", one_scale(other, words)));
            }
        }
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
        // A square, or a range whose ends are read off alike.
        if numbers.iter().all(|number| *number == numbers[0]) {
            numbers.truncate(1);
        }
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
    use crate::facts::Facts;
    use crate::kitchen::Kitchen;
    use crate::language::Dictionary;
    use crate::pantry::Pantry;
    use crate::recipe::{LineReader, read};
    use crate::source::Source;
    use crate::workspace::Site;

    /// A step of an oven where `oven` is set, with both systems.
    fn shown(text: &str, oven: &str) -> String {
        let words = Words::of("en-US").unwrap();
        let yaml = format!("title: T\ncomponents: [{{name: C, steps: [{{do: \"{text}\"{oven}}}]}}]\n");
        let reader = LineReader::new(Dictionary::of("en-US").unwrap(), Site::default().cups.into());
        let recipe = read(Source::new("t.yaml", yaml), "t", &reader).0.unwrap();
        let kitchen = Kitchen::new(Pantry::embedded(), &Site::default()).unwrap();
        let facts = Facts::of(&recipe, &kitchen);
        in_both_systems(&facts.said[0], &words)
    }

    #[test]
    fn both_systems_stand_side_by_side() {
        let case = |text: &str, wanted: &str| assert_eq!(shown(text, ""), wanted);
        case("Cook the syrup to 121 °C.", "Cook the syrup to 121 °C (250 °F).");
        case("Heat the oven to 180 °C.", "Heat the oven to 180 °C (350 °F).");
        case("Bake at 375F", "Bake at 375 °F (190 °C)");
        case("to 180 °C / 350 °F", "to 180 °C / 350 °F");
        case("Freeze at −18 °C", "Freeze at −18 °C (0 °F)");
        case("a 23 cm ring", "a 23 cm (9 in) ring");
        case("a 20 x 30 cm tin", "a 20 x 30 cm (8 × 12 in) tin");
        case("a 21 × 11 × 6 cm tin", "a 21 × 11 × 6 cm (8 1/2 × 4 1/2 × 2 1/4 in) tin");
        case("a 20 × 20 × 5 cm tin", "a 20 × 20 × 5 cm (8 × 8 × 2 in) tin");
        case("a 23 cm (9 inch) ring", "a 23 cm (9 inch) ring");
        case("3.5 mm thick", "3.5 mm (1/8 in) thick");
    }

    #[test]
    fn a_temperature_is_converted_by_what_it_is_for() {
        let oven = ", oven: 220 °C";
        let case = |text: &str, oven: &str, wanted: &str| assert_eq!(shown(text, oven), wanted);
        case("Turn down to 170 °C for 20 minutes.", oven, "Turn down to 170 °C (340 °F) for 20 minutes.");
        case("Pour in the syrup at 118 °C.", oven, "Pour in the syrup at 118 °C (244 °F).");
        case("Bake until the core reads 94 °C.", oven, "Bake until the core reads 94 °C (201 °F).");
        case("Fry in oil at 170 °C.", "", "Fry in oil at 170 °C (338 °F).");
        case(
            "Bake at 180 °C; cook the syrup to 118 °C.",
            "",
            "Bake at 180 °C (350 °F); cook the syrup to 118 °C (244 °F).",
        );
        case("At 180 °C, bake for an hour.", "", "At 180 °C (350 °F), bake for an hour.");
        case("At 118 °C the syrup is ready.", oven, "At 118 °C (244 °F) the syrup is ready.");
        case("Turn the oven down by 20 °C.", oven, "Turn the oven down by 20 °C (36 °F).");
        case("Bake at 180 °C, or 10 °C less.", "", "Bake at 180 °C (350 °F), or 10 °C (18 °F) less.");
        case("Let it fall to within 5 °F of it.", "", "Let it fall to within 5 °F (3 °C) of it.");
        case("Bake at 180 °C (gas 4).", "", "Bake at 180 °C (350 °F) (gas 4).");
    }

    #[test]
    fn marks_go_and_lines_join() {
        assert_eq!(without_marks("Fold *gently*\nuntil **smooth**."), "Fold gently until smooth.");
        assert_eq!(without_marks(""), "");
    }
}
