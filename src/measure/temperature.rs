use num_rational::Ratio;

use super::Number;

/// The two scales.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub enum Scale {
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
}

impl Scale {
    /// `°C` or `°F`.
    pub fn sign(self) -> &'static str {
        match self {
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
        }
    }

    /// The one that it is not.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Celsius => Self::Fahrenheit,
            Self::Fahrenheit => Self::Celsius,
        }
    }
}

/// What a temperature is for: an oven dial moves in steps, a thermometer does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Use {
    /// An oven setting.
    Oven,
    /// Sugar, chocolate, milk, a core temperature.
    Thermometer,
    /// By how much it is hotter or colder: converted without the zero of the scale.
    Difference,
}

/// A temperature as stated, one degree or a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Temperature {
    /// The lower end.
    pub low: Number,
    /// The higher end; the same for a single temperature.
    pub high: Number,
    /// The scale of both.
    pub scale: Scale,
}

/// Fahrenheit dial steps and the Celsius that handbooks print for them.
///
/// Source: NSW Health conversion chart; 225 and 425 °F, which it lacks, to the nearest 5 °C.
const DIAL: [(i64, i64); 12] = [
    (225, 105),
    (250, 120),
    (275, 140),
    (300, 150),
    (325, 160),
    (350, 180),
    (375, 190),
    (400, 200),
    (425, 220),
    (450, 230),
    (475, 250),
    (500, 260),
];

impl Temperature {
    /// One temperature.
    pub fn at(degrees: Number, scale: Scale) -> Self {
        Self { low: degrees, high: degrees, scale }
    }

    /// A gas mark as an oven temperature: 250 °F + 25 × mark; 1/2 is 250 °F and 1/4 is 225 °F.
    ///
    /// `None` outside 1/4 to 10. Source: the table of gas marks in common reference works.
    pub fn gas_mark(mark: Number) -> Option<Self> {
        let degrees = match (*mark.numer(), *mark.denom()) {
            (1, 4) => 225,
            (1, 2) => 250,
            (whole @ 1..=10, 1) => 250 + 25 * whole,
            _ => return None,
        };
        Some(Self::at(Number::from_integer(degrees), Scale::Fahrenheit))
    }

    /// The same in the other scale, rounded as its use asks.
    pub fn converted(self, to_use: Use) -> Self {
        let convert = |degrees| match (self.scale, to_use) {
            (Scale::Celsius, Use::Oven) => dial_fahrenheit(degrees),
            (Scale::Fahrenheit, Use::Oven) => dial_celsius(degrees),
            (Scale::Celsius, Use::Thermometer) => fahrenheit(degrees).round(),
            (Scale::Fahrenheit, Use::Thermometer) => celsius(degrees).round(),
            // Exact: 1 K is 9/5 °F (NIST SP 811).
            (Scale::Celsius, Use::Difference) => (degrees * Ratio::new(9, 5)).round(),
            (Scale::Fahrenheit, Use::Difference) => (degrees * Ratio::new(5, 9)).round(),
        };
        let scale = match self.scale {
            Scale::Celsius => Scale::Fahrenheit,
            Scale::Fahrenheit => Scale::Celsius,
        };
        Self { low: convert(self.low), high: convert(self.high), scale }
    }

    /// The same in degrees Celsius, exact.
    pub fn celsius(self) -> (Number, Number) {
        match self.scale {
            Scale::Celsius => (self.low, self.high),
            Scale::Fahrenheit => (celsius(self.low), celsius(self.high)),
        }
    }
}

/// Exact: t × 9/5 + 32 (NIST SP 811).
pub fn fahrenheit(celsius: Number) -> Number {
    celsius * Ratio::new(9, 5) + 32
}

/// Whole °C in °F, to the nearest degree.
pub fn whole_fahrenheit(celsius: i64) -> i64 {
    (celsius * 18 + 5).div_euclid(10) + 32
}

/// Exact: (t − 32) × 5/9 (NIST SP 811).
pub fn celsius(fahrenheit: Number) -> Number {
    (fahrenheit - 32) * Ratio::new(5, 9)
}

/// The handbook's step of the dial for its own °C; else to the nearest 25 °F if within 7 °F of it, else the nearest 5 °F.
fn dial_fahrenheit(degrees: Number) -> Number {
    if let Some((step, _)) = DIAL.iter().find(|(_, printed)| degrees == Number::from_integer(*printed)) {
        return Number::from_integer(*step);
    }
    let exact = fahrenheit(degrees);
    let dial = nearest(exact, 25);
    let gap = if dial > exact { dial - exact } else { exact - dial };
    if gap <= Number::from_integer(7) { dial } else { nearest(exact, 5) }
}

/// The handbook's °C for the steps of the dial, else the nearest 5 °C.
fn dial_celsius(degrees: Number) -> Number {
    match DIAL.iter().find(|(step, _)| degrees == Number::from_integer(*step)) {
        Some((_, printed)) => Number::from_integer(*printed),
        None => nearest(celsius(degrees), 5),
    }
}

fn nearest(value: Number, step: i64) -> Number {
    (value / step).round() * step
}

#[cfg(test)]
mod tests {
    use super::*;

    fn convert(degrees: i64, scale: Scale, to_use: Use) -> i64 {
        Temperature::at(Number::from_integer(degrees), scale).converted(to_use).low.to_integer()
    }

    #[test]
    fn ovens_move_in_steps_of_the_dial() {
        let case = |c, f| assert_eq!(convert(c, Scale::Celsius, Use::Oven), f, "{c} °C");
        for (c, f) in [(150, 300), (160, 325), (170, 340), (180, 350), (190, 375), (200, 400), (220, 425), (230, 450)] {
            case(c, f);
        }
        case(140, 275);
        assert_eq!(convert(350, Scale::Fahrenheit, Use::Oven), 180);
        assert_eq!(convert(410, Scale::Fahrenheit, Use::Oven), 210);
    }

    /// Exact Celsius of each dial step is within 5 °C of what the handbook prints, bar none.
    #[test]
    fn the_printed_dial_is_within_five_degrees() {
        for (f, printed) in DIAL {
            let gap = celsius(Number::from_integer(f)) - printed;
            assert!(gap.to_integer().abs() <= 5, "{f} °F");
        }
    }

    /// Colorado State University Extension: soft ball 234–240 °F; other tables print 112–115 °C.
    #[test]
    fn sugar_is_to_the_degree() {
        assert_eq!(convert(234, Scale::Fahrenheit, Use::Thermometer), 112);
        assert_eq!(convert(121, Scale::Celsius, Use::Thermometer), 250);
        assert_eq!(convert(-40, Scale::Celsius, Use::Thermometer), -40);
    }

    #[test]
    fn gas_marks_are_steps_of_twenty_five() {
        let case = |n, d, f| {
            assert_eq!(Temperature::gas_mark(Number::new(n, d)).map(|t| t.low.to_integer()), f);
        };
        case(4, 1, Some(350));
        case(1, 2, Some(250));
        case(1, 4, Some(225));
        case(11, 1, None);
    }
}
