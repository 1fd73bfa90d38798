//! READ: numbers, measures and durations in running text, one reader of each.

mod durations;
mod measures;
mod numbers;

pub use durations::{duration, durations};
pub use measures::{LengthMention, TemperatureMention, lengths, settings, temperatures};
pub use numbers::{number, parts};
