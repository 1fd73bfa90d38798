use serde::Serialize;

use super::cover::Cover;
use super::dates;
use super::frame::folder_address;
use crate::sheet::{Correction, Sheet, Tag};

/// Size of the cover in lists, in the drawing's own units.
const COVER: (u32, u32) = (72, 96);

/// A recipe as lists show it.
#[derive(Debug, Serialize)]
pub(super) struct Entry<'a> {
    pub(super) slug: &'a str,
    /// Folder relative to the archive's root.
    pub(super) address: String,
    pub(super) title: &'a str,
    pub(super) summary: Option<&'a str>,
    pub(super) published: Option<&'a str>,
    /// For reading.
    pub(super) published_text: Option<String>,
    pub(super) updated: Option<&'a str>,
    pub(super) makes: Option<&'a str>,
    pub(super) start_to_finish: Option<&'a str>,
    pub(super) tags: &'a [Tag],
    pub(super) corrections: &'a [Correction],
    pub(super) cover: Option<Cover>,
}

impl<'a> Entry<'a> {
    pub(super) fn new(sheet: &'a Sheet) -> Self {
        Self {
            slug: &sheet.slug,
            address: folder_address(&sheet.slug),
            title: &sheet.title,
            summary: sheet.summary.as_deref(),
            published: sheet.published.as_deref(),
            published_text: sheet.published.as_deref().map(dates::for_reading),
            updated: sheet.updated.as_deref().or(sheet.published.as_deref()),
            makes: sheet.makes.as_deref(),
            start_to_finish: sheet.times.start_to_finish.as_ref().map(|length| length.text.as_str()),
            tags: &sheet.tags,
            corrections: &sheet.corrections,
            cover: Cover::draw(sheet, COVER.0, COVER.1),
        }
    }
}
