//! The structure tree: what every stretch of marked content is (ISO 32000-1, 14.7 and 14.8; ISO 14289-1).

use lopdf::{Dictionary, Document, Object, ObjectId, dictionary};

use super::super::placed::{Owner, Pages};
use super::super::tree::{NodeId, StructureType};
use super::parts::{LinkArea, MarkedContent, text_string};

/// The standard structure type of a role.
pub(super) fn tag_name(role: StructureType) -> &'static str {
    match role {
        StructureType::Document => "Document",
        StructureType::Card => "Art",
        StructureType::Section => "Sect",
        StructureType::Title => "H1",
        StructureType::Heading => "H2",
        StructureType::Subheading => "H3",
        StructureType::Paragraph => "P",
        StructureType::List { .. } => "L",
        StructureType::Entry => "LI",
        StructureType::Label => "Lbl",
        StructureType::Body => "LBody",
        StructureType::Table => "Table",
        StructureType::Row => "TR",
        StructureType::ColumnHead => "TH",
        StructureType::Cell => "TD",
        StructureType::Caution => "BlockQuote",
        StructureType::Link => "Link",
        StructureType::Figure => "Figure",
    }
}

/// What a structure element holds.
#[derive(Clone, Copy)]
enum Kid {
    Node(NodeId),
    Content { page: usize, number: i64 },
    Annotation { page: usize, id: ObjectId },
}

struct TreeBuilder<'a> {
    pages: &'a Pages,
    ids: Vec<ObjectId>,
    kids: Vec<Vec<Kid>>,
    attached: Vec<bool>,
}

/// Adds the structure tree, the links and all that ties pages to them.
pub(super) fn add(
    file: &mut Document,
    pages: &Pages,
    page_ids: &[ObjectId],
    marked: &[MarkedContent],
    links: &[LinkArea],
) {
    let root = file.new_object_id();
    let ids: Vec<ObjectId> = pages.tree.nodes().map(|_| file.new_object_id()).collect();
    let count = ids.len();
    let mut builder = TreeBuilder { pages, ids, kids: vec![Vec::new(); count], attached: vec![false; count] };
    builder.attach_blocks();
    let mut parents: Vec<(i64, Object)> = Vec::new();
    let mut annotations: Vec<Vec<Object>> = vec![Vec::new(); page_ids.len()];
    let mut areas = links.iter().enumerate().peekable();
    for index in 0..=marked.len() {
        while let Some((number, area)) = areas.next_if(|(_, area)| area.after <= index) {
            let key = (page_ids.len() + number) as i64;
            let words = &pages.tree.node(area.link).words;
            let id = file.add_object(annotation(area, words, page_ids[area.page], key));
            annotations[area.page].push(id.into());
            builder.attach(area.link);
            builder.kids[area.link.index()].push(Kid::Annotation { page: area.page, id });
            parents.push((key, builder.ids[area.link.index()].into()));
        }
        if let Some(content) = marked.get(index) {
            builder.attach(content.owner);
            let kid = Kid::Content { page: content.page, number: content.number };
            builder.kids[content.owner.index()].push(kid);
        }
    }
    for (page, id) in page_ids.iter().enumerate() {
        let owners: Vec<Object> = marked
            .iter()
            .filter(|content| content.page == page)
            .map(|content| builder.ids[content.owner.index()].into())
            .collect();
        parents.push((page as i64, owners.into()));
        tie_page(file, *id, page, std::mem::take(&mut annotations[page]));
    }
    builder.write(file, root, page_ids);
    parents.sort_by_key(|&(key, _)| key);
    let numbers: Vec<Object> = parents.into_iter().flat_map(|(key, value)| [key.into(), value]).collect();
    let parent_tree = file.add_object(dictionary! { "Nums" => numbers });
    let tree = dictionary! {
        "Type" => "StructTreeRoot",
        "K" => builder.ids[NodeId::ROOT.index()],
        "ParentTree" => parent_tree,
        "ParentTreeNextKey" => (page_ids.len() + links.len()) as i64,
    };
    file.set_object(root, tree);
    if let Ok(catalog) = file.catalog_mut() {
        catalog.set("StructTreeRoot", root);
        catalog.set("MarkInfo", dictionary! { "Marked" => true });
    }
}

