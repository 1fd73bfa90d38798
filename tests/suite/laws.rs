//! The laws of the converter, over the whole pantry and every cup standard.

use levelcup::measure::{Class, Fill, Ladder, LevelAnswer, Number, Standard, Unit, Weight, weigh_measure};
use levelcup::pantry::{Pantry, Row};
use proptest::prelude::*;
use std::sync::LazyLock;

static PANTRY: LazyLock<Pantry> = LazyLock::new(Pantry::embedded);

fn fill(row: &Row) -> Fill {
    let of = |unit| row.measure(unit, |_| false).map(|measure| measure.milligrams());
    Fill { cup: of(Unit::Cup), fl_oz: of(Unit::FlOz), tbsp: of(Unit::Tbsp), tsp: of(Unit::Tsp) }
}

/// Every different way in which an ingredient is measured, with the name of one that is.
fn kinds() -> Vec<(&'static str, Fill, Class)> {
    let mut kinds: Vec<(&str, Fill, Class)> = Vec::new();
    for row in PANTRY.rows() {
        let (fill, class) = (fill(row), row.class);
        if !fill.is_empty() && !kinds.iter().any(|(_, f, c)| *f == fill && *c == class) {
            kinds.push((row.id.as_str(), fill, class));
        }
    }
    kinds
}

fn level(ladder: &Ladder, milligrams: i64) -> LevelAnswer {
    ladder.level(Weight::from_milligrams(milligrams))
}

/// The volume shown, in ticks; a pinch is less than any.
fn volume(level: &LevelAnswer, standard: Standard) -> u32 {
    match level {
        LevelAnswer::Measure { measure, .. } => measure.ticks(standard),
        LevelAnswer::Pinch | LevelAnswer::Weigh => 0,
    }
}

/// A level measure that is shown, converted to grams and back, is that measure.
#[test]
fn a_shown_measure_comes_back() {
    for (name, fill, class) in kinds() {
        for standard in Standard::ALL {
            let ladder = Ladder::new(&fill, class, standard).unwrap();
            for (measure, weight) in ladder.rungs() {
                match ladder.level(weight) {
                    LevelAnswer::Measure { measure: back, weigh, .. } => {
                        assert_eq!((back, weigh), (measure, false), "{name}, {standard:?}");
                    }
                    other => panic!("{name}, {standard:?}: {measure:?} came back as {other:?}"),
                }
            }
        }
    }
}

/// A heavier amount never shows a smaller measure: every rung is heavier than the one below it.
#[test]
fn heavier_rungs_are_larger() {
    for (name, fill, class) in kinds() {
        for standard in Standard::ALL {
            let ladder = Ladder::new(&fill, class, standard).unwrap();
            let rungs: Vec<_> = ladder.rungs().collect();
            for pair in rungs.windows(2) {
                let larger = pair[0].0.ticks(standard) < pair[1].0.ticks(standard);
                assert!(larger && pair[0].1 < pair[1].1, "{name}, {standard:?}: {pair:?}");
            }
        }
    }
}

fn any_kind() -> impl Strategy<Value = (Fill, Class, Standard)> {
    let kinds = kinds();
    (0..kinds.len(), 0..Standard::ALL.len())
        .prop_map(move |(at, standard)| (kinds[at].1, kinds[at].2, Standard::ALL[standard]))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    /// Converting the shown measure back lies within the shown error.
    #[test]
    fn the_error_shown_is_the_error((fill, class, standard) in any_kind(), milligrams in 1_i64..3_000_000) {
        let ladder = Ladder::new(&fill, class, standard).unwrap();
        let wanted = Weight::from_milligrams(milligrams);
        if let LevelAnswer::Measure { measure, weight, weigh } = ladder.level(wanted) {
            let back = weigh_measure(&fill, measure, standard).unwrap();
            prop_assert!(back.nanograms().abs_diff(weight.nanograms()) <= 3, "to the nanogram of each part");
            let tolerance = f64::from(class.tolerance_per_mille()) / 10.0;
            prop_assert!(weigh || weight.error_percent(wanted).abs() <= tolerance + 1e-9);
        }
    }

    /// A heavier amount never shows a smaller measure.
    #[test]
    fn heavier_is_never_smaller(
        (fill, class, standard) in any_kind(),
        milligrams in 1_i64..3_000_000,
        more in 0_i64..200_000,
    ) {
        let ladder = Ladder::new(&fill, class, standard).unwrap();
        let (light, heavy) = (level(&ladder, milligrams), level(&ladder, milligrams + more));
        prop_assert!(volume(&light, standard) <= volume(&heavy, standard), "{light:?} {heavy:?}");
    }

    /// If any measure of the ladder is within tolerance, the one shown is, and none of those is simpler.
    #[test]
    fn the_simplest_within_tolerance_is_shown((fill, class, standard) in any_kind(), milligrams in 1_i64..3_000_000) {
        let ladder = Ladder::new(&fill, class, standard).unwrap();
        let wanted = Weight::from_milligrams(milligrams);
        let within = |weight: Weight| weight.is_within(class.tolerance_per_mille(), wanted);
        let near: Vec<_> = ladder.rungs().filter(|(_, weight)| within(*weight)).collect();
        if let LevelAnswer::Measure { measure, weight, weigh } = ladder.level(wanted) {
            let beyond = ladder.rungs().last().is_some_and(|(_, top)| top < wanted);
            prop_assert_eq!(weigh, near.is_empty() && !beyond);
            prop_assert!(near.iter().all(|(other, _)| measure.simplicity() <= other.simplicity()));
            prop_assert!(beyond || weigh || within(weight));
        }
    }

    /// Scaling by two and then by a half is the identity.
    #[test]
    fn scaling_and_back_is_the_identity(numer in 1_i64..1_000_000, denom in 1_i64..1000) {
        let amount = Number::new(numer, denom);
        prop_assert_eq!(amount * 2 * Number::new(1, 2), amount);
    }
}

/// How often the ladder, which leaves rungs out so that the laws hold, advises weighing where some level measure
/// would have been within tolerance: never for a flour, whose spoons and cups scale.
#[test]
fn leaving_rungs_out_costs_no_precision() {
    let fill = Fill { cup: Some(125_000), ..Fill::default() };
    for class in [Class::Structure, Class::Liquid] {
        let ladder = Ladder::new(&fill, class, Standard::Customary).unwrap();
        let weighed = (5_000..2_000_000)
            .step_by(500)
            .filter(|mg| matches!(level(&ladder, *mg), LevelAnswer::Measure { weigh: true, .. }));
        let weighed: Vec<i64> = weighed.collect();
        assert!(weighed.len() < 40, "{class:?}: {} of 3990: {weighed:?}", weighed.len());
    }
}
