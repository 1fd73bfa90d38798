//! The rows of `readings.tsv`.

use std::sync::LazyLock;

use crate::facts::table::{self, list};
use crate::language::Sense;

const READINGS: &str = include_str!("readings.tsv");

/// Where a temperature stands, and what it is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Of {
    Probe,
    Oven,
    Any,
    Cooked,
    Core,
    Baked,
    Line,
}

/// One of several senses.
pub(super) type OneOf = Vec<Sense>;

/// What is at a temperature, and how it is told.
#[derive(Clone, Debug)]
pub(super) struct ReadingRow {
    pub(super) what: &'static str,
    pub(super) of: Of,
    pub(super) told: Vec<OneOf>,
    pub(super) near: Vec<OneOf>,
    pub(super) unless: Vec<Sense>,
    pub(super) around: OneOf,
    pub(super) kinds: Vec<&'static str>,
    /// Minutes at most.
    pub(super) within: Option<u64>,
    /// Minutes at least.
    pub(super) beyond: Option<u64>,
    pub(super) range: (i64, i64),
    pub(super) usual: (i64, i64),
    pub(super) digits: bool,
    pub(super) never: bool,
    pub(super) whole: bool,
    pub(super) fried: bool,
}

impl ReadingRow {
    /// Whether no word tells it, so that it is asked for last.
    pub(super) fn is_general(&self) -> bool {
        self.told.is_empty() && self.near.is_empty() && self.kinds.is_empty()
    }
}

static ALL: LazyLock<Vec<ReadingRow>> = LazyLock::new(|| table::rows(READINGS).filter_map(read).collect());

/// All of them, the surest first.
pub(super) fn rows() -> &'static [ReadingRow] {
    &ALL
}

fn read(line: &'static str) -> Option<ReadingRow> {
    let cells: Vec<&'static str> = line.split('\t').collect();
    let of = match *cells.get(1)? {
        "probe" => Of::Probe,
        "oven" => Of::Oven,
        "any" => Of::Any,
        "cooked" => Of::Cooked,
        "core" => Of::Core,
        "baked" => Of::Baked,
        "line" => Of::Line,
        _ => return None,
    };
    let number = |at: usize| cells.get(at)?.parse::<i64>().ok();
    let flags: Vec<&str> = cells.get(12)?.split(' ').collect();
    Some(ReadingRow {
        what: cells[0],
        of,
        told: all_of(cells[2])?,
        near: all_of(cells[3])?,
        unless: list(cells[4]).map(table::named).collect::<Option<_>>()?,
        around: one_of(cells[5])?,
        kinds: list(cells[6]).collect(),
        within: if cells[7].ends_with('+') { None } else { cells[7].parse().ok() },
        beyond: cells[7].strip_suffix('+').and_then(|minutes| minutes.parse().ok()),
        range: (number(8)?, number(9)?),
        usual: (number(10)?, number(11)?),
        digits: flags.contains(&"digits"),
        never: flags.contains(&"never"),
        whole: flags.contains(&"whole"),
        fried: flags.contains(&"fried"),
    })
}

fn all_of(cell: &'static str) -> Option<Vec<OneOf>> {
    list(cell).map(one_of).collect()
}

fn one_of(cell: &'static str) -> Option<OneOf> {
    cell.split('|').filter(|name| !name.is_empty()).map(table::named).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_read() {
        for line in table::rows(READINGS) {
            let row = read(line).unwrap_or_else(|| panic!("{line}"));
            let source = line.split('\t').nth(13).is_some_and(|source| !source.is_empty());
            assert!(row.range.0 < row.range.1 && row.usual.0 < row.usual.1 && source, "{line}");
        }
    }
}
