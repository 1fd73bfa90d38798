//! One file a rule, and the table of them.

mod chapters_invalid;
mod component_unused;
mod component_used_early;
mod count_not_whole;
mod duplicate_ingredient;
mod ingredient_unused;
mod oven_too_hot;
mod ratio_disagrees;
mod stated_pair_disagrees;
mod temperature_scale_missing;
mod temperature_scales_disagree;
mod times_missing;
mod unit_missing;
mod unknown_ingredient;
mod yield_missing;

use super::Rule;
use crate::source::Level;

/// A table of rules from names, modules and levels; a rule's explanation is the first comment of its own file.
macro_rules! table {
    ($($name:literal $module:ident $level:ident)*) => {
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
    "chapters-invalid" chapters_invalid Warning
    "component-unused" component_unused Warning
    "component-used-early" component_used_early Error
    "count-not-whole" count_not_whole Warning
    "duplicate-ingredient" duplicate_ingredient Warning
    "ingredient-unused" ingredient_unused Warning
    "oven-too-hot" oven_too_hot Warning
    "ratio-disagrees" ratio_disagrees Warning
    "stated-pair-disagrees" stated_pair_disagrees Warning
    "temperature-scale-missing" temperature_scale_missing Warning
    "temperature-scales-disagree" temperature_scales_disagree Warning
    "times-missing" times_missing Warning
    "unit-missing" unit_missing Warning
    "unknown-ingredient" unknown_ingredient Warning
    "yield-missing" yield_missing Warning
}
