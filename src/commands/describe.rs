use clap::Args;

use super::desk::Desk;
use super::outputs::{self, Making};
use super::settings::Settings;
use super::writing::{self, PrintableTarget};
use super::{CommandError, Outcome};
use crate::typeset::CardSize;

/// Write the text for under the video
///
/// At most 5,000 bytes, both systems, chapters and links; to `out/descriptions/NAME.txt`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  levelcup describe\n  levelcup describe quay-loaf --stdout")]
pub(super) struct DescribeArguments {
    #[command(flatten)]
    target: PrintableTarget,
}

pub(super) fn run(command: &DescribeArguments, settings: &Settings) -> Result<Outcome, CommandError> {
    let desk = Desk::open(settings, &command.target.target.files)?;
    writing::run(&desk, &command.target, "describing", |one, sheet| {
        (outputs::DESCRIPTION.make)(&Making { desk: &desk, one, sheet, size: CardSize::default() })
    })
}
