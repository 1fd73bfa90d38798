//! What a failing comparison of lists says.

use std::collections::BTreeSet;

/// Asserts that a list holds what it must, and says what it lacks and what it has too many.
#[track_caller]
pub(crate) fn same_list<A: ToString, B: ToString>(
    what: &str,
    got: impl IntoIterator<Item = A>,
    wanted: impl IntoIterator<Item = B>,
) {
    let got: BTreeSet<String> = got.into_iter().map(|one| one.to_string()).collect();
    let wanted: BTreeSet<String> = wanted.into_iter().map(|one| one.to_string()).collect();
    let lacking: Vec<_> = wanted.difference(&got).collect();
    let further: Vec<_> = got.difference(&wanted).collect();
    assert!(lacking.is_empty() && further.is_empty(), "{what}\n  lacks {lacking:?}\n  has too many {further:?}");
}
