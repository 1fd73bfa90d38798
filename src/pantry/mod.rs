//! UNDERSTAND: names become ingredients, with what their measures weigh and who published it.

mod lookup;
mod name;
mod row;
mod table;

pub use row::{AllergenLists, Measure, Nutrients, Origin, Row};
pub use table::{Pantry, PantryError};
