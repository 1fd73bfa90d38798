use super::level::{self, LevelMeasure, Simplicity};
use super::{Class, Fill, Number, Standard, Unit, Weight};

/// The level measures that one ingredient is shown in, lightest first.
///
/// Not every level measure is a rung: one with a simpler rung within tolerance is left out, and so is one that would
/// weigh less than a smaller measure (published spoons and cups need not scale). That choice makes three laws hold
/// together: a heavier amount never shows a smaller measure, a rung converted to grams and back is that rung, and
/// the simplest rung within tolerance is taken.
#[derive(Clone, Debug)]
pub struct Ladder {
    rungs: Vec<Rung>,
    fill: Fill,
    class: Class,
    standard: Standard,
}

#[derive(Clone, Copy, Debug)]
struct Rung {
    measure: LevelMeasure,
    weight: Weight,
    simplicity: Simplicity,
}

/// The answer to "what is this weight in level measures?"
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LevelAnswer {
    /// A level measure, what it weighs, and whether it is close enough.
    Measure {
        /// The measure.
        measure: LevelMeasure,
        /// What it weighs.
        weight: Weight,
        /// True when no measure is within tolerance, so that weighing is advised.
        weigh: bool,
    },
    /// Less than 1/8 tsp of something harmless.
    Pinch,
    /// Less than 1/8 tsp of something that must be weighed.
    Weigh,
}

impl Ladder {
    /// The ladder of an ingredient; `None` where nothing is published for it.
    pub fn new(fill: &Fill, class: Class, standard: Standard) -> Option<Self> {
        if fill.is_empty() {
            return None;
        }
        let mut candidates: Vec<Rung> = level::all(standard)
            .into_iter()
            .filter_map(|measure| {
                let weight = weigh_measure(fill, measure, standard)?;
                Some(Rung { measure, weight, simplicity: measure.simplicity() })
            })
            .collect();
        candidates.sort_by_key(|rung| rung.simplicity);
        let mut rungs: Vec<Rung> = Vec::new();
        for rung in candidates {
            let ticks = rung.measure.ticks(standard);
            let place = rungs.partition_point(|kept| kept.measure.ticks(standard) < ticks);
            let above_lower = place == 0 || rungs[place - 1].weight < rung.weight;
            let below_higher = rungs.get(place).is_none_or(|kept| rung.weight < kept.weight);
            if above_lower && below_higher && !has_simpler(&rungs, &rung, class) {
                rungs.insert(place, rung);
            }
        }
        Some(Self { rungs, fill: *fill, class, standard })
    }

    /// The simplest measure within the ingredient's tolerance of a weight, or the nearest, marked for weighing.
    pub fn level(&self, weight: Weight) -> LevelAnswer {
        let tolerance = self.class.tolerance_per_mille();
        if self.rungs.last().is_none_or(|top| top.weight < weight) {
            return self.whole_cups(weight);
        }
        let smallest = &self.rungs[0];
        if weight < smallest.weight && !smallest.weight.is_within(tolerance, weight) {
            return if self.class.must_be_weighed_when_small() { LevelAnswer::Weigh } else { LevelAnswer::Pinch };
        }
        let near = near(&self.rungs, weight, tolerance);
        let gap = |rung: &Rung| rung.weight.nanograms().abs_diff(weight.nanograms());
        if let Some(best) = near.iter().min_by_key(|rung| (rung.simplicity, gap(rung))) {
            return LevelAnswer::Measure { measure: best.measure, weight: best.weight, weigh: false };
        }
        let place = self.rungs.partition_point(|rung| rung.weight < weight);
        let around = self.rungs[place.saturating_sub(1)..].iter().take(2);
        match around.min_by_key(|rung| gap(rung)) {
            Some(best) => LevelAnswer::Measure { measure: best.measure, weight: best.weight, weigh: true },
            None => LevelAnswer::Weigh,
        }
    }

    /// Every measure it shows, with its weight, lightest first.
    pub fn rungs(&self) -> impl Iterator<Item = (LevelMeasure, Weight)> + '_ {
        self.rungs.iter().map(|rung| (rung.measure, rung.weight))
    }

    /// Above the highest rung: the nearest whole number of cups, less than 1 % off.
    fn whole_cups(&self, weight: Weight) -> LevelAnswer {
        let shown = || {
            let cup = weigh_measure(&self.fill, LevelMeasure::cups(12), self.standard)?.nanograms();
            let cups = (weight.nanograms() + cup / 2) / cup.max(1);
            let measure = LevelMeasure::cups(u32::try_from(cups).ok()?.checked_mul(12)?);
            let weight = weigh_measure(&self.fill, measure, self.standard)?;
            Some(LevelAnswer::Measure { measure, weight, weigh: false })
        };
        shown().unwrap_or(LevelAnswer::Weigh)
    }
}

fn has_simpler(rungs: &[Rung], rung: &Rung, class: Class) -> bool {
    near(rungs, rung.weight, class.tolerance_per_mille()).iter().any(|kept| kept.simplicity < rung.simplicity)
}

/// The rungs within a tolerance of a weight.
fn near(rungs: &[Rung], weight: Weight, per_mille: u32) -> &[Rung] {
    let first = rungs.partition_point(|r| r.weight < weight && !r.weight.is_within(per_mille, weight));
    let count = rungs[first..].partition_point(|r| r.weight.is_within(per_mille, weight));
    &rungs[first..first + count]
}

fn weigh_one(fill: &Fill, number: Number, unit: Unit, standard: Standard) -> Option<Weight> {
    fill.weigh(number, unit, standard)?.ok().filter(|weight| *weight > Weight::ZERO)
}

/// What a level measure weighs, each part by its own published figure; `None` where nothing is published.
pub fn weigh_measure(fill: &Fill, measure: LevelMeasure, standard: Standard) -> Option<Weight> {
    measure
        .amounts()
        .map(|(number, unit)| weigh_one(fill, number, unit, standard))
        .try_fold(Weight::ZERO, |sum, part| Some(sum.plus(part?)))
}
