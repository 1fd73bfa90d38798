//! One file a rule.

pub(super) mod stated_pair_disagrees;
pub(super) mod unknown_ingredient;
