use super::super::CommandError;
use super::super::writing::Made;
use super::{Making, OutputRow};
use crate::render;

/// The text for under the video.
pub(super) const OUTPUT: OutputRow =
    OutputRow { folder: "descriptions", holds: "a text each, for under the video", in_archive: false, make };

fn make(of: &Making<'_>) -> Result<Made, CommandError> {
    let text = render::description(&of.desk.environment, of.desk.site(), of.sheet)?.text;
    Ok((vec![(format!("descriptions/{}.txt", of.sheet.slug), text.into_bytes())], Vec::new()))
}
