//! Reads card Markdown into blocks and the document's structure.

use hypher::Lang;
use pulldown_cmark::{Alignment, CodeBlockKind, Event, HeadingLevel, Options, Parser, Tag, TagEnd};

use super::bar;
use super::blocks::{Bar, BarShare, Block, CardSection, Content, ListItem, Table, TextRole};
use super::fonts::{Face, Figures};
use super::inline::{Inline, is_inline};
use super::run::{Style, TextRun};
use super::text::{Hyphens, Paragraph, prepare};
use super::tree::{NodeId, StructureType};

/// Lists and cautions nested deeper than this are set as if they were not nested.
const DEEPEST: usize = 8;

/// Reads a card. `language` gives the syllables; `None` forbids hyphens.
pub(crate) fn read(markdown: &str, language: Option<Lang>) -> Content {
    let options = Options::ENABLE_TABLES | Options::ENABLE_TASKLISTS | Options::ENABLE_STRIKETHROUGH;
    let events: Vec<Event<'_>> = Parser::new_ext(markdown, options).collect();
    let mut reader = Reader { events, at: 0, content: Content::default(), language, depth: 0, flattened: 0 };
    reader.card();
    reader.content
}

struct Reader<'a> {
    events: Vec<Event<'a>>,
    at: usize,
    content: Content,
    language: Option<Lang>,
    depth: usize,
    /// Containers that were opened beyond the deepest level and are still open.
    flattened: usize,
}

