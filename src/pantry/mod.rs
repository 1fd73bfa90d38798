//! UNDERSTAND: names become ingredients, with what their measures weigh and who published it.

mod eggs;
mod kind;
mod lookup;
mod name;
mod nearest;
mod own;
mod role;
mod row;
mod table;

pub use eggs::{EggSize, REGIONS, Region, sizes};
pub use kind::{OwnKind, PARTS, share};
pub(crate) use name::{is_droppable, words};
pub use own::{OwnPantry, read, schema};
pub use role::Role;
pub use row::{AllergenLists, Measure, Nutrients, Origin, Row};
pub use table::Pantry;
