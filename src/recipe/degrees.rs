use crate::language::measure_words;
use crate::measure::{Number, Temperature};
use crate::text;

/// A text that is no temperature.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DegreesError {
    /// A number without its scale.
    #[error("`{0}` says no scale")]
    NoScale(String),
    /// Anything else.
    #[error("`{0}` is not a temperature")]
    Unreadable(String),
}

/// An oven or cooking temperature as written, with the second scale where the author gave both.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Degrees {
    /// The temperature.
    pub stated: Temperature,
    /// The same in the other scale, where the author states it too.
    pub second: Option<Temperature>,
    /// A fan oven is meant.
    pub fan: bool,
}

/// Reads `180 °C`, `350F`, `160–170 °C`, `180 °C fan`, `gas mark 4`, `180 °C / 350 °F`.
///
/// # Errors
/// [`DegreesError`]: no scale, or no temperature at all, as below −273.15 °C.
pub(super) fn degrees(text: &str) -> Result<Degrees, DegreesError> {
    let (gas, mut scaled): (Vec<_>, Vec<_>) = text::settings(text).into_iter().partition(|mention| mention.gas);
    let fan = measure_words().says_fan(text);
    scaled.retain(|mention| mention.temperature.celsius().0 >= Number::new(-27_315, 100));
    // A number of degrees is more exact than a mark.
    let mut found = scaled.into_iter().chain(gas).map(|mention| mention.temperature);
    if let Some(stated) = found.next() {
        let second = found.find(|other| other.scale != stated.scale);
        return Ok(Degrees { stated, second, fan });
    }
    let text = text.trim().to_string();
    if text.bytes().any(|b| b.is_ascii_digit()) && text.chars().all(|c| c.is_ascii_digit() || " –-.°".contains(c)) {
        return Err(DegreesError::NoScale(text));
    }
    Err(DegreesError::Unreadable(text))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Scale;

    #[test]
    fn temperatures_as_written() {
        let case = |text: &str, low: i64, high: i64, scale| {
            let stated = degrees(text).unwrap().stated;
            let whole = |n: i64| Number::from_integer(n);
            assert_eq!(stated, Temperature { low: whole(low), high: whole(high), scale }, "{text}");
        };
        case("180 °C", 180, 180, Scale::Celsius);
        case("180C", 180, 180, Scale::Celsius);
        case("350 °F", 350, 350, Scale::Fahrenheit);
        case("350F", 350, 350, Scale::Fahrenheit);
        case("160–170 °C", 160, 170, Scale::Celsius);
        case("160 to 170°C fan", 160, 170, Scale::Celsius);
        case("gas mark 4", 350, 350, Scale::Fahrenheit);
        case("-18 °C", -18, -18, Scale::Celsius);
        case("gas 4/180C", 180, 180, Scale::Celsius);
        case("½, gas mark ½", 250, 250, Scale::Fahrenheit);
        assert!(degrees("180 °C / 350 °F").unwrap().second.is_some());
        assert!(matches!(degrees("180"), Err(DegreesError::NoScale(_))));
        assert!(matches!(degrees("hot"), Err(DegreesError::Unreadable(_))));
    }
}
