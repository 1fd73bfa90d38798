use std::fmt;
use std::str::FromStr;

use crate::measure::Number;
use crate::text::only_number;

/// By how much a recipe is multiplied: exact, above 0, at most 1,000.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Factor(Number);

/// Text that is no factor.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is no batch: write a number or a fraction above 0, at most 1000, as in `2`, `1/2`, `1 1/2` or `2.5`")]
pub struct FactorError(String);

impl Factor {
    /// The greatest factor, and the greatest denominator.
    pub const LARGEST: i64 = 1000;

    /// The factor as a number.
    pub fn number(self) -> Number {
        self.0
    }
}

impl FromStr for Factor {
    type Err = FactorError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let number = mixed(text.trim());
        let fits = |number: &Number| {
            *number > Number::from_integer(0)
                && *number <= Number::from_integer(Self::LARGEST)
                && *number.denom() <= Self::LARGEST
        };
        number.filter(fits).map(Self).ok_or_else(|| FactorError(text.to_owned()))
    }
}

impl fmt::Display for Factor {
    /// As read: `2`, `1/2`, `1 1/2`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (whole, part) = (self.0.to_integer(), self.0.fract());
        match (whole, part == Number::from_integer(0)) {
            (_, true) => write!(f, "{whole}"),
            (0, false) => write!(f, "{part}"),
            (_, false) => write!(f, "{whole} {part}"),
        }
    }
}

/// `2`, `1/2`, `1 1/2`, `2.5`.
fn mixed(text: &str) -> Option<Number> {
    if let Some((whole, part)) = text.split_once(' ') {
        let part = fraction(part.trim_start()).filter(|part| *part < Number::from_integer(1))?;
        return whole_number(whole).map(|whole| part + whole);
    }
    fraction(text).or_else(|| only_number(text))
}

/// Any fraction, also those that no kitchen writes: `5/7`, `3/2`.
fn fraction(text: &str) -> Option<Number> {
    let (over, under) = text.split_once('/')?;
    let (over, under) = (whole_number(over.trim_end())?, whole_number(under.trim_start())?);
    (under > 0).then(|| Number::new(over, under))
}

fn whole_number(text: &str) -> Option<i64> {
    only_number(text).filter(Number::is_integer).map(|number| number.to_integer())
}

#[cfg(test)]
mod tests {
    use super::Factor;

    #[test]
    fn numbers_and_fractions_are_read_exactly() {
        for (text, shown) in [
            ("2", "2"),
            ("1/2", "1/2"),
            (" 2/4 ", "1/2"),
            ("1 1/2", "1 1/2"),
            ("2.50", "2 1/2"),
            ("1000", "1000"),
            ("½", "1/2"),
            ("1,5", "1 1/2"),
            ("5/7", "5/7"),
        ] {
            assert_eq!(text.parse::<Factor>().map(|factor| factor.to_string()), Ok(shown.to_owned()));
        }
    }

    #[test]
    fn everything_else_is_refused() {
        for text in
            ["", "0", "-1", "1/0", "0/3", "1001", "1 3/2", "1/1001", "two", "1e3", "9999999", "+2", ".", "1/2/3"]
        {
            assert!(text.parse::<Factor>().is_err(), "{text}");
        }
    }
}
