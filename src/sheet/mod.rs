//! CONVERT: a recipe and the pantry become a sheet, in which every number is computed.

mod allergens;
mod amounts;
mod build;
mod cautions;
mod mentions;
mod model;
mod prose;
mod slug;
mod video;

pub use build::sheet;
pub use model::*;
