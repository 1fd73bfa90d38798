//! The document's own data: title, language, dates, bookmarks, XMP.

use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};

use super::super::layout::Layout;
use super::super::placed::{Owner, Pages};
use super::super::tree::{NodeId, Role};
use super::text_string;

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
        catalog.set("ViewerPreferences", dictionary! { "DisplayDocTitle" => true });
        catalog.set("PageLayout", "SinglePage");
        catalog.set("PageMode", "UseNone");
        if let Some(outlines) = outlines {
            catalog.set("Outlines", outlines);
        }
    }
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

/// Text fit for XML, without the control characters that XML 1.0 forbids.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '\u{fffe}' | '\u{ffff}' => {}
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

/// A heading with the place it stands at.
struct Bookmark<'a> {
    words: &'a str,
    page: ObjectId,
    x: f32,
    y: f32,
}

/// Bookmarks of the components under one of the title; `None` for a card without headings.
fn outlines(file: &mut Document, pages: &Pages, page_ids: &[ObjectId]) -> Option<ObjectId> {
    let mut titles = Vec::new();
    let mut headings = Vec::new();
    let mut last: Option<NodeId> = None;
    for (page, id) in pages.pages.iter().zip(page_ids) {
        for placed in &page.items {
            let Owner::Content(owner) = placed.owner else { continue };
            let node = pages.tree.node(owner);
            if last == Some(owner) || node.words.is_empty() {
                continue;
            }
            let (x, y) = (placed.x, pages.height - placed.y + placed.item.extent().0 + 6.0);
            let bookmark = Bookmark { words: &node.words, page: *id, x, y };
            match node.role {
                Role::Title => titles.push(bookmark),
                Role::Heading => headings.push(bookmark),
                _ => continue,
            }
            last = Some(owner);
        }
    }
    if titles.is_empty() && headings.is_empty() {
        return None;
    }
    let root = file.new_object_id();
    let under = match titles.first() {
        Some(title) => {
            let entry = file.new_object_id();
            let nested = chain(file, entry, &headings);
            let mut dictionary = item(title, root);
            if let Some((first, end)) = nested {
                dictionary.set("First", first);
                dictionary.set("Last", end);
                dictionary.set("Count", headings.len() as i64);
            }
            file.set_object(entry, dictionary);
            Some((entry, entry))
        }
        None => chain(file, root, &headings),
    };
    let (first, end) = under?;
    let count = titles.len().min(1) + headings.len();
    let outlines = dictionary! { "Type" => "Outlines", "First" => first, "Last" => end, "Count" => count as i64 };
    file.set_object(root, outlines);
    Some(root)
}

/// Bookmarks on one level; returns the first and the last.
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
