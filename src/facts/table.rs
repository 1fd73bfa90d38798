//! How the tables of what is known of cooking are written: rows of cells between tabs, comments behind `#`.

use serde::Deserialize;
use serde::de::value::{Error, StrDeserializer};

/// The rows of a table, without its comments.
pub(super) fn rows(table: &'static str) -> impl Iterator<Item = &'static str> {
    table.lines().filter(|line| !line.starts_with('#'))
}

/// The entries of a cell.
pub(super) fn list(cell: &'static str) -> impl Iterator<Item = &'static str> {
    cell.split("; ").filter(|entry| !entry.is_empty())
}

/// What goes by a name, as the languages' and the pantry's files call it; `None` where nothing does.
pub(super) fn named<T: Deserialize<'static>>(name: &'static str) -> Option<T> {
    T::deserialize(StrDeserializer::<Error>::new(name)).ok()
}
