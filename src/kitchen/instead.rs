use num_rational::Ratio;

use crate::measure::Weight;
use crate::pantry::Row;

/// An ingredient that does the same work as another, and how much of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Instead {
    /// Its row.
    pub id: &'static str,
    /// Its weight.
    pub weight: Weight,
    /// Who says so, and by what rule.
    pub source: &'static str,
}

/// How much of each yeast does the work of 100 parts of fresh. Common practice: yeast makers' tables give 100, 40, 33.
const YEASTS: [(&str, i128); 3] = [("fresh-yeast", 100), ("active-dry-yeast", 40), ("instant-yeast", 33)];

/// Vanilla that flavours alike: milligrams of one pod, a teaspoon of paste, a tablespoon of extract. Common practice;
/// makers differ. The extract's tablespoon is that of USDA SR28 02050.
const VANILLAS: [(&str, i128); 3] =
    [("vanilla-bean", 3_000), ("vanilla-bean-paste", 6_000), ("vanilla-extract", 13_000)];

/// Bloom of each gelatine: the middle of its grade, after the trade's conversion table; US powder 225 to 250.
const BLOOMS: [(&str, i128); 6] = [
    ("gelatin-powder", 225),
    ("gelatin-sheet-titanium", 110),
    ("gelatin-sheet-bronze", 140),
    ("gelatin-sheet-silver", 160),
    ("gelatin-sheet-gold", 200),
    ("gelatin-sheet-platinum", 250),
];

/// Other ingredients that do the work of a weight of this one; none for most.
///
/// Gelatine goes by mass times bloom, the trade's rule: sheets of every grade then set alike, as they are sold to do.
/// [`by_square_root`] is what physics would have.
pub fn instead_of(row: &Row, weight: Weight) -> Vec<Instead> {
    const YEAST: &str = "common practice: 100 fresh, 40 active dry, 33 instant";
    const VANILLA: &str = "common practice: 1 pod, 1 tsp paste, 1 tbsp extract";
    const GELATIN: &str = "mass × bloom, the trade's rule";
    let by =
        |table: &[(&'static str, i128)], source| alike(table, row, weight, source, |from, to| Ratio::new(to, from));
    let mut found = by(&YEASTS, YEAST);
    found.extend(by(&VANILLAS, VANILLA));
    found.extend(alike(&BLOOMS, row, weight, GELATIN, Ratio::new));
    found
}

fn alike(
    table: &[(&'static str, i128)],
    row: &Row,
    weight: Weight,
    source: &'static str,
    factor: impl Fn(i128, i128) -> Ratio<i128>,
) -> Vec<Instead> {
    let Some((_, from)) = table.iter().find(|(id, _)| *id == row.id) else { return Vec::new() };
    let others = table.iter().filter(|(id, _)| *id != row.id);
    let instead =
        others.filter_map(|(id, to)| Some(Instead { id, weight: weight.times(factor(*from, *to)).ok()?, source }));
    instead.collect()
}

/// Gelatine of one bloom in the place of another by the square root of the blooms: the strength of a gel grows with
/// the square of its concentration (Ward and Courts, The Science and Technology of Gelatin, p. 509, as quoted).
///
/// The trade's rule is `weight × from / to`; the two differ by 6 % from 200 to 225 bloom, by 19 % from 160 to 225.
pub fn by_square_root(weight: Weight, from_bloom: u32, to_bloom: u32) -> Weight {
    let grams = weight.grams() * (f64::from(from_bloom) / f64::from(to_bloom.max(1))).sqrt();
    Weight::from_milligrams((grams * 1000.0).round() as i64)
}

/// The bloom of a row of the pantry that is gelatine.
pub fn bloom(row: &str) -> Option<u32> {
    let (_, bloom) = BLOOMS.iter().find(|(id, _)| *id == row)?;
    u32::try_from(*bloom).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pantry::Pantry;

    fn milligrams(id: &str, grams: i64, instead: &str) -> i64 {
        let pantry = Pantry::embedded();
        let found = instead_of(pantry.by_id(id).unwrap(), Weight::from_milligrams(grams * 1000));
        found.iter().find(|other| other.id == instead).unwrap().weight.milligrams()
    }

    /// Worked examples: 12 g of 160 bloom is 8.53 g of 225 by mass × bloom, 10.12 g by the square root.
    #[test]
    fn gelatine_by_both_rules() {
        assert_eq!(milligrams("gelatin-sheet-silver", 12, "gelatin-powder"), 8_533);
        let root = |grams: i64, from, to| by_square_root(Weight::from_milligrams(grams * 1000), from, to).milligrams();
        assert_eq!(root(12, 160, 225), 10_119);
        assert_eq!(root(10, 250, 200), 11_180);
        assert_eq!(root(7, 225, 160), 8_301);
    }

    #[test]
    fn yeasts_and_vanilla() {
        assert_eq!(milligrams("instant-yeast", 33, "fresh-yeast"), 100_000);
        assert_eq!(milligrams("fresh-yeast", 20, "active-dry-yeast"), 8_000);
        assert_eq!(milligrams("vanilla-bean", 3, "vanilla-extract"), 13_000);
    }
}
