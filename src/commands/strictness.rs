use clap::Args;

use super::Outcome;
use crate::source::Level;

/// What counts for the exit code.
#[derive(Debug, Args)]
pub(super) struct Strictness {
    /// Exit with 1 for a warning too, not only where an error held something back
    #[arg(long)]
    strict: bool,
}

impl Strictness {
    /// How a command ended whose worst finding is of some level.
    pub(super) fn outcome(&self, worst: Option<Level>) -> Outcome {
        Outcome::of(worst, if self.strict { Level::Warning } else { Level::Error })
    }
}
