use num_rational::Ratio;

use super::number::scaled;
use super::{Number, Overflow, Unit};

/// A mass, held exactly in nanograms, from nothing to a thousand tonnes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Weight(i64);

const NANO_PER_MILLI: i64 = 1_000_000;

/// A thousand tonnes, which leaves room to round, to double and to compare.
const HEAVIEST: i64 = 1_000_000_000_000_000_000;

impl Weight {
    /// Nothing.
    pub const ZERO: Weight = Weight(0);

    /// A number of milligrams; above a thousand tonnes, those.
    pub fn from_milligrams(milligrams: i64) -> Self {
        Weight(milligrams.clamp(0, HEAVIEST / NANO_PER_MILLI) * NANO_PER_MILLI)
    }

    /// A number of nanograms; negative ones are nothing, above a thousand tonnes they are those.
    pub fn from_nanograms(nanograms: i64) -> Self {
        Weight(nanograms.clamp(0, HEAVIEST))
    }

    /// A number of a weight unit; `None` when the unit is not a weight.
    ///
    /// # Errors
    /// [`Overflow`] above a thousand tonnes.
    pub fn of(number: Number, unit: Unit) -> Option<Result<Self, Overflow>> {
        let factor = Ratio::from_integer(i128::from(unit.nanograms()?));
        Some(scaled(number, factor).and_then(Self::bounded))
    }

    /// This weight times a number.
    ///
    /// # Errors
    /// [`Overflow`] above a thousand tonnes.
    pub fn times(self, number: Ratio<i128>) -> Result<Self, Overflow> {
        scaled(Number::from_integer(self.0), number).and_then(Self::bounded)
    }

    fn bounded(nanograms: i64) -> Result<Self, Overflow> {
        (0..=HEAVIEST).contains(&nanograms).then_some(Weight(nanograms)).ok_or(Overflow)
    }

    /// Nanograms.
    pub fn nanograms(self) -> i64 {
        self.0
    }

    /// Milligrams, rounded half up.
    pub fn milligrams(self) -> i64 {
        (self.0 + NANO_PER_MILLI / 2) / NANO_PER_MILLI
    }

    /// Grams, for display and machine output.
    pub fn grams(self) -> f64 {
        self.0 as f64 / 1e9
    }

    /// Both together; a thousand tonnes at most.
    pub fn plus(self, other: Weight) -> Weight {
        Weight((self.0 + other.0).min(HEAVIEST))
    }

    /// How far `self` is from `reference`, in per cent of `reference`: positive when `self` is the heavier.
    ///
    /// Zero when `reference` is nothing.
    pub fn error_percent(self, reference: Weight) -> f64 {
        if reference.0 == 0 {
            return 0.0;
        }
        (self.0 - reference.0) as f64 * 100.0 / reference.0 as f64
    }

    /// Whether it lies within `per_mille` thousandths of `reference`.
    pub fn is_within(self, per_mille: u32, reference: Weight) -> bool {
        let gap = i128::from(self.0) - i128::from(reference.0);
        gap.abs() * 1000 <= i128::from(reference.0) * i128::from(per_mille)
    }

    /// Rounded for showing: to 0.1 g under 3 g, 0.5 g under 10 g, else 1 g. Returned in tenths of a gram.
    ///
    /// Source: design rule of the house; half rounds up.
    pub fn shown_decigrams(self) -> i64 {
        let tenths = |step: i64| {
            let step_ng = step * 100_000_000;
            (self.0 + step_ng / 2) / step_ng * step
        };
        match self.0 {
            ..3_000_000_000 => tenths(1),
            3_000_000_000..10_000_000_000 => tenths(5),
            _ => tenths(10),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ounces_and_pounds_are_exact() {
        let of = |n, unit| Weight::of(Number::from_integer(n), unit).unwrap().unwrap().nanograms();
        assert_eq!(of(16, Unit::Oz), of(1, Unit::Lb));
        assert_eq!(of(1000, Unit::G), of(1, Unit::Kg));
        assert_eq!(Weight::of(Number::from_integer(1), Unit::Cup), None);
    }

    #[test]
    fn shown_steps_follow_the_size() {
        let case = |mg, tenths| assert_eq!(Weight::from_milligrams(mg).shown_decigrams(), tenths);
        case(2_940, 29);
        case(2_960, 30);
        case(3_200, 30);
        case(3_250, 35);
        case(9_740, 95);
        case(9_760, 100);
        case(10_499, 100);
        case(93_750, 940);
    }
}
