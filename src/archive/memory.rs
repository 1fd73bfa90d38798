use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::entry::ListedRecipe;
use crate::output::Hash;
use crate::trace::Key;

/// What a build remembers for the next one: of each recipe what lists show, of each file what it was made from.
#[derive(Debug, Default, Serialize, Deserialize)]
pub struct Memory {
    /// By slug.
    pub(super) recipes: BTreeMap<String, Remembered>,
    /// By path.
    pub(super) files: BTreeMap<String, Made>,
}

/// A recipe of an earlier build.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct Remembered {
    /// What its sheet was computed from.
    pub(super) key: Key,
    pub(super) entry: ListedRecipe,
}

/// A file of an earlier build.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Made {
    /// What it was made from.
    pub(super) key: Key,
    pub(super) hash: Hash,
}
