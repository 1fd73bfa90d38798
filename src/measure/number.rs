use num_rational::Ratio;

/// An exact number as cooks write it: `2`, `1/3`, `1.25`.
pub type Number = Ratio<i64>;

/// The largest number that is read; more than any kitchen weighs in any unit.
pub const LARGEST: i64 = 1_000_000;

/// `number` times `factor`, rounded half up to a whole number.
///
/// # Errors
/// [`Overflow`] when the product does not fit 64 bits.
pub(super) fn scaled(number: Number, factor: Ratio<i128>) -> Result<i64, Overflow> {
    let over = |_: ()| Overflow;
    let top = i128::from(*number.numer()).checked_mul(*factor.numer()).ok_or(()).map_err(over)?;
    let bottom = i128::from(*number.denom()).checked_mul(*factor.denom()).ok_or(()).map_err(over)?;
    let doubled = top.checked_mul(2).and_then(|t| t.checked_add(bottom)).ok_or(Overflow)?;
    i64::try_from(doubled.div_euclid(bottom * 2)).map_err(|_| Overflow)
}

/// A quantity too large to be held exactly.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the quantity is too large")]
pub struct Overflow;

/// Numerator and denominator of a one-character fraction, such as `¾`.
pub fn vulgar(character: char) -> Option<(u32, u32)> {
    Some(match character {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    })
}

/// A number for reading, with kitchen fractions: `2`, `1 1/2`, `2/3`, `1.25` when no kitchen fraction fits.
///
/// `decimal` is the decimal mark.
pub fn kitchen(number: Number, decimal: char) -> String {
    let whole = number.to_integer();
    let part = number - whole;
    if *part.numer() == 0 {
        return whole.to_string();
    }
    if matches!(part.denom(), 2 | 3 | 4 | 6 | 8) {
        return match whole {
            0 => format!("{}/{}", part.numer(), part.denom()),
            _ => format!("{whole} {}/{}", part.numer(), part.denom()),
        };
    }
    decimals(number, 2, decimal)
}

/// A number with at most `places` decimals, trailing zeros dropped.
pub fn decimals(number: Number, places: u32, decimal: char) -> String {
    let unit = 10_i128.pow(places);
    let scaled = scaled(number, Ratio::from_integer(unit)).unwrap_or(i64::MAX);
    let unit = unit as i64;
    let (whole, rest) = (scaled / unit, (scaled % unit).abs());
    if rest == 0 {
        return whole.to_string();
    }
    let digits = format!("{rest:0width$}", width = places as usize);
    format!("{whole}{decimal}{}", digits.trim_end_matches('0'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_as_in_a_kitchen() {
        let case = |n, d, text: &str| assert_eq!(kitchen(Number::new(n, d), '.'), text);
        case(2, 1, "2");
        case(3, 2, "1 1/2");
        case(2, 3, "2/3");
        case(5, 8, "5/8");
        case(33, 16, "2.06");
        case(7, 5, "1.4");
    }

    #[test]
    fn rounding_is_half_up_and_bounded() {
        assert_eq!(scaled(Number::new(1, 2), Ratio::from_integer(1)), Ok(1));
        assert_eq!(scaled(Number::new(1, 3), Ratio::from_integer(1)), Ok(0));
        assert_eq!(scaled(Number::from_integer(i64::MAX), Ratio::from_integer(i128::MAX)), Err(Overflow));
    }
}
