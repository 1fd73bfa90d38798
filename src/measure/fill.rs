use num_rational::Ratio;

use super::{Number, Overflow, Standard, Unit, Weight};

/// What level household measures of one ingredient weigh, in milligrams per US customary measure.
///
/// Each is as published; none is derived from another, since spoons and cups are measured in different studies and
/// need not scale.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Fill {
    /// A level cup.
    pub cup: Option<i64>,
    /// A fluid ounce.
    pub fl_oz: Option<i64>,
    /// A level tablespoon.
    pub tbsp: Option<i64>,
    /// A level teaspoon.
    pub tsp: Option<i64>,
}

impl Fill {
    /// Whether nothing is published, so that no volume can be weighed.
    pub fn is_empty(&self) -> bool {
        *self == Fill::default()
    }

    /// What a number of a volume unit weighs under a cup standard; `None` for other units or where nothing is published.
    ///
    /// The published measure nearest in size is the reference, so that spoons weigh as spoons do.
    ///
    /// # Errors
    /// [`Overflow`] for weights above nine thousand tonnes.
    pub fn weigh(&self, number: Number, unit: Unit, standard: Standard) -> Option<Result<Weight, Overflow>> {
        let size = widen(unit.millilitres(standard)?);
        let (reference, milligrams) = self.reference(unit)?;
        let reference = widen(reference.millilitres(Standard::Customary)?);
        let factor = size / reference * widen(number);
        Some(Weight::from_milligrams(milligrams).times(factor))
    }

    /// The published measure that a unit is weighed by.
    pub fn reference(&self, unit: Unit) -> Option<(Unit, i64)> {
        let cup = self.cup.map(|mg| (Unit::Cup, mg));
        let fl_oz = self.fl_oz.map(|mg| (Unit::FlOz, mg));
        let tbsp = self.tbsp.map(|mg| (Unit::Tbsp, mg));
        let tsp = self.tsp.map(|mg| (Unit::Tsp, mg));
        match unit {
            Unit::Tsp => tsp.or(tbsp).or(cup).or(fl_oz),
            Unit::Tbsp => tbsp.or(cup).or(fl_oz).or(tsp),
            Unit::FlOz => fl_oz.or(cup).or(tbsp).or(tsp),
            _ => cup.or(fl_oz).or(tbsp).or(tsp),
        }
    }
}

fn widen(ratio: Ratio<i64>) -> Ratio<i128> {
    Ratio::new(i128::from(*ratio.numer()), i128::from(*ratio.denom()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grams(fill: Fill, number: Number, unit: Unit, standard: Standard) -> f64 {
        fill.weigh(number, unit, standard).unwrap().unwrap().grams()
    }

    /// USDA SR28 19335 (granulated sugar) and 20081 (flour), as quoted in the oracles.
    #[test]
    fn published_measures_are_given_back() {
        let sugar = Fill { cup: Some(200_000), tsp: Some(4_200), ..Fill::default() };
        assert_eq!(grams(sugar, Number::new(3, 2), Unit::Cup, Standard::Customary), 300.0);
        assert_eq!(grams(sugar, Number::from_integer(1), Unit::Tsp, Standard::Customary), 4.2);
        assert_eq!(grams(sugar, Number::from_integer(1), Unit::Tbsp, Standard::Customary), 12.5);
        let flour = Fill { cup: Some(125_000), ..Fill::default() };
        assert_eq!(grams(flour, Number::new(3, 4), Unit::Cup, Standard::Customary), 93.75);
    }

    #[test]
    fn a_larger_cup_holds_more() {
        let flour = Fill { cup: Some(125_000), ..Fill::default() };
        let metric = grams(flour, Number::from_integer(1), Unit::Cup, Standard::Metric);
        assert!((metric - 125.0 * 250.0 / 236.588_236_5).abs() < 1e-6);
        assert!((grams(flour, Number::from_integer(250), Unit::Ml, Standard::Customary) - metric).abs() < 1e-6);
    }
}
