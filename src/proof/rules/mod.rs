//! One file a rule, and the table of them.

use super::Rule;
use crate::source::Level;

/// A table of rules from names, modules and levels; a rule's explanation is the first comment of its own file.
macro_rules! table {
    ($($name:literal $module:ident $level:ident)*) => {
        $(mod $module;)*

        /// Every rule, in the order of their names.
        pub(super) const RULES: &[Rule] = &[$(Rule {
            name: $name,
            level: Level::$level,
            source: include_str!(concat!(stringify!($module), ".rs")),
            check: $module::check,
        }),*];

        #[test]
        fn a_rule_is_called_as_its_file() {
            $(assert_eq!($name.replace('-', "_"), stringify!($module));)*
        }
    };
}

table! {
    "amount-unusual" amount_unusual Warning
    "chapters-invalid" chapters_invalid Warning
    "component-unused" component_unused Warning
    "component-used-early" component_used_early Error
    "core-temperature-low" core_temperature_low Warning
    "count-not-whole" count_not_whole Warning
    "date-in-future" date_in_future Warning
    "decoration-not-edible" decoration_not_edible Warning
    "description-too-long" description_too_long Note
    "duplicate-ingredient" duplicate_ingredient Warning
    "gelatine-not-bloomed" gelatine_not_bloomed Warning
    "gelling-unusual" gelling_unusual Warning
    "honey-for-infants" honey_for_infants Error
    "ingredient-unlisted" ingredient_unlisted Warning
    "ingredient-unused" ingredient_unused Warning
    "leavening-unusual" leavening_unusual Warning
    "mould-too-small" mould_too_small Warning
    "oven-not-set" oven_not_set Warning
    "oven-too-hot" oven_too_hot Warning
    "paid-link-undisclosed" paid_link_undisclosed Warning
    "part-missing" part_missing Warning
    "parts-disagree" parts_disagree Warning
    "photo-missing" photo_missing Error
    "photo-unreadable" photo_unreadable Error
    "ratio-disagrees" ratio_disagrees Warning
    "rest-without-first" rest_without_first Warning
    "salt-unusual" salt_unusual Warning
    "share-in-text-disagrees" share_in_text_disagrees Warning
    "slug-repeated" slug_repeated Error
    "slug-taken" slug_taken Error
    "stated-pair-disagrees" stated_pair_disagrees Warning
    "step-too-early" step_too_early Warning
    "sugar-stage-disagrees" sugar_stage_disagrees Warning
    "sum-disagrees" sum_disagrees Warning
    "tag-spelled-two-ways" tag_spelled_two_ways Warning
    "temperature-scale-missing" temperature_scale_missing Warning
    "temperature-scales-disagree" temperature_scales_disagree Warning
    "temperature-unlikely" temperature_unlikely Warning
    "time-in-text-disagrees" time_in_text_disagrees Warning
    "time-not-counted" time_not_counted Note
    "times-missing" times_missing Warning
    "too-small-to-measure" too_small_to_measure Note
    "total-time-disagrees" total_time_disagrees Warning
    "unit-missing" unit_missing Warning
    "unknown-ingredient" unknown_ingredient Warning
    "volume-for-weight" volume_for_weight Warning
    "yield-disagrees" yield_disagrees Warning
    "yield-missing" yield_missing Warning
}
