//! Reading files, all of them through one gate; a text with its name, byte spans and lines, and the finding that points into it.

mod finding;
mod gate;
mod guard;
mod shown;
mod span;
mod text;

pub use finding::{Finding, Label, Level, Mend};
pub use gate::Gate;
pub use guard::guarded;
pub use shown::{shown, shown_in_json, shown_in_place};
pub use span::Span;
pub use text::{Place, Source, SourceError, SourceFault};