impl<'a> Reader<'a> {
    fn next(&mut self) -> Option<Event<'a>> {
        let event = self.events.get(self.at).cloned();
        self.at += 1;
        event
    }

    fn peek(&self) -> Option<&Event<'a>> {
        self.events.get(self.at)
    }

    /// The whole card: opening, then a section for each heading.
    fn card(&mut self) {
        let mut parent = NodeId::ROOT;
        while self.peek().is_some() {
            if let Some(&Event::Start(Tag::Heading { level, .. })) = self.peek() {
                if level == HeadingLevel::H1 && self.content.title.is_empty() {
                    let title = self.heading(NodeId::ROOT, StructureType::Title, TextRole::Title);
                    self.content.opening.push(title);
                    continue;
                }
                if level <= HeadingLevel::H2 {
                    parent = self.content.tree.add(NodeId::ROOT, StructureType::Section);
                    let heading = self.heading(parent, StructureType::Heading, TextRole::Heading);
                    self.content.sections.push(CardSection { heading, blocks: Vec::new() });
                    continue;
                }
            }
            if let Some(block) = self.block(parent) {
                match self.content.sections.last_mut() {
                    Some(section) => section.blocks.push(block),
                    None => self.content.opening.push(block),
                }
            }
        }
    }

    /// The next block, or `None` where the event at hand makes none.
    fn block(&mut self, parent: NodeId) -> Option<Block> {
        if self.peek().is_some_and(is_inline) {
            let owner = self.content.tree.add(parent, StructureType::Paragraph);
            return Some(self.paragraph(owner));
        }
        if let Some((what, shares)) = self.shares() {
            return self.bar(parent, &what, shares);
        }
        match self.next()? {
            Event::Start(Tag::Paragraph | Tag::CodeBlock(_) | Tag::HtmlBlock) => {
                let owner = self.content.tree.add(parent, StructureType::Paragraph);
                Some(self.paragraph(owner))
            }
            Event::Start(Tag::Heading { .. }) => {
                self.at -= 1;
                Some(self.heading(parent, StructureType::Subheading, TextRole::Subheading))
            }
            Event::Start(Tag::Table(alignments)) => Some(self.table(parent, &alignments)),
            Event::Start(Tag::List(first)) => {
                if self.depth >= DEEPEST {
                    self.flattened += 1;
                    return None;
                }
                Some(self.list(parent, first))
            }
            Event::Start(Tag::BlockQuote(_)) => {
                if self.depth >= DEEPEST {
                    self.flattened += 1;
                    return None;
                }
                let owner = self.content.tree.add(parent, StructureType::Caution);
                Some(Block::Caution(self.inner_blocks(owner)))
            }
            Event::Rule => Some(Block::Rule),
            Event::End(TagEnd::List(_) | TagEnd::BlockQuote(_)) => {
                self.flattened = self.flattened.saturating_sub(1);
                None
            }
            _ => None,
        }
    }

    /// Takes a block of shares: of what, and each with its words. `None` where there is none, or it is malformed and
    /// stays text.
    fn shares(&mut self) -> Option<(String, Vec<(u32, String)>)> {
        let Some(Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(fence)))) = self.peek() else { return None };
        let what = bar::what(fence)?.to_owned();
        let inside = self.events[self.at + 1..].iter();
        let texts: Vec<&str> =
            inside.map_while(|event| if let Event::Text(text) = event { Some(&**text) } else { None }).collect();
        let shares = bar::shares(&texts.concat())?;
        self.at += texts.len() + 2;
        Some((what, shares))
    }

    /// The bar of some shares; nothing for a whole that is not divided.
    fn bar(&mut self, parent: NodeId, what: &str, shares: Vec<(u32, String)>) -> Option<Block> {
        if shares.len() < 2 {
            return None;
        }
        let words: Vec<&str> = shares.iter().map(|(_, words)| words.as_str()).collect();
        let parted = if what.is_empty() { "" } else { ": " };
        let owner =
            self.content.tree.add_with(parent, StructureType::Figure, format!("{what}{parted}{}", words.join(", ")));
        let style = Style { face: Face::Regular, figures: Figures::Running, owner };
        let shares = shares.into_iter().map(|(part, text)| {
            let label = prepare(&[TextRun { text, style }], None, Hyphens::InNeed, &mut self.content.missing);
            BarShare { part: part as f32, label }
        });
        Some(Block::Bar(Bar { owner, shares: shares.collect() }))
    }

    /// Blocks up to the end of the container that was just opened.
    fn inner_blocks(&mut self, parent: NodeId) -> Vec<Block> {
        let mut blocks = Vec::new();
        self.depth += 1;
        while let Some(event) = self.peek() {
            let closes = matches!(event, Event::End(TagEnd::List(_) | TagEnd::BlockQuote(_) | TagEnd::Item));
            if closes && self.flattened == 0 {
                self.at += 1;
                break;
            }
            blocks.extend(self.block(parent));
        }
        self.depth -= 1;
        blocks
    }

    fn heading(&mut self, parent: NodeId, role: StructureType, text_role: TextRole) -> Block {
        self.at += 1;
        let owner = self.content.tree.add(parent, role);
        let face = if role == StructureType::Title { Face::Regular } else { Face::Semibold };
        let inline = self.inline(Style { face, figures: Figures::Running, owner });
        let words = inline.words();
        if role == StructureType::Title {
            self.content.title.clone_from(&words);
        }
        self.content.tree.set_words(owner, words);
        let text = prepare(&inline.spans, self.language, Hyphens::InNeed, &mut self.content.missing);
        Block::Text { text, role: text_role }
    }

    fn paragraph(&mut self, owner: NodeId) -> Block {
        let mut inline = self.inline(Style { face: Face::Regular, figures: Figures::Running, owner });
        let role = self.paragraph_role(&inline);
        if role != TextRole::Body {
            // Summaries are set in italics; a meta line's own emphasis only tells what it is.
            inline.spans.iter_mut().for_each(|span| span.style.face = span.style.face.emphasised());
        }
        if role == TextRole::Meta {
            inline.spans.iter_mut().for_each(|span| span.text = hold_phrases(&span.text));
        }
        let hyphens = if role == TextRole::Meta { Hyphens::InNeed } else { Hyphens::Freely };
        let text = prepare(&inline.spans, self.language, hyphens, &mut self.content.missing);
        Block::Text { text, role }
    }

    fn paragraph_role(&self, inline: &Inline) -> TextRole {
        let opening = self.content.sections.is_empty() && self.depth == 0 && !self.content.title.is_empty();
        let summarised =
            self.content.opening.iter().any(|block| matches!(block, Block::Text { role: TextRole::Summary, .. }));
        if inline.all_emphasised {
            TextRole::Meta
        } else if opening && !summarised {
            TextRole::Summary
        } else {
            TextRole::Body
        }
    }

    fn table(&mut self, parent: NodeId, alignments: &[Alignment]) -> Block {
        let owner = self.content.tree.add(parent, StructureType::Table);
        let right_aligned: Vec<bool> = alignments.iter().map(|&side| side == Alignment::Right).collect();
        let mut rows: Vec<Vec<Paragraph>> = Vec::new();
        let mut row = owner;
        loop {
            match self.next() {
                Some(Event::Start(Tag::TableHead | Tag::TableRow)) => {
                    row = self.content.tree.add(owner, StructureType::Row);
                    rows.push(Vec::new());
                }
                Some(Event::Start(Tag::TableCell)) => {
                    let head = rows.len() == 1;
                    let column = rows.last().map_or(0, Vec::len);
                    let right = right_aligned.get(column).copied().unwrap_or(false);
                    let text = self.cell(row, head, right);
                    if let Some(cells) = rows.last_mut() {
                        cells.push(text);
                    }
                }
                Some(Event::End(TagEnd::Table)) | None => break,
                Some(_) => {}
            }
        }
        Block::Table(Table { right_aligned, rows })
    }

    fn cell(&mut self, row: NodeId, head: bool, right: bool) -> Paragraph {
        let role = if head { StructureType::ColumnHead } else { StructureType::Cell };
        let owner = self.content.tree.add(row, role);
        let figures = match (head, right) {
            (true, _) => Figures::Caps,
            (false, true) => Figures::Tabular,
            (false, false) => Figures::Running,
        };
        let inline = self.inline(Style { face: Face::Regular, figures, owner });
        prepare(&inline.spans, self.language, Hyphens::InNeed, &mut self.content.missing)
    }

    fn list(&mut self, parent: NodeId, first: Option<u64>) -> Block {
        let owner = self.content.tree.add(parent, StructureType::List { numbered: first.is_some() });
        let mut number = first.unwrap_or(0);
        let mut entries = Vec::new();
        loop {
            match self.next() {
                Some(Event::Start(Tag::Item)) => {
                    let entry = self.content.tree.add(owner, StructureType::Entry);
                    let label = self.content.tree.add(entry, StructureType::Label);
                    let check = self.check_mark();
                    let sign = match (check, first) {
                        (Some(true), _) => "☑".to_owned(),
                        (Some(false), _) => "☐".to_owned(),
                        (None, Some(_)) => number.to_string(),
                        (None, None) => "•".to_owned(),
                    };
                    number = number.saturating_add(1);
                    let style = Style { face: Face::Semibold, figures: Figures::Running, owner: label };
                    let label =
                        prepare(&[TextRun { text: sign, style }], None, Hyphens::InNeed, &mut self.content.missing);
                    let body = self.content.tree.add(entry, StructureType::Body);
                    let blocks = self.inner_blocks(body);
                    entries.push(ListItem { label, check: check.is_some(), blocks });
                }
                Some(Event::End(TagEnd::List(_))) | None => break,
                Some(_) => {}
            }
        }
        Block::List(entries)
    }

    /// Takes the box of a task, which may stand within the paragraph of a loose list.
    fn check_mark(&mut self) -> Option<bool> {
        let within = usize::from(matches!(self.peek(), Some(Event::Start(Tag::Paragraph))));
        match self.events.get(self.at + within) {
            Some(&Event::TaskListMarker(done)) => {
                // A space at the start of a paragraph leaves nothing.
                self.events[self.at + within] = Event::SoftBreak;
                Some(done)
            }
            _ => None,
        }
    }

    /// Running text up to the end of the block it stands in.
    fn inline(&mut self, style: Style) -> Inline {
        let mut inline = Inline::new(style);
        while let Some(event) = self.peek() {
            if !is_inline(event) {
                let ends_here = matches!(
                    event,
                    Event::End(
                        TagEnd::Paragraph
                            | TagEnd::Heading(_)
                            | TagEnd::TableCell
                            | TagEnd::CodeBlock
                            | TagEnd::HtmlBlock
                    )
                );
                self.at += usize::from(ends_here);
                break;
            }
            let event = event.clone();
            self.at += 1;
            inline.take(event, &mut self.content.tree);
        }
        inline
    }
}

/// Longest phrase of a meta line that is kept on one line, in bytes.
const LONGEST_PHRASE: usize = 32;

/// The text of a meta line with its phrases, parted by middle dots, kept whole.
fn hold_phrases(text: &str) -> String {
    let phrases = text
        .split(" · ")
        .map(|phrase| if phrase.len() <= LONGEST_PHRASE { phrase.replace(' ', "\u{a0}") } else { phrase.to_owned() });
    phrases.collect::<Vec<_>>().join("\u{a0}· ")
}
