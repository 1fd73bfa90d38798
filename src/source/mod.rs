//! A text with its name, byte spans and lines, and the finding that points into it.

mod finding;
mod text;

pub use finding::{Finding, Label, Level, Mend};
pub use text::{Place, Source, SourceError, Span};
