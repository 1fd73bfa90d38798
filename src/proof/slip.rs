//! What was probably meant where two measures of one thing disagree.

use num_rational::Ratio;

use super::pair::Judged;
use crate::kitchen::Kitchen;
use crate::measure::{Class, Dimension, Number, Standard, Unit, Weight};
use crate::pantry::{Role, Row};
use crate::recipe::{Amount, Line};

/// A slip that would explain the pair.
struct PairSlip {
    /// How far the pair is then still off, in thousandths.
    off: i64,
    said: String,
}

/// How near a slip must bring the two, in thousandths; it leaves room for weights in whole grams.
const NEAR: i64 = 100;

/// The same for a figure that is to be the other's very own: millilitres as grams.
const SAME: i64 = 20;

/// How much further off a plainer slip may be than one of another ingredient, in thousandths.
const LESS_LIKELY: i64 = 25;

/// How far apart two ingredients must be for one to be taken for the other, in thousandths.
const APART: i64 = 300;

/// The likeliest slip behind a pair that disagrees, as a sentence; `None` where none explains it.
///
/// `at` is the place of the measure among the line's amounts.
pub(super) fn slip(
    (line, row): (&Line, Option<&Row>),
    at: usize,
    weight: &Judged,
    measure: &Judged,
    kitchen: &Kitchen,
) -> Option<String> {
    let amount = line.amounts.get(at)?;
    let mut slips = Vec::new();
    slips.extend(other_spoon((line, row), at, weight, kitchen));
    slips.extend(doubled(weight, measure));
    if weight.is_weight {
        slips.extend(millilitres(amount, weight, kitchen).filter(|slip| slip.off <= SAME));
        slips.extend(shell(amount, row, weight, measure));
        slips.extend(row.and_then(|row| other_manner(row, amount, weight)));
        slips.extend(row.and_then(|row| other_ingredient(line, at, row, (weight, measure), kitchen)));
    }
    slips.retain(|slip| slip.off <= NEAR);
    slips.into_iter().min_by_key(|slip| slip.off).map(|slip| slip.said)
}

/// How far a weight is from another, in thousandths of it.
fn off(weight: Weight, other: Weight) -> i64 {
    let difference = i128::from(weight.nanograms() - other.nanograms()).abs();
    i64::try_from(difference * 1000 / i128::from(other.nanograms().max(1))).unwrap_or(i64::MAX)
}

/// A teaspoon for a tablespoon, or the other way round.
fn other_spoon((line, row): (&Line, Option<&Row>), at: usize, weight: &Judged, kitchen: &Kitchen) -> Option<PairSlip> {
    let (unit, said) = match line.amounts[at].unit? {
        Unit::Tsp => (Unit::Tbsp, "that is what tablespoons of it weigh, and teaspoons are written"),
        Unit::Tbsp => (Unit::Tsp, "that is what teaspoons of it weigh, and tablespoons are written"),
        _ => return None,
    };
    let mut other = line.clone();
    other.amounts[at].unit = Some(unit);
    let weighed = kitchen.weigh_amount(&other, at, row).ok()?;
    Some(PairSlip { off: off(weight.weighed.high, weighed.high), said: said.into() })
}

/// Twice or half of one of the two.
fn doubled(weight: &Judged, measure: &Judged) -> Option<PairSlip> {
    let (weight, measure) = (weight.weighed.high, measure.weighed.high);
    let twice = |one: Weight| one.plus(one);
    let double = PairSlip { off: off(weight, twice(measure)), said: "one is twice the other".into() };
    let half = PairSlip { off: off(twice(weight), measure), said: "one is half the other".into() };
    Some(if double.off < half.off { double } else { half })
}

/// Millilitres read as grams, or fluid ounces as ounces of weight.
fn millilitres(amount: &Amount, weight: &Judged, kitchen: &Kitchen) -> Option<PairSlip> {
    let unit = amount.unit.filter(|unit| unit.dimension() == Dimension::Volume)?;
    // A cup is called 240 mL, a tablespoon 15 and a teaspoon 5 in every chart.
    let standard = if unit.is_household() { Standard::Label } else { kitchen.standard() };
    let grams = unit.millilitres(standard)? * amount.high;
    let volume = Weight::of(reduced(grams)?, Unit::G)?.ok()?;
    let said = "the figure is that of its millilitres (or fluid ounces), which are no weight";
    Some(PairSlip { off: off(weight.weighed.high, volume), said: said.into() })
}

