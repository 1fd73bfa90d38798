use super::{Number, Standard, Unit};

/// A volume that a home set of measures can fill level: cups, then tablespoons or teaspoons, at most two of them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, serde::Serialize)]
pub struct LevelMeasure {
    /// Cups, in twelfths: thirds and quarters are whole.
    pub cup_twelfths: u32,
    /// Tablespoons.
    pub tbsp: u32,
    /// Teaspoons, in eighths.
    pub tsp_eighths: u32,
}

/// How much a measure asks of the cook: the units named, then the fillings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Simplicity {
    /// Units named: one in `1 1/4 cups`, two in `1/3 cup + 1 tbsp`.
    pub terms: u32,
    /// Whole and broken parts: two in `1 1/4 cups`.
    pub parts: u32,
}

const TWELFTHS: u32 = 12;
const EIGHTHS: u32 = 8;

impl LevelMeasure {
    /// Cups only, in twelfths.
    pub fn cups(cup_twelfths: u32) -> Self {
        Self { cup_twelfths, ..Self::default() }
    }

    /// Spoons only: tablespoons, and teaspoons in eighths.
    pub fn spoons(tbsp: u32, tsp_eighths: u32) -> Self {
        Self { tbsp, tsp_eighths, ..Self::default() }
    }

    /// Its volume in ticks of 1/24 tsp.
    pub fn ticks(self, standard: Standard) -> u32 {
        self.cup_twelfths * (standard.cup_ticks() / TWELFTHS)
            + self.tbsp * standard.tbsp_ticks()
            + self.tsp_eighths * (24 / EIGHTHS)
    }

    /// Its parts as numbers of a unit, the largest unit first.
    pub fn amounts(self) -> impl Iterator<Item = (Number, Unit)> {
        let number = |n: u32, d: u32| Number::new(i64::from(n), i64::from(d));
        [
            (number(self.cup_twelfths, TWELFTHS), Unit::Cup),
            (number(self.tbsp, 1), Unit::Tbsp),
            (number(self.tsp_eighths, EIGHTHS), Unit::Tsp),
        ]
        .into_iter()
        .filter(|(number, _)| *number.numer() > 0)
    }

    /// How simple it is to measure.
    pub fn simplicity(self) -> Simplicity {
        let parts = |n: u32, per: u32| u32::from(n / per > 0) + broken(n % per, per);
        let terms = [self.cup_twelfths, self.tbsp, self.tsp_eighths].iter().filter(|n| **n > 0).count() as u32;
        let split = u32::from(matches!(self.tsp_eighths % EIGHTHS, 3 | 5 | 7));
        Simplicity {
            terms: terms + split,
            parts: parts(self.cup_twelfths, TWELFTHS) + u32::from(self.tbsp > 0) + parts(self.tsp_eighths, EIGHTHS),
        }
    }
}

/// Fillings for the broken part: the set has 1/2, 1/3, 1/4 and, for spoons, 1/8; 3/8, 5/8 and 7/8 take two.
fn broken(rest: u32, per: u32) -> u32 {
    match (rest, per) {
        (0, _) => 0,
        (3 | 5 | 7, EIGHTHS) => 2,
        _ => 1,
    }
}

/// Every level measure up to 64 cups, in ascending order; the fine terms end where they no longer matter.
pub(super) fn all(standard: Standard) -> Vec<LevelMeasure> {
    let mut measures = spoons(standard);
    for twelfths in 3..=64 * TWELFTHS {
        let step = match twelfths / TWELFTHS {
            ..8 => 1,
            8..16 => 6,
            _ => TWELFTHS,
        };
        if twelfths % step != 0 || !matches!(twelfths % TWELFTHS, 0 | 3 | 4 | 6 | 8 | 9) {
            continue;
        }
        let cups = LevelMeasure::cups(twelfths);
        measures.push(cups);
        if twelfths < 4 * TWELFTHS {
            measures.extend((1..=3).map(|tbsp| LevelMeasure { tbsp, ..cups }));
        }
        if twelfths < 2 * TWELFTHS {
            measures.extend([8, 16].map(|tsp_eighths| LevelMeasure { tsp_eighths, ..cups }));
        }
    }
    measures.sort_by_key(|m| (m.ticks(standard), m.simplicity()));
    measures.dedup_by_key(|m| m.ticks(standard));
    measures
}

/// Everything under a quarter cup.
fn spoons(standard: Standard) -> Vec<LevelMeasure> {
    let mut measures = Vec::new();
    let tsp_in_tbsp = standard.tbsp_ticks() / 24;
    for eighths in 1..tsp_in_tbsp * EIGHTHS {
        let fits = match eighths {
            ..=10 => true,
            _ => eighths % 2 == 0,
        };
        if fits {
            measures.push(LevelMeasure::spoons(0, eighths));
        }
    }
    for tbsp in 1..=3 {
        measures.push(LevelMeasure::spoons(tbsp, 0));
        let rest = (2..tsp_in_tbsp * EIGHTHS).step_by(2);
        measures.extend(rest.map(|eighths| LevelMeasure::spoons(tbsp, eighths)));
    }
    measures.retain(|m| m.ticks(standard) < standard.cup_ticks() / 4);
    measures
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn simplicity_counts_units_then_fillings() {
        let case = |m: LevelMeasure, terms, parts| assert_eq!(m.simplicity(), Simplicity { terms, parts }, "{m:?}");
        case(LevelMeasure::cups(12), 1, 1);
        case(LevelMeasure::cups(15), 1, 2);
        case(LevelMeasure { cup_twelfths: 4, tbsp: 1, tsp_eighths: 0 }, 2, 2);
        case(LevelMeasure::spoons(2, 8), 2, 2);
        case(LevelMeasure::spoons(0, 3), 2, 2);
    }

    #[test]
    fn measures_ascend_and_never_repeat() {
        for standard in Standard::ALL {
            let ticks: Vec<u32> = all(standard).iter().map(|m| m.ticks(standard)).collect();
            assert!(ticks.windows(2).all(|pair| pair[0] < pair[1]), "{standard:?}");
            assert_eq!(ticks[0], 3, "the smallest is 1/8 tsp");
        }
    }
}
