use num_rational::Ratio;

/// Which cup and spoons are in the kitchen.
///
/// Household volumes are whole numbers of ticks, a tick being 1/24 teaspoon: thirds, quarters and eighths are whole
/// in every standard.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Standard {
    /// US customary: cup 236.588 2365 mL, tablespoon a sixteenth of it.
    #[default]
    Customary,
    /// US label: cup 240 mL, tablespoon 15 mL, teaspoon 5 mL (21 CFR 101.9).
    Label,
    /// Cup 250 mL, tablespoon 15 mL, teaspoon 5 mL; imperial pint.
    Metric,
    /// Cup 250 mL, tablespoon 20 mL, teaspoon 5 mL; imperial pint.
    Australian,
    /// Imperial: cup of ten fluid ounces, 284.130 625 mL, tablespoon a sixteenth of it, teaspoon a third of that.
    Imperial,
}

impl Standard {
    /// Every standard.
    pub const ALL: [Standard; 5] =
        [Standard::Customary, Standard::Label, Standard::Metric, Standard::Australian, Standard::Imperial];

    /// Ticks in a cup: 1152, or 1200 for the 250 mL cup.
    pub fn cup_ticks(self) -> u32 {
        match self {
            Standard::Customary | Standard::Label | Standard::Imperial => 1152,
            Standard::Metric | Standard::Australian => 1200,
        }
    }

    /// Ticks in a tablespoon: 72, or 96 for the 20 mL spoon.
    pub fn tbsp_ticks(self) -> u32 {
        match self {
            Standard::Australian => 96,
            _ => 72,
        }
    }

    /// Millilitres in a tick.
    pub fn tick(self) -> Ratio<i64> {
        match self {
            // A teaspoon of 4.928 921 593 75 mL, in lowest terms, over 24.
            Standard::Customary => Ratio::new(157_725_491, 32_000_000 * 24),
            Standard::Imperial => Ratio::new(454_609, 1600 * 1152),
            _ => Ratio::new(5, 24),
        }
    }

    /// Millilitres in a fluid ounce.
    pub fn fluid_ounce(self) -> Ratio<i64> {
        match self {
            Standard::Customary => Ratio::new(473_176_473, 16_000_000),
            Standard::Label => Ratio::from_integer(30),
            Standard::Metric | Standard::Australian | Standard::Imperial => Ratio::new(454_609, 16_000),
        }
    }

    /// Millilitres in a pint: US liquid, or imperial beside the 250 mL cup.
    pub fn pint(self) -> Ratio<i64> {
        match self {
            Standard::Customary | Standard::Label => Ratio::new(473_176_473, 1_000_000),
            Standard::Metric | Standard::Australian | Standard::Imperial => Ratio::new(454_609, 800),
        }
    }
}
