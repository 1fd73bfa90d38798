use num_rational::Ratio;

use super::Standard;

/// What a unit measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dimension {
    /// Mass.
    Weight,
    /// Space, in millilitres or by cup and spoon.
    Volume,
    /// A number of things, or an amount too small to measure.
    Count,
}

/// How much a unit is.
#[derive(Clone, Copy)]
enum Size {
    /// Nanograms.
    Weight(i64),
    /// Millilitres, by the cup standard.
    Volume(fn(Standard) -> Ratio<i64>),
    /// As much as there is in one.
    Count,
}

/// What else is asked of a unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Trait {
    /// It belongs to the metric system.
    Metric,
    /// It is filled level by hand.
    Household,
    /// Fingers measure it.
    Pinched,
    /// A maker fills it.
    Container,
    /// Nobody measures it.
    Vague,
    /// It is the size of a thing, and no word for an amount.
    OfThings,
    /// It is one thing on this side of the Atlantic and another on that.
    Transatlantic,
    /// So much of a powder is filled into it that the hand tells.
    Scooped,
    /// One weighs what has grown, or was cut.
    Grown,
    /// A part of one is an amount.
    Divided,
}

/// Declares the units: name in machine output and data files, how much it is, what else is asked of it.
macro_rules! units {
    ($($unit:ident = $name:literal, $size:expr, [$($trait:ident),*];)*) => {
        /// A unit that an amount can be stated in.
        #[derive(
            Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize, serde::Deserialize,
            schemars::JsonSchema,
        )]
        #[serde(rename_all = "snake_case")]
        #[allow(missing_docs, reason = "each name is the unit")]
        pub enum Unit {
            $(#[serde(rename = $name)] $unit,)*
        }

        impl Unit {
            /// Every unit, in the order of the table.
            pub const ALL: &[Unit] = &[$(Unit::$unit,)*];

            /// Its name in machine output: `g`, `fl_oz`, `extra_large`.
            pub fn name(self) -> &'static str {
                match self {
                    $(Unit::$unit => $name,)*
                }
            }

            fn size(self) -> Size {
                use Size::*;
                match self {
                    $(Unit::$unit => $size,)*
                }
            }

            fn has(self, asked: Trait) -> bool {
                let traits: &[Trait] = match self {
                    $(Unit::$unit => &[$(Trait::$trait),*],)*
                };
                traits.contains(&asked)
            }
        }
    };
}

// Sources of weights: international avoirdupois pound of 1959, 453.59237 g; ounce a sixteenth.
// Of volumes: see the standard.
units! {
    G = "g", Weight(1_000_000_000), [Metric];
    Kg = "kg", Weight(1_000_000_000_000), [Metric];
    Mg = "mg", Weight(1_000_000), [Metric];
    Oz = "oz", Weight(28_349_523_125), [];
    Lb = "lb", Weight(453_592_370_000), [];
    Ml = "ml", Volume(|_| Ratio::ONE), [Metric];
    Cl = "cl", Volume(|_| Ratio::from_integer(10)), [Metric];
    Dl = "dl", Volume(|_| Ratio::from_integer(100)), [Metric, Scooped];
    L = "l", Volume(|_| Ratio::from_integer(1000)), [Metric];
    FlOz = "fl_oz", Volume(Standard::fluid_ounce), [Transatlantic];
    Pint = "pint", Volume(Standard::pint), [Transatlantic, Scooped];
    Quart = "quart", Volume(|standard| standard.pint() * 2), [Transatlantic, Scooped];
    Gallon = "gallon", Volume(|standard| standard.pint() * 8), [Transatlantic];
    Cup = "cup", Volume(|standard| standard.tick() * i64::from(standard.cup_ticks())), [Household, Scooped];
    Tbsp = "tbsp", Volume(|standard| standard.tick() * i64::from(standard.tbsp_ticks())), [Household];
    Tsp = "tsp", Volume(|standard| standard.tick() * 24), [Household];
    Pinch = "pinch", Count, [Pinched, Divided];
    Dash = "dash", Count, [Pinched, Divided];
    Drop = "drop", Count, [Pinched, Divided];
    Piece = "piece", Count, [Grown];
    Sheet = "sheet", Count, [];
    Stick = "stick", Count, [Divided];
    Clove = "clove", Count, [];
    Sprig = "sprig", Count, [Grown];
    Bunch = "bunch", Count, [Grown, Divided];
    Can = "can", Count, [Container, Divided];
    Packet = "packet", Count, [Container, Divided];
    Slice = "slice", Count, [];
    Leaf = "leaf", Count, [];
    Pod = "pod", Count, [];
    Head = "head", Count, [Grown];
    Stalk = "stalk", Count, [Grown];
    Ear = "ear", Count, [];
    Jar = "jar", Count, [Container];
    Bottle = "bottle", Count, [Container];
    Box = "box", Count, [Container];
    Bag = "bag", Count, [Container];
    Tub = "tub", Count, [Container];
    Bar = "bar", Count, [Container];
    Block = "block", Count, [Container];
    Handful = "handful", Count, [Vague];
    Knob = "knob", Count, [Vague];
    Splash = "splash", Count, [Vague];
    Drizzle = "drizzle", Count, [Vague];
    Squeeze = "squeeze", Count, [Vague];
    Small = "small", Count, [OfThings];
    Medium = "medium", Count, [OfThings];
    Large = "large", Count, [OfThings];
    ExtraLarge = "extra_large", Count, [OfThings];
    Jumbo = "jumbo", Count, [OfThings];
}

