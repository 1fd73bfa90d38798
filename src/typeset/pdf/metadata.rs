//! The document's own data: title, language, dates, bookmarks, XMP.

use std::collections::BTreeMap;

use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};

use super::super::flip::Flip;
use super::super::layout::Layout;
use super::super::placed::{Owner, Pages};
use super::super::tree::{NodeId, StructureType};
use super::parts::text_string;
use crate::text::escaped;

/// What the file says it was made with.
const PRODUCER: &str = concat!("levelcup ", env!("CARGO_PKG_VERSION"));

/// Adds everything that readers and archives ask of the file as a whole.
pub(super) fn add(file: &mut Document, pages: &Pages, layout: &Layout, page_ids: &[ObjectId]) {
    file.version = "1.7".to_owned();
    let info = file.add_object(info(layout));
    if let Ok(Object::Reference(old)) = file.trailer.get(b"Info").cloned() {
        file.objects.remove(&old);
    }
    file.trailer.set("Info", info);
    let xmp = Stream::new(dictionary! { "Type" => "Metadata", "Subtype" => "XML" }, xmp(layout).into_bytes());
    // Archives read this part without a PDF reader, so it stays uncompressed.
    let xmp = file.add_object(xmp.with_compression(false));
    let outlines = outlines(file, pages, page_ids);
    if let Ok(catalog) = file.catalog_mut() {
        catalog.set("Metadata", xmp);
        catalog.set("Lang", text_string(&layout.language));
        catalog.set("ViewerPreferences", preferences(pages.flip));
        catalog.set("PageLayout", "SinglePage");
        catalog.set("PageMode", "UseNone");
        if let Some(outlines) = outlines {
            catalog.set("Outlines", outlines);
        }
    }
}

/// What a viewer is asked: to show the title, and to print sheets in their size and turned on the right edge.
fn preferences(flip: Option<Flip>) -> Dictionary {
    let mut preferences = dictionary! { "DisplayDocTitle" => true };
    if let Some(flip) = flip {
        preferences.set("PrintScaling", "None");
        preferences.set("Duplex", if flip == Flip::Long { "DuplexFlipLongEdge" } else { "DuplexFlipShortEdge" });
    }
    preferences
}

fn info(layout: &Layout) -> Dictionary {
    let mut info = dictionary! { "Title" => text_string(&layout.title), "Producer" => text_string(PRODUCER) };
    for (key, value) in [("Author", &layout.author), ("Subject", &layout.subject)] {
        if !value.is_empty() {
            info.set(key, text_string(value));
        }
    }
    if let Some(date) = layout.date {
        let date = date.strftime("D:%Y%m%d000000Z").to_string();
        info.set("CreationDate", text_string(&date));
        info.set("ModDate", text_string(&date));
    }
    info
}

fn xmp(layout: &Layout) -> String {
    let mut fields = format!(
        "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:title>\
         <dc:language><rdf:Bag><rdf:li>{}</rdf:li></rdf:Bag></dc:language>\
         <dc:format>application/pdf</dc:format><pdf:Producer>{PRODUCER}</pdf:Producer>\
         <pdfuaid:part>1</pdfuaid:part>",
        escaped(&layout.title),
        escaped(&layout.language),
    );
    if !layout.author.is_empty() {
        let author = escaped(&layout.author);
        fields += &format!("<dc:creator><rdf:Seq><rdf:li>{author}</rdf:li></rdf:Seq></dc:creator>");
    }
    if !layout.subject.is_empty() {
        let subject = escaped(&layout.subject);
        fields += &format!(
            "<dc:description><rdf:Alt><rdf:li xml:lang=\"x-default\">{subject}</rdf:li></rdf:Alt></dc:description>"
        );
    }
    if let Some(date) = layout.date {
        let date = date.strftime("%Y-%m-%dT00:00:00Z");
        fields += &format!("<xmp:CreateDate>{date}</xmp:CreateDate><xmp:ModifyDate>{date}</xmp:ModifyDate>");
    }
    format!(
        "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n\
         <x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n\
         <rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" \
         xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" \
         xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\">\n{fields}\n</rdf:Description>\n\
         </rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>"
    )
}

/// A heading with the place it stands at, and the headings below it.
struct Bookmark<'a> {
    words: &'a str,
    page: ObjectId,
    x: f32,
    y: f32,
    below: Vec<Bookmark<'a>>,
}

/// Bookmarks of the components under that of their card's title; `None` for cards without headings.
fn outlines(file: &mut Document, pages: &Pages, page_ids: &[ObjectId]) -> Option<ObjectId> {
    let mut found: BTreeMap<NodeId, Bookmark<'_>> = BTreeMap::new();
    for (page, id) in pages.pages.iter().zip(page_ids) {
        for placed in &page.items {
            let Owner::Content(owner) = placed.owner else { continue };
            let node = pages.tree.node(owner);
            if node.words.is_empty() || !matches!(node.role, StructureType::Title | StructureType::Heading) {
                continue;
            }
            let (x, y) = (placed.x, pages.height - placed.y + placed.item.extent().0 + 6.0);
            found.entry(owner).or_insert(Bookmark { words: &node.words, page: *id, x, y, below: Vec::new() });
        }
    }
    // In the order of reading, which on sheets is not that of the pages.
    let mut bookmarks: Vec<Bookmark<'_>> = Vec::new();
    let mut titled = false;
    for (id, bookmark) in found {
        if pages.tree.node(id).role == StructureType::Title {
            titled = true;
            bookmarks.push(bookmark);
            continue;
        }
        match bookmarks.last_mut() {
            Some(title) if titled => title.below.push(bookmark),
            _ => bookmarks.push(bookmark),
        }
    }
    let root = file.new_object_id();
    let (first, last) = chain(file, root, &bookmarks)?;
    let count = bookmarks.iter().map(|bookmark| 1 + bookmark.below.len()).sum::<usize>();
    let outlines = dictionary! { "Type" => "Outlines", "First" => first, "Last" => last, "Count" => count as i64 };
    file.set_object(root, outlines);
    Some(root)
}

/// Bookmarks on one level with all below; returns the first and the last.
fn chain(file: &mut Document, parent: ObjectId, bookmarks: &[Bookmark<'_>]) -> Option<(ObjectId, ObjectId)> {
    let ids: Vec<ObjectId> = bookmarks.iter().map(|_| file.new_object_id()).collect();
    for (index, bookmark) in bookmarks.iter().enumerate() {
        let mut dictionary = item(bookmark, parent);
        if let Some(previous) = index.checked_sub(1) {
            dictionary.set("Prev", ids[previous]);
        }
        if let Some(next) = ids.get(index + 1) {
            dictionary.set("Next", *next);
        }
        if let Some((first, last)) = chain(file, ids[index], &bookmark.below) {
            dictionary.set("First", first);
            dictionary.set("Last", last);
            dictionary.set("Count", bookmark.below.len() as i64);
        }
        file.set_object(ids[index], dictionary);
    }
    Some((*ids.first()?, *ids.last()?))
}

fn item(bookmark: &Bookmark<'_>, parent: ObjectId) -> Dictionary {
    let place: Vec<Object> = vec![
        bookmark.page.into(),
        "XYZ".into(),
        Object::Real(bookmark.x.round()),
        Object::Real(bookmark.y.round()),
        Object::Null,
    ];
    dictionary! { "Title" => text_string(bookmark.words), "Parent" => parent, "Dest" => place }
}
