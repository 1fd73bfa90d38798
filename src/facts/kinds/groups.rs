//! Parts of formulas that go together.

use std::sync::LazyLock;

use crate::facts::table::list;

/// Kind of group, its name and its parts.
pub(super) const GROUPS: &str = include_str!("groups.tsv");

type PartGroup = (&'static str, Vec<&'static str>);

static SUMS: LazyLock<Vec<PartGroup>> = LazyLock::new(|| of("sum"));

static COVERS: LazyLock<Vec<PartGroup>> = LazyLock::new(|| of("covers"));

static LISTS: LazyLock<Vec<PartGroup>> = LazyLock::new(|| of("list"));

fn of(kind: &str) -> Vec<PartGroup> {
    let lines = GROUPS.lines().filter_map(|line| line.strip_prefix(kind)?.strip_prefix('\t')?.split_once('\t'));
    lines.map(|(name, parts)| (name, list(parts).collect())).collect()
}

/// Amounts that are the sum of parts, in the order in which they can be added up.
pub(super) fn sums() -> &'static [PartGroup] {
    &SUMS
}

/// Whether a range for an amount says enough of a part.
pub(super) fn covers(amount: &str, part: &str) -> bool {
    has(&COVERS, amount, part) || has(&SUMS, amount, part)
}

/// Whether a part is on a list: `by the spoon`, `seasoning`, `stood in for`.
pub(super) fn lists(what: &str, part: &str) -> bool {
    has(&LISTS, what, part)
}

fn has(groups: &[PartGroup], name: &str, part: &str) -> bool {
    groups.iter().any(|(group, parts)| *group == name && parts.contains(&part))
}
