use super::super::CommandError;
use super::super::writing::RecipeOutput;
use super::{Making, OutputRow};
use crate::render;

/// The text for under the video.
pub(super) const OUTPUT: OutputRow =
    OutputRow { folder: "descriptions", holds: "a text each, for under the video", in_archive: false, make };

fn make(of: &Making<'_>) -> Result<RecipeOutput, CommandError> {
    let text = render::description(&of.desk.environment, of.desk.site(), of.sheet)?.text;
    Ok((vec![(format!("descriptions/{}.txt", of.sheet.slug), text.into_bytes())], Vec::new()))
}
