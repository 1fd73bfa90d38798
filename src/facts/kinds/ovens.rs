//! The usual ovens of a kind, by the time that it is in there.

use std::sync::LazyLock;

use crate::facts::table;

/// Kind, minutes at most, low and high in °C, and whether what dries is within the range.
const OVENS: &str = include_str!("ovens.tsv");

/// The usual oven of a kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::facts) struct UsualOven {
    /// The kind.
    pub(in crate::facts) kind: &'static str,
    minutes: Option<u64>,
    /// The lowest and highest °C.
    pub(in crate::facts) range: (i64, i64),
    /// Whether an oven that only dries is within the range.
    pub(in crate::facts) dries: bool,
}

static ALL: LazyLock<Vec<UsualOven>> = LazyLock::new(|| table::rows(OVENS).filter_map(read).collect());

fn read(line: &'static str) -> Option<UsualOven> {
    let cells: Vec<&'static str> = line.split('\t').collect();
    let range = (cells.get(2)?.parse().ok()?, cells.get(3)?.parse().ok()?);
    Some(UsualOven { kind: cells[0], minutes: cells[1].parse().ok(), range, dries: cells.get(4) == Some(&"dries") })
}

/// The usual oven of a kind for so many minutes. Where no time is stated, the widest that any time has.
pub(in crate::facts) fn oven(kind: &str, minutes: Option<u64>) -> Option<UsualOven> {
    let mut rows = ALL.iter().filter(|oven| oven.kind == kind);
    let Some(minutes) = minutes else {
        return rows.copied().reduce(|one, other| UsualOven {
            range: (one.range.0.min(other.range.0), one.range.1.max(other.range.1)),
            ..one
        });
    };
    rows.find(|oven| oven.minutes.is_none_or(|most| minutes <= most)).copied()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::kinds::ranges::ranges;

    #[test]
    fn every_row_is_read_and_names_a_kind() {
        for line in table::rows(OVENS) {
            let oven = read(line).unwrap();
            assert!(oven.range.0 < oven.range.1 && !ranges(oven.kind).is_empty(), "{line}");
        }
    }

    #[test]
    fn the_time_chooses_the_row() {
        assert_eq!(oven("French meringue", Some(120)).map(|oven| oven.range), Some((45, 155)));
        assert_eq!(oven("French meringue", None).map(|oven| oven.range), Some((45, 270)));
        assert_eq!(oven("choux", Some(500)).map(|oven| oven.range), Some((110, 240)));
        assert_eq!(oven("genoise", Some(500)), None);
        assert_eq!(oven("nothing", None), None);
    }
}
