//! Parts of the file that both the pages and the structure tree speak of.

use lopdf::{Object, StringFormat};

use super::super::tree::NodeId;

/// A stretch of marked content: its page, its number on the page, the part of the document it belongs to.
#[derive(Clone, Copy, Debug)]
pub(super) struct MarkedContent {
    pub(super) page: usize,
    pub(super) number: i64,
    pub(super) owner: NodeId,
}

/// An area of a page that opens a link: left, bottom, right, top in points from the bottom left corner.
#[derive(Clone, Copy, Debug)]
pub(super) struct LinkArea {
    pub(super) page: usize,
    pub(super) rectangle: [f32; 4],
    pub(super) link: NodeId,
    /// Marked content written before the area, to keep the order of the structure.
    pub(super) after: usize,
}

/// A text string: ASCII as it is, anything else in UTF-16 with a byte order mark.
pub(super) fn text_string(text: &str) -> Object {
    if text.is_ascii() {
        return Object::String(text.as_bytes().to_vec(), StringFormat::Literal);
    }
    let mut bytes = vec![0xfe, 0xff];
    bytes.extend(text.encode_utf16().flat_map(u16::to_be_bytes));
    Object::String(bytes, StringFormat::Hexadecimal)
}