/// A volume that can be read as grams without growing past exact numbers.
fn reduced(number: Number) -> Option<Number> {
    let scaled = Ratio::<i128>::new(i128::from(*number.numer()) * 1000, i128::from(*number.denom())).round();
    i64::try_from(*scaled.numer()).ok().map(|thousandths| Number::new(thousandths, 1000))
}

/// Eggs weighed in the shell, which is 11 to 12 % of them.
fn shell(amount: &Amount, row: Option<&Row>, weight: &Judged, measure: &Judged) -> Option<PairSlip> {
    let whole = row.is_some_and(|row| row.is(Role::WholeEgg)) && amount.unit.is_none();
    // USDA AMS 56 has 56.7 g in the shell for a large egg, SR28 01123 50 g without.
    let shelled = measure.weighed.high.times(Ratio::new(567, 500)).ok().filter(|_| whole)?;
    let said = "that is what they weigh in the shell; the measure is of egg without it";
    Some(PairSlip { off: off(weight.weighed.high, shelled), said: said.into() })
}

/// Filled or cut in another way: packed, loose, sifted.
fn other_manner(row: &Row, amount: &Amount, weight: &Judged) -> Option<PairSlip> {
    let same_unit = row.measures.iter().filter(|measure| Some(measure.of) == amount.unit);
    let slips = same_unit.filter_map(|measure| {
        let manner = measure.manner.as_ref()?;
        let weighs = Weight::from_milligrams(measure.milligrams()).times(crate::kitchen::wide(amount.high)).ok()?;
        Some(PairSlip {
            off: off(weight.weighed.high, weighs),
            said: format!("that is what it weighs {manner}; say so"),
        })
    });
    slips.min_by_key(|slip| slip.off)
}

/// Another ingredient of the same family and with a word of the same name: icing sugar for granulated.
fn other_ingredient(
    line: &Line,
    at: usize,
    row: &Row,
    (weight, measure): (&Judged, &Judged),
    kitchen: &Kitchen,
) -> Option<PairSlip> {
    if let Some(fresh) = fresh_yeast(line, at, row, weight, kitchen) {
        return Some(fresh);
    }
    let shares = |other: &Row| other.name().split(' ').any(|word| row.name().split(' ').any(|own| own == word));
    let relatives = kitchen.pantry().rows().iter();
    let relatives = relatives.filter(|other| other.family == row.family && other.id != row.id && shares(other));
    let fitting = relatives.filter_map(|other| {
        let weighed = kitchen.weigh_amount(line, at, Some(other)).ok()?;
        let far = off(weighed.high, measure.weighed.high) >= APART;
        let off = off(weight.weighed.high, weighed.high);
        (far && off <= NEAR / 2).then(|| PairSlip {
            off: off + LESS_LIKELY,
            said: format!("that is what {} would weigh; which of the two is meant?", other.name()),
        })
    });
    // The first of the nearest, since the table begins with the commonest.
    fitting.min_by_key(|slip| slip.off)
}

/// Dried yeast by the weight of the fresh that it takes the place of.
fn fresh_yeast(line: &Line, at: usize, row: &Row, weight: &Judged, kitchen: &Kitchen) -> Option<PairSlip> {
    if row.class != Class::Leavening {
        return None;
    }
    let dried = kitchen.weigh_amount(line, at, Some(row)).ok()?;
    let is_fresh = |id: &str| kitchen.pantry().by_id(id).is_some_and(|row| row.is(Role::FreshYeast));
    let fresh = crate::kitchen::instead_of(row, dried.high).into_iter().find(|other| is_fresh(other.id))?;
    let said = "that is the weight of fresh yeast that does the same work";
    let off = off(weight.weighed.high, fresh.weight);
    (off <= NEAR / 2).then(|| PairSlip { off: off + LESS_LIKELY, said: said.into() })
}
