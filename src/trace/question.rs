use jiff::civil::Date;
use serde::{Deserialize, Serialize};

/// Something outside its own file that a recipe's outputs and findings depend on.
///
/// A workspace's settings are none of these: they are few, nearly every output depends on them, and all of them are
/// part of every key.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Question {
    /// Which row of the pantry a name means, with the words behind its comma.
    Ingredient {
        /// The name.
        name: String,
        /// What stood behind the comma.
        more: String,
    },
    /// What the pantry's row of an id holds.
    Row(String),
    /// All that the pantry holds.
    Pantry,
    /// Which kinds of component are the workspace's own.
    Kinds,
    /// Which files have a name in addresses.
    Files(String),
    /// Whether a page that is no recipe has a name in addresses.
    Page(String),
    /// What a photograph is, by its file's name.
    Photo(String),
    /// Which day it is before a day that is still to come.
    Before(Date),
    /// What a template says, and all that it calls.
    Template(String),
}
