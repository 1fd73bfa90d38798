use std::io::{Cursor, Write};
use std::path::Path;

use image::{DynamicImage, ImageFormat, Rgb, RgbImage, Rgba, RgbaImage};

use super::{Photo, PhotoError, Photos, decode};
use crate::source::Gate;
use crate::trace::Key;

fn photo(width: u32, height: u32) -> Photo {
    Photo { file: "tart.png".into(), key: Key::default(), width, height }
}

#[test]
fn a_photograph_is_never_enlarged() {
    assert_eq!(photo(4000, 3000).widths(), [480, 960, 1600]);
    assert_eq!(photo(1000, 500).widths(), [480, 960, 1000]);
    assert_eq!(photo(300, 200).widths(), [300]);
    assert_eq!(photo(4000, 3000).scaled(1600), (1600, 1200));
    assert_eq!(photo(1000, 500).largest(), 1000);
}

/// A picture with something in every corner.
fn drawn(width: u32, height: u32) -> DynamicImage {
    let colour = |x: u32, y: u32| Rgb([x as u8, y as u8, (x ^ y) as u8]);
    RgbImage::from_fn(width, height, colour).into()
}

fn encoded(picture: &DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, format).expect("a format that is written");
    bytes.into_inner()
}

fn folder(files: &[(&str, &[u8])]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder");
    for (name, bytes) in files {
        put(&folder.path().join(name), bytes);
    }
    folder
}

fn put(path: &Path, bytes: &[u8]) {
    std::fs::File::create(path).and_then(|mut file| file.write_all(bytes)).expect("a writable folder");
}

fn photos(folder: &Path) -> Photos {
    Photos::new(folder.into(), Gate::to(folder).expect("a folder"), Default::default())
}

#[test]
fn what_cannot_be_shown_is_told_apart() {
    let jpeg = encoded(&drawn(300, 200), ImageFormat::Jpeg);
    let png = encoded(&drawn(300, 200), ImageFormat::Png);
    let webp = encoded(&drawn(300, 200), ImageFormat::WebP);
    let mut torn = png.clone();
    torn[png.len() / 2] ^= 0x55;
    // The size of the picture stands at bytes 16 to 23 (PNG, third edition, 11.2.1), behind it the sum of the chunk.
    let mut bomb = png.clone();
    bomb[16..24].copy_from_slice(&[0, 0, 0x75, 0x30, 0, 0, 0x75, 0x30]);
    let trailing = [&jpeg[..], b"\0\0 what telephones add"].concat();
    let files: Vec<(&str, &[u8])> = vec![
        ("whole.jpg", &jpeg),
        ("trailing.jpg", &trailing),
        ("whole.png", &png),
        ("misnamed.jpg", &png),
        ("whole.webp", &webp),
        ("short.jpg", &jpeg[..jpeg.len() / 2]),
        ("short.png", &png[..png.len() / 2]),
        ("short.webp", &webp[..webp.len() / 2]),
        ("torn.png", &torn),
        ("bomb.png", &bomb),
        ("phone.jpg", b"\0\0\0\x18ftypheic\0\0\0\0"),
        ("moving.gif", b"GIF89a\x01\0\x01\0\0\0\0;"),
        ("notes.jpg", b"these are notes"),
        ("empty.jpg", b""),
    ];
    let folder = folder(&files);
    let photos = photos(folder.path());
    for name in ["whole.jpg", "trailing.jpg", "whole.png", "misnamed.jpg", "whole.webp"] {
        let photo = photos.look(name).expect(name);
        assert_eq!((photo.width, photo.height), (300, 200), "{name}");
    }
    let case = |name: &str, wanted: fn(&PhotoError) -> bool| {
        let error = photos.look(name).expect_err(name);
        assert!(wanted(&error), "{name}: {error:?}");
    };
    case("short.jpg", |error| matches!(error, PhotoError::CutShort));
    case("short.png", |error| matches!(error, PhotoError::CutShort));
    case("short.webp", |error| matches!(error, PhotoError::CutShort | PhotoError::Damaged));
    case("torn.png", |error| matches!(error, PhotoError::Damaged));
    case("bomb.png", |error| matches!(error, PhotoError::TooLarge | PhotoError::Damaged));
    case("phone.jpg", |error| matches!(error, PhotoError::OtherKind(kind) if kind.contains("HEIC")));
    case("moving.gif", |error| matches!(error, PhotoError::OtherKind("a GIF")));
    case("notes.jpg", |error| matches!(error, PhotoError::NoPicture));
    case("empty.jpg", |error| matches!(error, PhotoError::NoPicture));
    case("none.jpg", |error| matches!(error, PhotoError::Missing));
    case("../none.jpg", |error| matches!(error, PhotoError::Missing | PhotoError::Unreadable(_)));
}

#[test]
fn a_transparent_picture_stands_on_white() {
    let mut picture = RgbaImage::from_pixel(4, 1, Rgba([200, 0, 0, 0]));
    picture.put_pixel(1, 0, Rgba([200, 0, 0, 255]));
    picture.put_pixel(2, 0, Rgba([0, 0, 0, 51]));
    let bytes = encoded(&picture.into(), ImageFormat::Png);
    let grounded = decode::picture(&bytes).expect("a picture");
    let pixels: Vec<[u8; 3]> = grounded.pixels().map(|pixel| pixel.0).collect();
    assert_eq!(pixels, [[255, 255, 255], [200, 0, 0], [204, 204, 204], [255, 255, 255]]);
}

#[test]
fn prints_are_jpeg_in_every_width() {
    let bytes = encoded(&drawn(7000, 500), ImageFormat::Png);
    let folder = folder(&[("wide.png", &bytes)]);
    let photos = photos(folder.path()).printing();
    let photo = photos.look("wide.png").expect("a photograph");
    assert_eq!(photo.widths(), [480, 960, 1600]);
    for width in photo.widths() {
        let jpeg = photos.print("wide.png", width).expect("a print");
        let print = image::load_from_memory_with_format(&jpeg, ImageFormat::Jpeg).expect("a JPEG");
        assert_eq!((print.width(), print.height()), photo.scaled(width));
        assert_eq!(photos.print("wide.png", width).expect("made again"), jpeg);
    }
    assert!(matches!(photos.print("wide.png", 17), Err(PhotoError::Changed)));
}

#[test]
fn what_an_earlier_run_knew_is_not_decoded_again() {
    let bytes = encoded(&drawn(300, 200), ImageFormat::Png);
    let folder = folder(&[("tart.png", &bytes)]);
    let first = photos(folder.path());
    first.look("tart.png").expect("a photograph");
    let album = first.album();
    // Of the same length and the same time, which is taken as the same.
    let time = std::fs::metadata(folder.path().join("tart.png")).and_then(|data| data.modified()).expect("a time");
    put(&folder.path().join("tart.png"), &vec![0; bytes.len()]);
    let file = std::fs::File::options().write(true).open(folder.path().join("tart.png")).expect("a file");
    file.set_modified(time).expect("a time that can be set");
    let again = || Photos::new(folder.path().into(), Gate::anywhere(), album.clone()).look("tart.png");
    assert!(again().is_ok());
    file.set_modified(time + std::time::Duration::from_millis(20)).expect("a time that can be set");
    assert!(matches!(again(), Err(PhotoError::NoPicture)));
}