impl TreeBuilder<'_> {
    /// Hangs every part but links under its parent; links stand among the words around them.
    fn attach_blocks(&mut self) {
        for (id, node) in self.pages.tree.nodes() {
            if node.role != StructureType::Link {
                self.attached[id.index()] = true;
                if let Some(parent) = node.parent {
                    self.kids[parent.index()].push(Kid::Node(id));
                }
            }
        }
    }

    /// Hangs a part, and all above it, where the reading has come to.
    fn attach(&mut self, id: NodeId) {
        let mut at = Some(id);
        while let Some(node) = at {
            let parent = self.pages.tree.node(node).parent;
            if !self.attached[node.index()] {
                self.attached[node.index()] = true;
                if let Some(parent) = parent {
                    self.kids[parent.index()].push(Kid::Node(node));
                }
            }
            at = parent;
        }
    }

    fn write(&self, file: &mut Document, root: ObjectId, page_ids: &[ObjectId]) {
        for (id, node) in self.pages.tree.nodes() {
            if !self.attached[id.index()] {
                continue;
            }
            let parent = node.parent.map_or(root, |parent| self.ids[parent.index()]);
            let mut element = dictionary! { "S" => tag_name(node.role), "P" => parent };
            self.set_kids(&mut element, id, page_ids);
            match node.role {
                StructureType::List { numbered } => {
                    let numbering = if numbered { "Decimal" } else { "None" };
                    element.set("A", dictionary! { "O" => "List", "ListNumbering" => numbering });
                }
                StructureType::ColumnHead => {
                    element.set("A", dictionary! { "O" => "Table", "Scope" => "Column" });
                }
                StructureType::Figure => {
                    element.set("Alt", text_string(&node.words));
                    if let Some(bounds) = self.bounds(id) {
                        let bounds: Vec<Object> = bounds.into_iter().map(Object::Real).collect();
                        element.set("A", dictionary! { "O" => "Layout", "BBox" => bounds });
                    }
                }
                StructureType::Link => {
                    if let Some(figure) = self.figure_in(id) {
                        element.set("Alt", text_string(figure));
                    }
                }
                _ => {}
            }
            file.set_object(self.ids[id.index()], element);
        }
    }

    /// What stands for the picture that a link holds in place of words.
    fn figure_in(&self, link: NodeId) -> Option<&str> {
        self.kids[link.index()].iter().find_map(|kid| match *kid {
            Kid::Node(node) if self.pages.tree.node(node).role == StructureType::Figure => {
                Some(self.pages.tree.node(node).words.as_str())
            }
            _ => None,
        })
    }

    fn set_kids(&self, element: &mut Dictionary, id: NodeId, page_ids: &[ObjectId]) {
        let kids = &self.kids[id.index()];
        let home = kids.iter().find_map(|kid| match *kid {
            Kid::Content { page, .. } | Kid::Annotation { page, .. } => Some(page),
            Kid::Node(_) => None,
        });
        let mut objects: Vec<Object> = kids
            .iter()
            .map(|kid| match *kid {
                Kid::Node(node) => self.ids[node.index()].into(),
                Kid::Content { page, number } if Some(page) == home => number.into(),
                Kid::Content { page, number } => {
                    dictionary! { "Type" => "MCR", "Pg" => page_ids[page], "MCID" => number }.into()
                }
                Kid::Annotation { page, id } => {
                    dictionary! { "Type" => "OBJR", "Pg" => page_ids[page], "Obj" => id }.into()
                }
            })
            .collect();
        if let Some(page) = home {
            element.set("Pg", page_ids[page]);
        }
        match objects.len() {
            0 => {}
            1 => element.set("K", objects.remove(0)),
            _ => element.set("K", objects),
        }
    }

    /// Left, bottom, right and top of a figure, which is never cut.
    fn bounds(&self, id: NodeId) -> Option<[f32; 4]> {
        let items = self.pages.pages.iter().flat_map(|page| &page.items);
        let sides = items.filter(|placed| placed.owner == Owner::Content(id)).map(|placed| {
            let (above, below) = placed.item.extent();
            let base = self.pages.height - placed.y;
            [placed.x, base - below, placed.x + placed.item.width(), base + above]
        });
        sides.reduce(|one, other| {
            [one[0].min(other[0]), one[1].min(other[1]), one[2].max(other[2]), one[3].max(other[3])]
        })
    }
}

fn annotation(area: &LinkArea, address: &str, page: ObjectId, key: i64) -> Dictionary {
    let rectangle: Vec<Object> = area.rectangle.iter().map(|&side| Object::Real(side)).collect();
    dictionary! {
        "Type" => "Annot",
        "Subtype" => "Link",
        "Rect" => rectangle,
        "Border" => vec![0.into(), 0.into(), 0.into()],
        // Printed with the page, as PDF/A asks.
        "F" => 4,
        "P" => page,
        "StructParent" => key,
        "Contents" => text_string(address),
        "A" => dictionary! { "S" => "URI", "URI" => text_string(address) },
    }
}

fn tie_page(file: &mut Document, id: ObjectId, number: usize, annotations: Vec<Object>) {
    if let Ok(page) = file.get_dictionary_mut(id) {
        page.set("StructParents", number as i64);
        page.set("Tabs", "S");
        if annotations.is_empty() {
            page.remove(b"Annots");
        } else {
            page.set("Annots", annotations);
        }
    }
}
