use std::fs;
use std::io::Cursor;
use std::path::{Path, PathBuf};

use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;
use image::{DynamicImage, ImageDecoder, ImageReader, Limits};
use serde::{Deserialize, Serialize};

use super::frame::file_address;
use super::page::Page;
use super::{ArchiveError, Key};

/// The largest photograph that is read, in bytes.
const LARGEST: u64 = 32 << 20;

/// The largest photograph that is decoded, in pixels a side.
const WIDEST: u32 = 12_000;

/// Widths that a photograph is shown in, in pixels, where it has as many.
const WIDTHS: [u32; 3] = [480, 960, 1600];

/// Quality of the JPEG, 1 to 100: about a fifteenth of the bytes without a difference on a screen (common practice).
const QUALITY: u8 = 82;

/// A photograph of a recipe.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Picture {
    /// Path inside the folder of photographs.
    pub(super) file: String,
    /// Of its contents.
    key: Key,
    /// Pixels, upright.
    width: u32,
    height: u32,
}

/// A photograph as templates see it; addresses are relative to the archive's root.
#[derive(Debug, Serialize)]
pub(super) struct Shown<'a> {
    alt: &'a str,
    width: u32,
    height: u32,
    sizes: Vec<Size>,
}

#[derive(Debug, Serialize)]
struct Size {
    address: String,
    width: u32,
}

impl Picture {
    /// Looks at a photograph without making anything of it.
    pub(super) fn read(folder: &Path, file: &str) -> Result<Self, ArchiveError> {
        let bytes = bytes(folder, file)?;
        let fault = |source| ArchiveError::Picture { path: folder.join(file), source };
        let mut decoder = reader(&bytes).and_then(ImageReader::into_decoder).map_err(fault)?;
        let turned = decoder.orientation().map_err(fault)?.to_exif() > 4;
        let (width, height) = decoder.dimensions();
        let (width, height) = if turned { (height, width) } else { (width, height) };
        Ok(Self { file: file.to_owned(), key: Key::of([&bytes[..]]), width, height })
    }

    pub(super) fn shown<'a>(&self, alt: &'a str) -> Shown<'a> {
        let sizes =
            self.widths().into_iter().map(|width| Size { address: file_address(&self.path(width)), width }).collect();
        let (width, height) = self.scaled(self.largest());
        Shown { alt, width, height, sizes }
    }

    /// Its files, one a width.
    pub(super) fn pages(&self, folder: &Path) -> Vec<Page<'static>> {
        let page = |width| {
            let key = Key::of([self.key.bytes(), &[QUALITY], &u32::to_le_bytes(width)]);
            let (picture, folder) = (self.clone(), PathBuf::from(folder));
            Page::new(self.path(width), key, move || picture.scale(&folder, width))
        };
        self.widths().into_iter().map(page).collect()
    }

    /// Widths it is made in, ascending.
    fn widths(&self) -> Vec<u32> {
        let mut widths: Vec<u32> = WIDTHS.into_iter().filter(|width| *width < self.width).collect();
        if widths.len() < WIDTHS.len() {
            widths.push(self.width);
        }
        widths
    }

    fn largest(&self) -> u32 {
        self.width.min(WIDTHS[WIDTHS.len() - 1])
    }

    fn scaled(&self, width: u32) -> (u32, u32) {
        let height =
            (u64::from(self.height) * u64::from(width) + u64::from(self.width) / 2) / u64::from(self.width.max(1));
        (width, u32::try_from(height.max(1)).unwrap_or(u32::MAX))
    }

    /// The largest has the photograph's own name, which is the one that others know.
    fn path(&self, width: u32) -> String {
        let stem = self.file.rsplit_once('.').map_or(self.file.as_str(), |(stem, _)| stem);
        if width == self.largest() { format!("photos/{stem}.jpg") } else { format!("photos/{stem}-{width}.jpg") }
    }

    fn scale(&self, folder: &Path, width: u32) -> Result<Vec<u8>, ArchiveError> {
        let bytes = bytes(folder, &self.file)?;
        let scaled = || {
            let mut decoder = reader(&bytes)?.into_decoder()?;
            let orientation = decoder.orientation()?;
            let mut picture = DynamicImage::from_decoder(decoder)?;
            picture.apply_orientation(orientation);
            let (width, height) = self.scaled(width);
            let picture = picture.resize_exact(width, height, FilterType::Lanczos3).into_rgb8();
            let mut jpeg = Vec::new();
            JpegEncoder::new_with_quality(&mut jpeg, QUALITY).encode_image(&picture)?;
            Ok(jpeg)
        };
        scaled().map_err(|source| ArchiveError::Picture { path: folder.join(&self.file), source })
    }
}

fn reader(bytes: &[u8]) -> Result<ImageReader<Cursor<&[u8]>>, image::ImageError> {
    let mut reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format()?;
    let mut limits = Limits::default();
    limits.max_image_width = Some(WIDEST);
    limits.max_image_height = Some(WIDEST);
    reader.limits(limits);
    Ok(reader)
}

/// A photograph's bytes; a link out of the folder is not followed.
fn bytes(folder: &Path, file: &str) -> Result<Vec<u8>, ArchiveError> {
    let path = folder.join(file);
    let fault = |source: std::io::Error| ArchiveError::Picture { path: path.clone(), source: source.into() };
    let real = path.canonicalize().map_err(fault)?;
    let inside = folder.canonicalize().map_err(fault)?;
    let size = real.metadata().map_err(fault)?.len();
    if !real.starts_with(inside) || size > LARGEST {
        return Err(fault(std::io::Error::other("a photo lies in `site/photos/` and has at most 32 MiB")));
    }
    fs::read(&real).map_err(fault)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn picture(width: u32, height: u32) -> Picture {
        Picture { file: "tart.png".into(), key: Key::default(), width, height }
    }

    #[test]
    fn a_photograph_is_never_enlarged() {
        assert_eq!(picture(4000, 3000).widths(), [480, 960, 1600]);
        assert_eq!(picture(1000, 500).widths(), [480, 960, 1000]);
        assert_eq!(picture(300, 200).widths(), [300]);
        assert_eq!(picture(4000, 3000).scaled(1600), (1600, 1200));
        assert_eq!(picture(1000, 500).path(1000), "photos/tart.jpg");
        assert_eq!(picture(1000, 500).path(480), "photos/tart-480.jpg");
    }
}
