//! READ: a YAML file and its ingredient lines become a recipe that still knows where each word stood.

mod component;
mod degrees;
mod file;
mod line;
mod read;
mod reader;
#[allow(clippy::module_inception, reason = "the type and its file share a name")]
mod recipe;
mod servings;
mod time;

pub use degrees::{Degrees, DegreesError};
pub use file::{LinkKind, schema};
pub use line::{Amount, Fullness, Line, LineError, LineFault, LineReader};
pub use read::read;
pub use recipe::{
    Allow, Component, ComponentUse, Correction, Ingredient, Link, Ratio, Recipe, StatedPhoto, Step, Video,
};
pub use servings::Servings;
pub use time::{TimeError, timestamp};
