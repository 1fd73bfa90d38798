//! Units, exact quantities, level measures, counts, temperatures, lengths and durations.
//!
//! Pure: no input or output, and no ingredient's name.

mod class;
mod count;
mod duration;
mod fill;
mod ladder;
mod length;
mod level;
mod number;
mod standard;
mod temperature;
mod unit;
mod weight;

pub use class::Class;
pub use count::{Pieces, pieces};
pub use duration::Duration;
pub use fill::Fill;
pub use ladder::{Ladder, LevelAnswer, weigh_measure};
pub use length::{LengthUnit, other_length};
pub use level::{LevelMeasure, Simplicity};
pub use number::{LARGEST, Number, Overflow, decimals, kitchen, vulgar};
pub use standard::Standard;
pub use temperature::{Scale, Temperature, Use, celsius, fahrenheit, whole_fahrenheit};
pub use unit::{Dimension, Unit};
pub use weight::Weight;
