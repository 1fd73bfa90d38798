//! READ: a YAML file becomes a tree in which every value knows its place, then Rust types; all that is wrong with its form
//! is told at once, in the words of the file.

mod check;
mod document;
mod format;
mod nearest;
mod node;
mod parse;
mod scalar;
mod shape;
mod slip;
mod typed;

pub use check::{beginning, unknown_choice};
pub use document::Document;
pub use format::Format;
pub use nearest::nearest;
pub use node::{Entry, Node, Value};
