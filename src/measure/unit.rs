use num_rational::Ratio;

use super::Standard;

/// A unit that an amount can be stated in.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, serde::Serialize, serde::Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs, reason = "each name is the unit")]
pub enum Unit {
    G,
    Kg,
    Mg,
    Oz,
    Lb,
    Ml,
    Cl,
    Dl,
    L,
    FlOz,
    Pint,
    Quart,
    Gallon,
    Cup,
    Tbsp,
    Tsp,
    Pinch,
    Dash,
    Drop,
    Piece,
    Sheet,
    Stick,
    Clove,
    Sprig,
    Bunch,
    Can,
    Packet,
    Slice,
    Leaf,
    Pod,
    Head,
    Stalk,
    Ear,
    Jar,
    Bottle,
    Box,
    Bag,
    Tub,
    Bar,
    Block,
    Handful,
    Knob,
    Splash,
    Drizzle,
    Squeeze,
    Small,
    Medium,
    Large,
    ExtraLarge,
    Jumbo,
}

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

impl Unit {
    /// Every unit, in the order of the declaration.
    pub const ALL: [Unit; 50] = {
        use Unit::*;
        [
            G, Kg, Mg, Oz, Lb, Ml, Cl, Dl, L, FlOz, Pint, Quart, Gallon, Cup, Tbsp, Tsp, Pinch, Dash, Drop, Piece,
            Sheet, Stick, Clove, Sprig, Bunch, Can, Packet, Slice, Leaf, Pod, Head, Stalk, Ear, Jar, Bottle, Box, Bag,
            Tub, Bar, Block, Handful, Knob, Splash, Drizzle, Squeeze, Small, Medium, Large, ExtraLarge, Jumbo,
        ]
    };

    /// Whether fingers measure it, and weigh nothing that matters to a whole: a pinch, a dash, a drop.
    pub fn is_pinched(self) -> bool {
        matches!(self, Unit::Pinch | Unit::Dash | Unit::Drop)
    }

    /// What it measures.
    pub fn dimension(self) -> Dimension {
        match self {
            Unit::G | Unit::Kg | Unit::Mg | Unit::Oz | Unit::Lb => Dimension::Weight,
            _ if self.millilitres(Standard::default()).is_some() => Dimension::Volume,
            _ => Dimension::Count,
        }
    }

    /// Whether it is a household measure: filled level by hand rather than read off a scale or jug.
    pub fn is_household(self) -> bool {
        matches!(self, Unit::Cup | Unit::Tbsp | Unit::Tsp)
    }

    /// Whether it belongs to the metric system.
    pub fn is_metric(self) -> bool {
        matches!(self, Unit::G | Unit::Kg | Unit::Mg | Unit::Ml | Unit::Cl | Unit::Dl | Unit::L)
    }

    /// Whether it is what a maker fills: a can, a jar.
    pub fn is_container(self) -> bool {
        use Unit::*;
        matches!(self, Can | Packet | Jar | Bottle | Box | Bag | Tub | Bar | Block)
    }

    /// Whether nobody measures it: a handful, a knob.
    pub fn is_vague(self) -> bool {
        matches!(self, Unit::Handful | Unit::Knob | Unit::Splash | Unit::Drizzle | Unit::Squeeze)
    }

    /// Its mass in nanograms, exact; `None` unless it is a weight.
    ///
    /// Source: international avoirdupois pound of 1959, 453.59237 g; ounce a sixteenth.
    pub fn nanograms(self) -> Option<i64> {
        match self {
            Unit::G => Some(1_000_000_000),
            Unit::Kg => Some(1_000_000_000_000),
            Unit::Mg => Some(1_000_000),
            Unit::Oz => Some(28_349_523_125),
            Unit::Lb => Some(453_592_370_000),
            _ => None,
        }
    }

    /// Its volume in millilitres under a cup standard, exact; `None` unless it is a volume.
    ///
    /// Sources: NIST Handbook 44, Appendix C (gallon 231 cubic inches of 25.4 mm); imperial gallon 4546.09 mL
    /// (Weights and Measures Act 1985); 21 CFR 101.9(b)(5)(viii) for the label measures; NSW Health conversion
    /// chart for the 250 mL cup and the spoons that go with it.
    pub fn millilitres(self, standard: Standard) -> Option<Ratio<i64>> {
        let whole = Ratio::from_integer;
        Some(match self {
            Unit::Ml => whole(1),
            Unit::Cl => whole(10),
            Unit::Dl => whole(100),
            Unit::L => whole(1000),
            Unit::FlOz => standard.fluid_ounce(),
            Unit::Pint => standard.pint(),
            Unit::Quart => standard.pint() * 2,
            Unit::Gallon => standard.pint() * 8,
            Unit::Cup => standard.tick() * i64::from(standard.cup_ticks()),
            Unit::Tbsp => standard.tick() * i64::from(standard.tbsp_ticks()),
            Unit::Tsp => standard.tick() * 24,
            _ => return None,
        })
    }

    /// Its name in machine output: `g`, `fl_oz`, `extra_large`.
    pub fn name(self) -> &'static str {
        use Unit::*;
        match self {
            G => "g",
            Kg => "kg",
            Mg => "mg",
            Oz => "oz",
            Lb => "lb",
            Ml => "ml",
            Cl => "cl",
            Dl => "dl",
            L => "l",
            FlOz => "fl_oz",
            Pint => "pint",
            Quart => "quart",
            Gallon => "gallon",
            Cup => "cup",
            Tbsp => "tbsp",
            Tsp => "tsp",
            Pinch => "pinch",
            Dash => "dash",
            Drop => "drop",
            Piece => "piece",
            Sheet => "sheet",
            Stick => "stick",
            Clove => "clove",
            Sprig => "sprig",
            Bunch => "bunch",
            Can => "can",
            Packet => "packet",
            Slice => "slice",
            Leaf => "leaf",
            Pod => "pod",
            Head => "head",
            Stalk => "stalk",
            Ear => "ear",
            Jar => "jar",
            Bottle => "bottle",
            Box => "box",
            Bag => "bag",
            Tub => "tub",
            Bar => "bar",
            Block => "block",
            Handful => "handful",
            Knob => "knob",
            Splash => "splash",
            Drizzle => "drizzle",
            Squeeze => "squeeze",
            Small => "small",
            Medium => "medium",
            Large => "large",
            ExtraLarge => "extra_large",
            Jumbo => "jumbo",
        }
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
