use std::io::Cursor;

use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;
use image::{DynamicImage, ImageDecoder, ImageError, ImageFormat, ImageReader, Limits, Rgb, RgbImage};

use super::error::WIDEST;
use super::{Photo, PhotoError, Print};

/// Quality of the JPEG, 1 to 100: about a fifteenth of the bytes without a difference on a screen (common practice).
pub const QUALITY: u8 = 82;

/// How many pixels a photograph has, if its file is whole.
pub(super) fn pixels(bytes: &[u8]) -> Result<u64, PhotoError> {
    let reader = reader(bytes)?;
    // The decoder makes up what is missing.
    if reader.format() == Some(ImageFormat::Jpeg) && !is_whole_jpeg(bytes) {
        return Err(PhotoError::CutShort);
    }
    let decoder = reader.into_decoder().map_err(fault)?;
    let (width, height) = decoder.dimensions();
    Ok(u64::from(width) * u64::from(height))
}

/// A photograph, upright, and on a white ground where it has none.
pub(super) fn picture(bytes: &[u8]) -> Result<RgbImage, PhotoError> {
    let mut decoder = reader(bytes)?.into_decoder().map_err(fault)?;
    let orientation = decoder.orientation().map_err(fault)?;
    let mut picture = DynamicImage::from_decoder(decoder).map_err(fault)?;
    picture.apply_orientation(orientation);
    Ok(if picture.color().has_alpha() { grounded(&picture) } else { picture.into_rgb8() })
}

/// A photograph in all its widths, ascending.
pub(super) fn prints(picture: RgbImage, photo: &Photo) -> Result<Vec<Print>, PhotoError> {
    let mut picture = DynamicImage::from(picture);
    let mut prints = Vec::new();
    for width in photo.widths().into_iter().rev() {
        let (width, height) = photo.scaled(width);
        // Each from the next larger one.
        if (picture.width(), picture.height()) != (width, height) {
            if picture.width() / 4 > width {
                picture = picture.thumbnail_exact(width * 2, height * 2);
            }
            picture = picture.resize_exact(width, height, FilterType::Lanczos3);
        }
        let mut jpeg = Vec::new();
        JpegEncoder::new_with_quality(&mut jpeg, QUALITY).encode_image(&picture).map_err(fault)?;
        prints.push((width, jpeg));
    }
    prints.reverse();
    Ok(prints)
}

/// On white, as on paper.
fn grounded(picture: &DynamicImage) -> RgbImage {
    let picture = picture.to_rgba8();
    RgbImage::from_fn(picture.width(), picture.height(), |x, y| {
        let [colour @ .., alpha] = picture.get_pixel(x, y).0;
        Rgb(colour.map(|channel| {
            let mixed = u32::from(channel) * u32::from(alpha) + 255 * (255 - u32::from(alpha));
            u8::try_from((mixed + 127) / 255).unwrap_or(u8::MAX)
        }))
    })
}

fn reader(bytes: &[u8]) -> Result<ImageReader<Cursor<&[u8]>>, PhotoError> {
    let unsure = |_| PhotoError::NoPicture;
    let mut reader = ImageReader::new(Cursor::new(bytes)).with_guessed_format().map_err(unsure)?;
    match reader.format() {
        Some(ImageFormat::Jpeg | ImageFormat::Png | ImageFormat::WebP) => {}
        _ => return Err(other_kind(bytes).map_or(PhotoError::NoPicture, PhotoError::OtherKind)),
    }
    let mut limits = Limits::default();
    limits.max_image_width = Some(WIDEST);
    limits.max_image_height = Some(WIDEST);
    reader.limits(limits);
    Ok(reader)
}

fn fault(error: ImageError) -> PhotoError {
    match error {
        ImageError::Limits(_) => PhotoError::TooLarge,
        ImageError::IoError(error) if error.kind() == std::io::ErrorKind::UnexpectedEof => PhotoError::CutShort,
        _ => PhotoError::Damaged,
    }
}

/// Kinds of picture that are not read, by how their files begin.
fn other_kind(bytes: &[u8]) -> Option<&'static str> {
    /// Name, offset and bytes. Sources: GIF89a; TIFF 6.0; ISO/IEC 23008-12 (HEIF); AV1 Image File Format; SVG 1.1.
    const KINDS: [(&str, usize, &[u8]); 12] = [
        ("a GIF", 0, b"GIF8"),
        ("a TIFF", 0, b"II*\0"),
        ("a TIFF", 0, b"MM\0*"),
        ("a BMP", 0, b"BM"),
        ("a HEIC picture, as some telephones make", 4, b"ftypheic"),
        ("a HEIC picture, as some telephones make", 4, b"ftypheix"),
        ("a HEIC picture, as some telephones make", 4, b"ftypmif1"),
        ("an AVIF picture", 4, b"ftypavif"),
        ("a PDF", 0, b"%PDF"),
        ("a drawing in SVG", 0, b"<svg"),
        ("a drawing in SVG", 0, b"<?xml"),
        ("a JPEG XL picture", 0, b"\xff\x0a"),
    ];
    let begins = |at: usize, with: &[u8]| bytes.get(at..).is_some_and(|rest| rest.starts_with(with));
    KINDS.iter().find(|(_, at, with)| begins(*at, with)).map(|(name, ..)| *name)
}

/// Whether the marker that ends a picture follows its last scan. Source: ITU-T T.81, B.1.1 and B.2.
fn is_whole_jpeg(bytes: &[u8]) -> bool {
    let mut at = 2;
    while let Some(next) = bytes.get(at..).and_then(|rest| rest.iter().position(|byte| *byte == 0xff)) {
        at += next;
        match bytes.get(at + 1) {
            Some(0xd9) => return true,
            // Filled up, or data, or a marker without a length.
            Some(0xff) => at += 1,
            Some(0x00 | 0x01 | 0xd0..=0xd7) => at += 2,
            Some(_) => {
                let Some(&[high, low]) = bytes.get(at + 2..at + 4) else { return false };
                at += 2 + usize::from(u16::from_be_bytes([high, low]));
            }
            None => return false,
        }
    }
    false
}
