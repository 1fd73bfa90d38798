use std::fmt;
use std::str::FromStr;

use crate::measure::Number;

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
        return Some(Number::from_integer(integer(whole)?) + part);
    }
    fraction(text).or_else(|| decimal(text))
}

fn fraction(text: &str) -> Option<Number> {
    let (over, under) = text.split_once('/')?;
    let (over, under) = (integer(over.trim_end())?, integer(under.trim_start())?);
    (under > 0).then(|| Number::new(over, under))
}

fn decimal(text: &str) -> Option<Number> {
    let (whole, digits) = text.split_once('.').unwrap_or((text, ""));
    let places = u32::try_from(digits.len()).ok().filter(|places| *places <= 6)?;
    let part = if digits.is_empty() { 0 } else { integer(digits)? };
    Some(Number::from_integer(integer(whole)?) + Number::new(part, 10_i64.pow(places)))
}

/// Plain digits, few enough to leave room for sums.
fn integer(text: &str) -> Option<i64> {
    let plain = (1..=6).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    plain.then(|| text.parse().ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::Factor;

    #[test]
    fn numbers_and_fractions_are_read_exactly() {
        for (text, shown) in
            [("2", "2"), ("1/2", "1/2"), (" 2/4 ", "1/2"), ("1 1/2", "1 1/2"), ("2.50", "2 1/2"), ("1000", "1000")]
        {
            assert_eq!(text.parse::<Factor>().map(|factor| factor.to_string()), Ok(shown.to_owned()));
        }
    }

    #[test]
    fn everything_else_is_refused() {
        for text in
            ["", "0", "-1", "1/0", "0/3", "1001", "1 3/2", "1/1001", "two", "1e3", "1,5", "9999999", "+2", ".", "1/2/3"]
        {
            assert!(text.parse::<Factor>().is_err(), "{text}");
        }
    }
}
