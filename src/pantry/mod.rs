//! UNDERSTAND: names become ingredients, with what their measures weigh and who published it.

mod eggs;
mod lookup;
mod name;
mod nearest;
mod own;
mod role;
mod row;
mod table;

pub use eggs::{EggSize, REGIONS, Region, sizes};
pub(crate) use name::{is_droppable, words};
pub use own::{read, schema};
pub use role::Role;
pub use row::{AllergenLists, Measure, Nutrients, Origin, Row};
pub use table::Pantry;
