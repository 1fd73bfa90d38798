use saphyr_parser::{Event, Marker, Parser, ScalarStyle, StrInput};

use super::format::Format;
use super::node::{Entry, Node, Value};
use super::slip::slip;
use crate::source::{Finding, Source, Span};

/// The deepest nesting that is read; a recipe, the deepest of the files, needs six.
const DEEPEST: usize = 24;

/// Keys in one mapping, at most; a recipe needs a dozen, a site's levels some fifty.
const MOST_KEYS: usize = 100;

/// Reads a source as one YAML document without aliases; of a key that is given twice the first is kept, and a
/// finding tells of the other.
///
/// # Errors
/// A finding: YAML that cannot be read, nesting above 24 levels, tags, aliases, several documents.
pub(super) fn parse(source: &Source, format: &Format) -> Result<(Node, Vec<Finding>), Box<Finding>> {
    let mut builder = NodeBuilder::new(source.text(), format);
    if let Some(nothing) = builder.stream_start()? {
        return Ok((nothing, Vec::new()));
    }
    let node = builder.node(0)?;
    builder.end()?;
    let node = if node.is_nothing(source) { format.nothing(node.span)? } else { node };
    Ok((node, builder.repeated))
}

type Read<T> = Result<T, Box<Finding>>;

/// Turns parser events into nodes.
struct NodeBuilder<'t> {
    parser: Parser<'t, StrInput<'t>>,
    text: &'t str,
    format: &'t Format,
    /// Byte of each character; empty where the text is ASCII and they are the same.
    bytes: Vec<usize>,
    /// Keys that were given before.
    repeated: Vec<Finding>,
}

impl<'t> NodeBuilder<'t> {
    fn new(text: &'t str, format: &'t Format) -> Self {
        let bytes = if text.is_ascii() {
            Vec::new()
        } else {
            text.char_indices().map(|(byte, _)| byte).chain([text.len()]).collect()
        };
        Self { parser: Parser::new_from_str(text), text, format, bytes, repeated: Vec::new() }
    }

    fn byte(&self, marker: &Marker) -> usize {
        let index = marker.index();
        if self.bytes.is_empty() {
            index.min(self.text.len())
        } else {
            *self.bytes.get(index).unwrap_or(&self.text.len())
        }
    }

    fn next(&mut self) -> Read<(Event<'t>, Span)> {
        match self.parser.next_event() {
            Some(Ok((event, span))) => {
                let span = self.byte(&span.start)..self.byte(&span.end);
                Ok((event, span))
            }
            Some(Err(error)) => {
                let at = self.byte(error.marker());
                if let Some(slip) = slip(self.text, at, &|name| self.format.is_key(name)) {
                    return Err(Box::new(slip));
                }
                let message = format!("this is not YAML: {}", error.info());
                let help = "check the indent, the quotes and any `: ` or ` #` inside a text; quoting the text helps";
                Err(Box::new(Finding::error("yaml-syntax", at..at + 1, message).help(help)))
            }
            None => Ok((Event::StreamEnd, self.text.len()..self.text.len())),
        }
    }

    /// Goes to where the document starts; to what stands in for it where there is none.
    fn stream_start(&mut self) -> Read<Option<Node>> {
        loop {
            match self.next()? {
                (Event::DocumentStart(_), _) => return Ok(None),
                (Event::StreamEnd, span) => return self.format.nothing(span).map(Some),
                _ => {}
            }
        }
    }

    fn end(&mut self) -> Read<()> {
        loop {
            match self.next()? {
                (Event::StreamEnd, _) => return Ok(()),
                (Event::DocumentStart(_), span) => {
                    let finding = Finding::error("yaml-syntax", span, "a second document starts here");
                    return Err(Box::new(finding.help("give it its own file, or take the line of `---` out")));
                }
                _ => {}
            }
        }
    }

    fn node(&mut self, depth: usize) -> Read<Node> {
        let (event, span) = self.next()?;
        self.node_from(event, span, depth)
    }

