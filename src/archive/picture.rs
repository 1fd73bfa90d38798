use serde::Serialize;

use super::ArchiveError;
use super::frame::file_address;
use super::page::ArchiveFile;
use crate::photo::{Photo, Photos, QUALITY};
use crate::trace::Key;

/// A photograph as templates see it; addresses are relative to the archive's root.
#[derive(Debug, Serialize)]
pub(super) struct ShownPhoto<'a> {
    alt: &'a str,
    width: u32,
    height: u32,
    sizes: Vec<PixelSize>,
}

#[derive(Debug, Serialize)]
struct PixelSize {
    address: String,
    width: u32,
}

pub(super) fn shown<'a>(photo: &Photo, alt: &'a str) -> ShownPhoto<'a> {
    let size = |width| PixelSize { address: file_address(&path(photo, width)), width };
    let (width, height) = photo.scaled(photo.largest());
    ShownPhoto { alt, width, height, sizes: photo.widths().into_iter().map(size).collect() }
}

/// The files of a photograph, one a width.
pub(super) fn pages<'a>(photo: &Photo, photos: &'a Photos) -> Vec<ArchiveFile<'a>> {
    let page = |width: u32| {
        let key = Key::of([photo.key.bytes(), &[QUALITY], &u32::to_le_bytes(width)]);
        let file = photo.file.clone();
        ArchiveFile::new(path(photo, width), key, move || {
            let print = photos.print(&file, width);
            print.map_err(|source| ArchiveError::Photo { path: photos.folder().join(&file), source })
        })
    };
    photo.widths().into_iter().map(page).collect()
}

/// The largest has the photograph's own name, which is the one that others know.
fn path(photo: &Photo, width: u32) -> String {
    let stem = photo.file.rsplit_once('.').map_or(photo.file.as_str(), |(stem, _)| stem);
    if width == photo.largest() { format!("photos/{stem}.jpg") } else { format!("photos/{stem}-{width}.jpg") }
}
