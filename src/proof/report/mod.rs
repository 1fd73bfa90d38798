//! The same findings, for people and for machines.

mod json;
mod sarif;
mod terminal;

pub use json::json;
pub use sarif::sarif;
pub use terminal::terminal;
