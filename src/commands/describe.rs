use clap::Args;

use super::desk::Desk;
use super::settings::Settings;
use super::writing::{self, PrintableTarget};
use super::{CommandError, Outcome, outputs};

/// Write the text for under the video
///
/// At most 5,000 bytes, both systems, chapters and links; to `out/descriptions/NAME.txt`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  levelcup describe\n  levelcup describe quay-loaf --stdout")]
pub(super) struct Describe {
    #[command(flatten)]
    target: PrintableTarget,
}

pub(super) fn run(command: &Describe, settings: &Settings) -> Result<Outcome, CommandError> {
    let desk = Desk::open(settings, &command.target.target.files)?;
    writing::run(&desk, &command.target, "describing", |_, sheet| {
        let text = outputs::description(&desk, sheet)?;
        Ok((vec![(format!("descriptions/{}.txt", sheet.slug), text.into_bytes())], Vec::new()))
    })
}
