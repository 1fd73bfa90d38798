//! Two measures of one thing, judged as a trade reader would.

use num_rational::Ratio;

use crate::kitchen::{Kitchen, Weighed, wide};
use crate::measure::{Class, Dimension, Number, Standard, Unit, Weight};
use crate::pantry::Row;
use crate::recipe::{Amount, Fullness, Line};

/// An amount with what it weighs and how far it may be off.
pub(super) struct Judged {
    pub(super) weighed: Weighed,
    pub(super) is_weight: bool,
    class: Class,
    /// Half of the last place stated.
    rounding: Weight,
}

/// How far two volumes may be apart: 7 %, since a metric cup is 5.7 % larger than a US one. Rule of the house.
const VOLUMES: Ratio<i128> = Ratio::new_raw(7, 100);

/// One hand's pinch is up to so many of another's. Common practice.
const PINCHES: i64 = 3;

/// What varies from one piece to the next says nothing of the weight; only what is measured or counted is judged. The
/// sachets of yeast, baking powder and gelatine are measures: a dough is made by them.
fn varies(amount: &Amount, class: Class) -> bool {
    let loose = amount.unit.is_some_and(Unit::is_grown);
    let sachet = amount.unit == Some(Unit::Packet) && is_exact(class);
    loose || (!sachet && amount.unit.is_some_and(Unit::is_container))
}

/// One of a line's amounts; `None` where it cannot be weighed.
pub(super) fn judged(line: &Line, row: Option<&Row>, at: usize, kitchen: &Kitchen) -> Option<Judged> {
    let class = row.map_or(Class::Structure, |row| row.class);
    let amount = line.amounts.get(at).filter(|amount| !varies(amount, class))?;
    let mut weighed = kitchen.weigh_amount(line, at, row).ok()?;
    let is_weight = amount.unit.is_some_and(|unit| unit.dimension() == Dimension::Weight);
    if amount.fullness == Some(Fullness::Heaped) {
        // A heaped spoon holds up to twice a level one. Common practice.
        weighed.most = weighed.most.plus(weighed.most);
    }
    if amount.unit.is_some_and(Unit::is_pinched) {
        let of = |weight: Weight, tenths: i64| Weight::from_nanograms(weight.nanograms() / 10 * tenths);
        weighed.least = of(weighed.low, 10 / PINCHES).min(weighed.least);
        weighed.most = of(weighed.high, 10 * PINCHES).max(weighed.most);
    }
    if amount.unit.is_none() && amount.size.is_none() && row.is_some_and(grows) {
        let of = |weight: Weight, share: i64| Weight::from_nanograms(weight.nanograms() / 10 * share);
        weighed.least = of(weighed.low, 6).min(weighed.least);
        weighed.most = of(weighed.high, 16).max(weighed.most);
    }
    let rounding = if is_weight { half_place(amount) } else { Weight::ZERO };
    Some(Judged { weighed, is_weight, class, rounding })
}

/// Whether pieces of no stated size differ as what grows does: a large onion weighs 1.6 times a usual one (common
/// practice).
fn grows(row: &Row) -> bool {
    matches!(row.family.as_str(), "vegetable" | "fruit" | "herb")
}

/// 0.5 g of `122 g`, 0.25 g of `1.5 g`, 0.05 g of `1.3 g`.
fn half_place(amount: &Amount) -> Weight {
    let place = amount.unit.and_then(|unit| Weight::of(Number::from_integer(1), unit)).and_then(Result::ok);
    Weight::from_nanograms(place.unwrap_or(Weight::ZERO).nanograms() / 2 / amount.low.denom().clamp(&1, &100))
}

/// Whether a weight lies within what a measure can weigh.
///
/// Where exactness matters (leavening, salt, gelling) that is the measure's own range, or its usual weight rounded as
/// the author rounded. Elsewhere the ingredient's tolerance and the rounding come on top, the rounding up to a sixth.
pub(super) fn agree(weight: &Judged, measure: &Judged) -> bool {
    let (low, high) = (weight.weighed.low.nanograms(), weight.weighed.high.nanograms());
    let (least, most) = (measure.weighed.least.nanograms(), measure.weighed.most.nanograms());
    if is_exact(measure.class) {
        let half = weight.rounding.nanograms();
        let rounded = |stated: i64, usual: Weight| (stated - usual.nanograms()).abs() <= half;
        let usual = rounded(low, measure.weighed.low) && rounded(high, measure.weighed.high);
        return (high >= least && low <= most) || usual;
    }
    let rounding = weight.rounding.nanograms().max(measure.rounding.nanograms()).min(low / 6);
    let slack = |bound: i64| bound / 1000 * i64::from(measure.class.tolerance_per_mille()) + rounding;
    high >= least - slack(least) && low <= most + slack(most)
}

fn is_exact(class: Class) -> bool {
    matches!(class, Class::Leavening | Class::Gelling | Class::Salt)
}

/// Whether two volumes are one, whatever fills them; `None` unless both are volumes.
///
/// Pints and fluid ounces may be those of either side of the Atlantic.
pub(super) fn volumes_agree(one: &Amount, other: &Amount, kitchen: &Kitchen) -> Option<bool> {
    let standards = [kitchen.standard(), Standard::Customary, Standard::Imperial];
    let agree_by = |standard: Standard| {
        let millilitres = |amount: &Amount| {
            let unit = amount.unit?;
            let size =
                unit.millilitres(if unit.differs_across_the_atlantic() { standard } else { kitchen.standard() })?;
            Some((wide(amount.low) * wide(size), wide(amount.high) * wide(size)))
        };
        let ((low, high), (least, most)) = (millilitres(one)?, millilitres(other)?);
        let slack = |bound: Ratio<i128>| bound * VOLUMES;
        Some(high >= least - slack(least) && low <= most + slack(most))
    };
    standards.into_iter().map(agree_by).try_fold(false, |any, agrees| Some(any | agrees?))
}
