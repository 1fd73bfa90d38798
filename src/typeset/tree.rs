//! The document's logical structure, as readers that speak the page need it (ISO 32000-1, 14.7).

/// What a part of the document is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StructureType {
    /// The whole card, or all cards on sheets.
    Document,
    /// One of several cards.
    Card,
    /// A component with its ingredients and steps.
    Section,
    /// The title.
    Title,
    /// A component's heading.
    Heading,
    /// A heading within a component.
    Subheading,
    /// A paragraph.
    Paragraph,
    /// A list; the flag tells whether it is numbered.
    List {
        /// Numbered in order, else bulleted or a check list.
        numbered: bool,
    },
    /// One entry of a list.
    Entry,
    /// The number or mark of an entry.
    Label,
    /// What an entry says.
    Body,
    /// A table.
    Table,
    /// A row of a table.
    Row,
    /// A heading cell that speaks for its column.
    ColumnHead,
    /// A cell.
    Cell,
    /// A boxed caution.
    Caution,
    /// A link.
    Link,
    /// A picture with a text in its place.
    Figure,
}

/// Number of a node in its [`Tree`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct NodeId(pub(crate) u32);

impl NodeId {
    /// The document node of every tree.
    pub(crate) const ROOT: Self = Self(0);

    pub(crate) fn index(self) -> usize {
        self.0 as usize
    }
}

/// A part of the document.
#[derive(Clone, Debug, PartialEq)]
pub struct StructureElement {
    /// What it is.
    pub role: StructureType,
    /// The part it belongs to; `None` for the document alone.
    pub parent: Option<NodeId>,
    /// A heading's words, a link's address, a figure's text in its place; else empty.
    pub words: String,
}

/// All parts, in reading order, each after its parent.
#[derive(Clone, Debug, PartialEq)]
pub struct Tree {
    nodes: Vec<StructureElement>,
}

impl Default for Tree {
    fn default() -> Self {
        Self { nodes: vec![StructureElement { role: StructureType::Document, parent: None, words: String::new() }] }
    }
}

impl Tree {
    /// Adds a part at the end of another.
    pub(crate) fn add(&mut self, parent: NodeId, role: StructureType) -> NodeId {
        self.add_with(parent, role, String::new())
    }

    /// Adds a part that carries words of its own.
    pub(crate) fn add_with(&mut self, parent: NodeId, role: StructureType, words: String) -> NodeId {
        let id = NodeId(u32::try_from(self.nodes.len()).unwrap_or(u32::MAX));
        self.nodes.push(StructureElement { role, parent: Some(parent), words });
        id
    }

    /// Adds another tree as one card; returns what its numbers are greater by.
    pub(crate) fn append(&mut self, other: Tree) -> u32 {
        let first = u32::try_from(self.nodes.len()).unwrap_or(u32::MAX);
        self.nodes.extend(other.nodes.into_iter().map(|node| match node.parent {
            Some(NodeId(parent)) => StructureElement { parent: Some(NodeId(parent + first)), ..node },
            None => StructureElement { role: StructureType::Card, parent: Some(NodeId::ROOT), ..node },
        }));
        first
    }

    /// A part by its number.
    pub fn node(&self, id: NodeId) -> &StructureElement {
        &self.nodes[id.index()]
    }

    /// All parts with their numbers, parents first.
    pub fn nodes(&self) -> impl Iterator<Item = (NodeId, &StructureElement)> {
        self.nodes.iter().enumerate().map(|(index, node)| (NodeId(index as u32), node))
    }

    /// Sets the words of a part whose text is read after it was added.
    pub(crate) fn set_words(&mut self, id: NodeId, words: String) {
        self.nodes[id.index()].words = words;
    }
}
