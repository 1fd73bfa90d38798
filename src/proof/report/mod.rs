//! The same findings, for people and for machines.

mod json;
mod terminal;

pub use json::json;
pub use terminal::terminal;
