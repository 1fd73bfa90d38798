//! CONVERT: a recipe and the pantry become a sheet, in which every number is computed.

mod model;

pub use model::*;
