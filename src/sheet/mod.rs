//! CONVERT: a recipe and the pantry become a sheet, in which every number is computed.

mod allergens;
mod amounts;
mod bench;
mod build;
mod cautions;
mod factor;
mod length;
mod model;
mod nutrition;
mod prose;
mod slug;
mod video;

pub use bench::{Bench, BenchComponent, BenchLine, ScaledAmount, bench};
pub use build::sheet;
pub use factor::{Factor, FactorError};
pub use model::*;
pub use slug::slug;
