//! Running text: emphasis, strong text, links.

use pulldown_cmark::{Event, Tag, TagEnd};

use super::run::{Style, TextRun};
use super::tree::{StructureType, Tree};
use crate::text::web_address;

/// Running text as it is read.
pub(crate) struct Inline {
    pub(crate) spans: Vec<TextRun>,
    /// Whether all text stands within emphasis, and there is some.
    pub(crate) all_emphasised: bool,
    /// Styles of the text around the text at hand, innermost last.
    styles: Vec<Style>,
    emphasis: usize,
}

/// Whether an event is part of running text.
pub(crate) fn is_inline(event: &Event<'_>) -> bool {
    match event {
        Event::Text(_)
        | Event::Code(_)
        | Event::Html(_)
        | Event::InlineHtml(_)
        | Event::SoftBreak
        | Event::HardBreak
        | Event::TaskListMarker(_) => true,
        Event::Start(tag) => {
            matches!(tag, Tag::Emphasis | Tag::Strong | Tag::Strikethrough | Tag::Link { .. } | Tag::Image { .. })
        }
        Event::End(tag) => {
            matches!(tag, TagEnd::Emphasis | TagEnd::Strong | TagEnd::Strikethrough | TagEnd::Link | TagEnd::Image)
        }
        _ => false,
    }
}

impl Inline {
    pub(crate) fn new(style: Style) -> Self {
        Self { spans: Vec::new(), all_emphasised: false, styles: vec![style], emphasis: 0 }
    }

    /// Takes the next event of running text; links are added to the structure.
    pub(crate) fn take(&mut self, event: Event<'_>, tree: &mut Tree) {
        match event {
            Event::Text(text) | Event::Code(text) | Event::Html(text) | Event::InlineHtml(text) => self.push(&text),
            Event::SoftBreak => self.push(" "),
            Event::HardBreak => self.push("\n"),
            Event::Start(Tag::Emphasis) => {
                self.emphasis += 1;
                self.enter(|style| style.face = style.face.emphasised());
            }
            Event::Start(Tag::Strong) => self.enter(|style| style.face = style.face.strong()),
            Event::Start(Tag::Link { dest_url, .. }) => {
                self.enter(|style| {
                    if let Some(address) = web_address(&dest_url) {
                        style.owner = tree.add_with(style.owner, StructureType::Link, address);
                    }
                });
            }
            Event::Start(_) => self.enter(|_| {}),
            Event::End(tag) => {
                if tag == TagEnd::Emphasis {
                    self.emphasis = self.emphasis.saturating_sub(1);
                }
                if self.styles.len() > 1 {
                    self.styles.pop();
                }
            }
            _ => {}
        }
    }

    /// The words alone.
    pub(crate) fn words(&self) -> String {
        let text: String = self.spans.iter().map(|span| span.text.as_str()).collect();
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    fn enter(&mut self, change: impl FnOnce(&mut Style)) {
        if let Some(mut style) = self.styles.last().copied() {
            change(&mut style);
            self.styles.push(style);
        }
    }

    fn push(&mut self, text: &str) {
        if !text.trim().is_empty() {
            let first = self.spans.iter().all(|span| span.text.trim().is_empty());
            self.all_emphasised = self.emphasis > 0 && (first || self.all_emphasised);
        }
        if let Some(&style) = self.styles.last() {
            self.spans.push(TextRun { text: text.to_owned(), style });
        }
    }
}
