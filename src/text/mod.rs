//! READ: numbers, measures, durations, addresses and colours in text, one reader of each; and text for markup.

mod address;
mod colour;
mod durations;
mod markup;
mod measures;
mod numbers;
mod quantities;

pub use address::{is_linkable, is_web_address, path_part, web_address};
pub use colour::colour;
pub use durations::{duration, durations};
pub use markup::{escaped, is_hidden, write_escaped};
pub use measures::{LengthMention, TemperatureMention, lengths, settings, temperatures};
pub use numbers::{Plain, number, only_number, parts, plain};
pub use quantities::{Quantity, quantities};