impl Unit {
    /// What it measures.
    pub fn dimension(self) -> Dimension {
        match self.size() {
            Size::Weight(_) => Dimension::Weight,
            Size::Volume(_) => Dimension::Volume,
            Size::Count => Dimension::Count,
        }
    }

    /// Its mass in nanograms, exact; `None` unless it is a weight.
    pub fn nanograms(self) -> Option<i64> {
        match self.size() {
            Size::Weight(nanograms) => Some(nanograms),
            _ => None,
        }
    }

    /// Its volume in millilitres under a cup standard, exact; `None` unless it is a volume.
    ///
    /// Sources: NIST Handbook 44, Appendix C (gallon 231 cubic inches of 25.4 mm); imperial gallon 4546.09 mL
    /// (Weights and Measures Act 1985); 21 CFR 101.9(b)(5)(viii) for the label measures; NSW Health conversion
    /// chart for the 250 mL cup and the spoons that go with it.
    pub fn millilitres(self, standard: Standard) -> Option<Ratio<i64>> {
        match self.size() {
            Size::Volume(of) => Some(of(standard)),
            _ => None,
        }
    }

    /// Whether fingers measure it, and weigh nothing that matters to a whole: a pinch, a dash, a drop.
    pub fn is_pinched(self) -> bool {
        self.has(Trait::Pinched)
    }

    /// Whether it is a household measure: filled level by hand rather than read off a scale or jug.
    pub fn is_household(self) -> bool {
        self.has(Trait::Household)
    }

    /// Whether it belongs to the metric system.
    pub fn is_metric(self) -> bool {
        self.has(Trait::Metric)
    }

    /// Whether it is what a maker fills: a can, a jar.
    pub fn is_container(self) -> bool {
        self.has(Trait::Container)
    }

    /// Whether nobody measures it: a handful, a knob.
    pub fn is_vague(self) -> bool {
        self.has(Trait::Vague)
    }

    /// Whether it is the size of a thing: `large`.
    pub fn is_of_things(self) -> bool {
        self.has(Trait::OfThings)
    }

    /// Whether it differs across the Atlantic: a pint, a fluid ounce.
    pub fn differs_across_the_atlantic(self) -> bool {
        self.has(Trait::Transatlantic)
    }

    /// Whether it is so large that what a cook's hand fills in makes another dish: a cup of flour.
    pub fn is_scooped(self) -> bool {
        self.has(Trait::Scooped)
    }

    /// Whether one is larger than the next as it grew or was cut: a bunch, a stalk.
    pub fn is_grown(self) -> bool {
        self.has(Trait::Grown)
    }

    /// Whether a third of one can be taken: of a can, of a bunch.
    pub fn is_divided(self) -> bool {
        self.has(Trait::Divided)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_agree_with_the_data_files() {
        for unit in Unit::ALL {
            assert_eq!(serde_json::to_value(unit).unwrap(), serde_json::json!(unit.name()));
        }
    }

    /// Decimals as printed by NIST Handbook 44, Appendix C.
    #[test]
    fn customary_volumes_are_exact() {
        let case = |unit: Unit, numer: i64, denom: i64| {
            assert_eq!(unit.millilitres(Standard::Customary), Some(Ratio::new(numer, denom)), "{unit:?}");
        };
        case(Unit::Cup, 2_365_882_365, 10_000_000);
        case(Unit::Tbsp, 1_478_676_478_125, 100_000_000_000);
        case(Unit::Tsp, 492_892_159_375, 100_000_000_000);
        case(Unit::FlOz, 295_735_295_625, 10_000_000_000);
        case(Unit::Gallon, 3_785_411_784, 1_000_000);
    }
}