    fn node_from(&mut self, event: Event<'t>, span: Span, depth: usize) -> Read<Node> {
        if depth > DEEPEST {
            let message = format!("more than {DEEPEST} levels inside each other");
            let help = format!("{} needs six at most", self.format.name());
            return Err(Box::new(Finding::error("nested-too-deep", span, message).help(help)));
        }
        match event {
            Event::Scalar(.., Some(_)) | Event::SequenceStart(_, Some(_)) | Event::MappingStart(_, Some(_)) => {
                let start = self.text[..span.start].rfind('!').unwrap_or(span.start);
                let start = self.text[..=start].rfind([' ', '\n', '[', ',']).map_or(0, |before| before + 1);
                let message = format!("tags are not read in {}", self.format.name());
                let finding = Finding::error("yaml-tag", start..span.end.max(start + 1), message);
                Err(Box::new(finding.help("leave the `!` word out, or quote the text")))
            }
            Event::Scalar(text, style, ..) => Ok(self.scalar(text.into_owned(), style, span)),
            Event::SequenceStart(..) => self.list(span, depth),
            Event::MappingStart(..) => self.mapping(span, depth),
            Event::Alias(_) => {
                let message = format!("aliases are not read in {}", self.format.name());
                let finding = Finding::error("yaml-alias", span, message);
                Err(Box::new(finding.help("write the value out here")))
            }
            _ => Err(Box::new(Finding::error("yaml-syntax", span, "a value is missing here"))),
        }
    }

    /// Trailing white space and line ends do not belong to a plain scalar.
    fn scalar(&self, text: String, style: ScalarStyle, span: Span) -> Node {
        let mut span = span;
        if style == ScalarStyle::Plain {
            let written = self.text.get(span.clone()).unwrap_or_default();
            span.end = span.start + written.trim_end().len();
        }
        Node { span, value: Value::Scalar(text) }
    }

    fn list(&mut self, start: Span, depth: usize) -> Read<Node> {
        let mut items = Vec::new();
        loop {
            match self.next()? {
                (Event::SequenceEnd, end) => {
                    let end = items.last().map_or(end.end, |last: &Node| last.span.end.max(end.start.min(end.end)));
                    return Ok(Node { span: start.start..end.max(start.end), value: Value::List(items) });
                }
                (event, span) => items.push(self.node_from(event, span, depth + 1)?),
            }
        }
    }

    fn mapping(&mut self, start: Span, depth: usize) -> Read<Node> {
        let mut entries: Vec<Entry> = Vec::new();
        let mut given = 0;
        loop {
            match self.next()? {
                (Event::MappingEnd, end) => {
                    let end = entries.last().map_or(end.end, |last| last.value.span.end);
                    return Ok(Node { span: start.start..end.max(start.end), value: Value::Mapping(entries) });
                }
                (Event::Scalar(key, ..), span) => {
                    given += 1;
                    if given > MOST_KEYS {
                        let message = format!("more than {MOST_KEYS} keys stand in one mapping");
                        let help = format!("{} has fewer; is this the right file?", self.format.name());
                        return Err(Box::new(Finding::error("too-much", span, message).help(help)));
                    }
                    let value = self.node(depth + 1)?;
                    match entries.iter().find(|entry| entry.key == key) {
                        Some(first) => self.repeated(&key, span, first.span.clone()),
                        None => entries.push(Entry { key: key.into_owned(), span, value }),
                    }
                }
                (_, span) => {
                    return Err(Box::new(Finding::error("yaml-syntax", span, "a key must be plain text")));
                }
            }
        }
    }
}

impl NodeBuilder<'_> {
    fn repeated(&mut self, key: &str, span: Span, first: Span) {
        if self.repeated.len() < MOST_KEYS {
            let finding = Finding::error("repeated-key", span, format!("`{key}` is given twice"));
            self.repeated.push(finding.other(first, "first given here").help("keep one of them"));
        }
    }
}
