use num_rational::Ratio;

use super::Number;

/// A unit of length in a recipe.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthUnit {
    /// Millimetre.
    Millimetre,
    /// Centimetre.
    Centimetre,
    /// Inch, 25.4 mm exactly (international yard and pound, 1959).
    Inch,
}

/// Millimetres in an inch: 25.4.
fn inch() -> Number {
    Ratio::new(254, 10)
}

impl LengthUnit {
    fn millimetres(self) -> Number {
        match self {
            LengthUnit::Millimetre => Number::from_integer(1),
            LengthUnit::Centimetre => Number::from_integer(10),
            LengthUnit::Inch => inch(),
        }
    }

    /// So many of it in centimetres.
    pub fn centimetres(self, number: Number) -> Number {
        number * self.millimetres() / 10
    }
}

/// A length in the other system, rounded as a cook would read it off a ruler.
///
/// Metric to inches: to 1/8 in under 1 in, 1/4 in under 4 in, 1/2 in under 12 in, else 1 in. Inches to metric: whole
/// millimetres under 1 cm, half centimetres under 10 cm, else whole centimetres.
pub fn other_length(number: Number, unit: LengthUnit) -> (Number, LengthUnit) {
    let mm = number * unit.millimetres();
    if unit == LengthUnit::Inch {
        let cm = mm / 10;
        return match cm {
            _ if cm < Number::from_integer(1) => (mm.round(), LengthUnit::Millimetre),
            _ if cm < Number::from_integer(10) => ((cm * 2).round() / 2, LengthUnit::Centimetre),
            _ => (cm.round(), LengthUnit::Centimetre),
        };
    }
    let inches = mm / inch();
    let per_inch = match inches {
        _ if inches < Number::from_integer(1) => 8,
        _ if inches < Number::from_integer(4) => 4,
        _ if inches < Number::from_integer(12) => 2,
        _ => 1,
    };
    let rounded = (inches * per_inch).round() / per_inch;
    (rounded.max(Ratio::new(1, 16)), LengthUnit::Inch)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Pan sizes as printed side by side in the published pan charts.
    #[test]
    fn pans_read_as_in_the_charts() {
        let case = |n, unit, numer, denom, other| {
            assert_eq!(other_length(Number::from_integer(n), unit), (Number::new(numer, denom), other));
        };
        case(23, LengthUnit::Centimetre, 9, 1, LengthUnit::Inch);
        case(20, LengthUnit::Centimetre, 8, 1, LengthUnit::Inch);
        case(33, LengthUnit::Centimetre, 13, 1, LengthUnit::Inch);
        case(3, LengthUnit::Millimetre, 1, 8, LengthUnit::Inch);
        case(8, LengthUnit::Centimetre, 13, 4, LengthUnit::Inch);
        case(15, LengthUnit::Centimetre, 6, 1, LengthUnit::Inch);
        case(9, LengthUnit::Inch, 23, 1, LengthUnit::Centimetre);
        case(2, LengthUnit::Inch, 5, 1, LengthUnit::Centimetre);
    }
}
