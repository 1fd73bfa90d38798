//! UNDERSTAND: names become ingredients, with what their measures weigh and who published it.

mod lookup;
mod name;
mod nearest;
mod role;
mod row;
mod table;

pub(crate) use name::{is_droppable, singular, without_accents, words};
pub use role::Role;
pub use row::{AllergenLists, Measure, Nutrients, Origin, Row};
pub use table::{Pantry, PantryError};
