//! Writes laid-out pages as a tagged PDF. Nothing here decides where anything stands.
//!
//! `content` walks the items, `faces` embeds what they use, `structure` adds the tags, `metadata` the rest.

mod content;
mod faces;
mod metadata;
mod parts;
mod structure;

use std::hash::{Hash, Hasher};
use std::io::Write;

use flate2::Compression;
use flate2::write::ZlibEncoder;
use lopdf::{Object, SaveOptions, StringFormat};
use printpdf::{PdfDocument, PdfPage, PdfSaveOptions, Pt};

use super::TypesetError;
use super::layout::Layout;
use super::placed::Pages;
use content::Emitter;
use faces::Faces;

/// Compression level of streams, 0 to 9: higher ones take a third more time and save a hundredth of the file.
const LEVEL: u32 = 4;

/// The PDF file of a card.
pub(crate) fn write(pages: &Pages, layout: &Layout) -> Result<Vec<u8>, TypesetError> {
    let faces = Faces::of(pages)?;
    let mut emitter = Emitter::new(pages, &faces);
    let mut document = PdfDocument::new(&layout.title);
    for index in 0..pages.pages.len() {
        let ops = emitter.page(index);
        document.pages.push(PdfPage::new(Pt(pages.width).into(), Pt(pages.height).into(), ops));
    }
    let Emitter { marked, links, said, .. } = emitter;
    // Operators that the library does not know are ours.
    let options = PdfSaveOptions { secure: false, ..PdfSaveOptions::default() };
    let mut file = document.to_lopdf_document(&options, &mut Vec::new());
    let page_ids: Vec<_> = file.get_pages().into_values().collect();
    faces.embed(&mut file, &page_ids, |face, glyph| said.get(&(face, glyph)).map(|text| &**text));
    structure::add(&mut file, pages, &page_ids, &marked, &links);
    metadata::add(&mut file, pages, layout, &page_ids);
    identify(&mut file, pages, layout);
    compress(&mut file).map_err(|error| TypesetError::Write(error.into()))?;
    let mut bytes = Vec::new();
    let options = SaveOptions::builder()
        .use_object_streams(true)
        .use_xref_streams(true)
        .max_objects_per_stream(1000)
        .compression_level(LEVEL)
        .build();
    file.save_with_options(&mut bytes, options).map_err(|error| TypesetError::Write(error.into()))?;
    Ok(bytes)
}

/// Sets the file's identity from what it says, so that the same card is the same file.
fn identify(file: &mut lopdf::Document, pages: &Pages, layout: &Layout) {
    let mut halves = [1_u64, 2].map(|seed| {
        let mut hasher = rustc_hash::FxHasher::default();
        seed.hash(&mut hasher);
        hasher
    });
    for hasher in &mut halves {
        (&layout.title, &layout.author, &layout.subject, &layout.link).hash(hasher);
        for (_, node) in pages.tree.nodes() {
            node.words.hash(hasher);
        }
        for placed in pages.pages.iter().flat_map(|page| &page.items) {
            (placed.x.to_bits(), placed.y.to_bits()).hash(hasher);
            if let super::Item::Text(run) = &placed.item {
                run.text.hash(hasher);
            }
        }
    }
    let id: Vec<u8> = halves.iter().flat_map(|hasher| hasher.finish().to_be_bytes()).collect();
    let id = Object::String(id, StringFormat::Hexadecimal);
    file.trailer.set("ID", Object::Array(vec![id.clone(), id]));
}

/// Compresses all streams that may be.
fn compress(file: &mut lopdf::Document) -> std::io::Result<()> {
    // One for all of them: making it costs more than most streams take.
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::new(LEVEL));
    for object in file.objects.values_mut() {
        let Object::Stream(stream) = object else { continue };
        if stream.allows_compression && !stream.dict.has(b"Filter") {
            encoder.write_all(&stream.content)?;
            stream.set_content(encoder.reset(Vec::new())?);
            stream.dict.set("Filter", "FlateDecode");
        }
    }
    Ok(())
}
