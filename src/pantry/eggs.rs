use crate::measure::{Unit, Weight};
use crate::pantry::{Role, Row};

/// The regions that have classes of eggs.
pub const REGIONS: [&str; 3] = ["US", "EU", "UK"];

/// The sizes that a region's eggs are sold in; none for a region without classes.
pub fn sizes(region: &str) -> Option<&'static [&'static str]> {
    const SIZES: [&str; 5] = ["small", "medium", "large", "extra large", "jumbo"];
    match region.to_ascii_uppercase().as_str() {
        "US" => Some(&SIZES),
        "EU" | "UK" => Some(&SIZES[..4]),
        _ => None,
    }
}

/// Whose egg classes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Region {
    /// USDA AMS 56 (2000): ounces a dozen.
    Us,
    /// Regulation (EC) 589/2008: grams an egg.
    Eu,
    /// The same classes as the EU's, kept in UK law.
    Uk,
}

/// An egg of one class.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EggSize {
    region: Region,
    size: Unit,
}

/// What one class weighs without shell, in milligrams.
struct EggClass {
    size: Unit,
    whole: i64,
    white: i64,
    yolk: i64,
}

/// Whole eggs: USDA SR28 01123. White and yolk of large: SR28 01124, 01125; of other sizes in the same proportion.
const US: [EggClass; 5] = [
    EggClass { size: Unit::Small, whole: 38_000, white: 25_100, yolk: 12_900 },
    EggClass { size: Unit::Medium, whole: 44_000, white: 29_000, yolk: 15_000 },
    EggClass { size: Unit::Large, whole: 50_000, white: 33_000, yolk: 17_000 },
    EggClass { size: Unit::ExtraLarge, whole: 56_000, white: 37_000, yolk: 19_000 },
    EggClass { size: Unit::Jumbo, whole: 63_000, white: 41_600, yolk: 21_400 },
];

/// Middle of each class in shell (S 48, M 58, L 68, XL 78 g; the open classes by common practice), less 11 % shell;
/// white 58 % and yolk 31 % of the egg in shell. Regulation (EC) 589/2008, Article 4.
const EU: [EggClass; 4] = [
    EggClass { size: Unit::Small, whole: 42_700, white: 27_800, yolk: 14_900 },
    EggClass { size: Unit::Medium, whole: 51_600, white: 33_600, yolk: 18_000 },
    EggClass { size: Unit::Large, whole: 60_500, white: 39_400, yolk: 21_100 },
    EggClass { size: Unit::ExtraLarge, whole: 69_400, white: 45_200, yolk: 24_200 },
];

impl EggSize {
    /// A class by region (`US`, `EU`, `UK`) and size (`large`, `L`); `None` where there is no such class.
    pub fn of(region: &str, size: &str) -> Option<Self> {
        let region = match region.to_ascii_uppercase().as_str() {
            "US" => Region::Us,
            "EU" => Region::Eu,
            "UK" => Region::Uk,
            _ => return None,
        };
        let size = match size.to_lowercase().as_str() {
            "small" | "s" => Unit::Small,
            "medium" | "m" => Unit::Medium,
            "large" | "l" => Unit::Large,
            "extra large" | "extra-large" | "very large" | "xl" => Unit::ExtraLarge,
            "jumbo" => Unit::Jumbo,
            _ => return None,
        };
        let egg = Self { region, size };
        egg.classes().iter().any(|class| class.size == size).then_some(egg)
    }

    /// The size of the class.
    pub fn size(self) -> Unit {
        self.size
    }

    /// What an egg, a white or a yolk of a size weighs without shell; `None` for other rows of the pantry.
    pub(crate) fn piece(self, row: &Row, size: Option<Unit>) -> Option<(Weight, Unit)> {
        let size = size.unwrap_or(self.size);
        let class = self.classes().iter().find(|class| class.size == size)?;
        let milligrams = match () {
            () if row.is(Role::WholeEgg) => class.whole,
            () if row.is(Role::EggWhite) => class.white,
            () if row.is(Role::EggYolk) => class.yolk,
            () => return None,
        };
        Some((Weight::from_milligrams(milligrams), size))
    }

    /// The least and most that a piece weighs in hundredths of the usual: a class of egg is a range of about 7 %
    /// either way, and the trade counts a white as 30 g and a yolk as 20 g of 50. Common practice.
    pub(crate) fn spread(row: &Row) -> (i128, i128) {
        match () {
            () if row.is(Role::EggWhite) => (90, 110),
            () if row.is(Role::EggYolk) => (88, 118),
            () => (93, 107),
        }
    }

    pub(crate) fn citation(self) -> &'static str {
        match self.region {
            Region::Us => "USDA SR28 01123 to 01125",
            Region::Eu | Region::Uk => "Regulation (EC) 589/2008, less shell",
        }
    }

    fn classes(self) -> &'static [EggClass] {
        match self.region {
            Region::Us => &US,
            Region::Eu | Region::Uk => &EU,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_differ_by_region() {
        let pantry = crate::pantry::Pantry::embedded();
        let egg = pantry.by_id("whole-egg").unwrap();
        let grams = |region, size| EggSize::of(region, size).unwrap().piece(egg, None).unwrap().0.grams();
        assert_eq!(grams("US", "large"), 50.0);
        assert_eq!(grams("EU", "M"), 51.6);
        assert_eq!(EggSize::of("EU", "jumbo"), None);
        assert_eq!(EggSize::of("MARS", "large"), None);
    }

    /// Of a large US egg the white weighs 33 g and the yolk 17 g. Source: USDA SR28 01124, 01125.
    #[test]
    fn a_part_is_weighed_as_that_part() {
        let pantry = crate::pantry::Pantry::embedded();
        let large = EggSize::of("US", "large").unwrap();
        let grams = |id: &str| Some(large.piece(pantry.by_id(id)?, None)?.0.grams());
        assert_eq!([grams("egg-white"), grams("egg-yolk"), grams("duck-egg")], [Some(33.0), Some(17.0), None]);
    }

    /// White and yolk make up the whole: USDA SR28 gives 50 = 33 + 17 for a large egg.
    #[test]
    fn parts_add_up() {
        for class in US.iter().chain(&EU) {
            assert_eq!(class.white + class.yolk, class.whole, "{:?}", class.size);
        }
    }
}
