use saphyr_parser::{Event, Marker, Parser, ScalarStyle, StrInput};

use super::Format;
use super::check::number;
use super::slip::slip;
use crate::source::{Finding, Source, Span};

/// The deepest nesting that is read; a recipe, the deepest of the files, needs six.
const DEEPEST: usize = 24;

/// Keys in one mapping, at most; a recipe needs a dozen, a site's levels some fifty.
const MOST_KEYS: usize = 100;

/// A YAML value and where it stands: the one source map, from which every place in a finding comes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    /// From its first byte to one past its last.
    pub span: Span,
    /// What it holds.
    pub value: Value,
}

/// What a node holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// Text as YAML reads it, quotes and escapes resolved.
    Scalar(String),
    /// Items in order.
    List(Vec<Node>),
    /// Keys in order.
    Mapping(Vec<Entry>),
}

/// A key and its value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The key's text.
    pub key: String,
    /// The key's place.
    pub span: Span,
    /// The value.
    pub value: Node,
}

impl Node {
    /// Reads a source as one YAML document without aliases; of a key that is given twice the first is kept, and a
    /// finding tells of the other.
    ///
    /// # Errors
    /// A finding: YAML that cannot be read, nesting above 24 levels, tags, aliases, several documents.
    pub(super) fn read(source: &Source, format: &Format) -> Result<(Self, Vec<Finding>), Box<Finding>> {
        let mut builder = NodeBuilder::new(source.text(), format);
        if let Some(nothing) = builder.stream_start()? {
            return Ok((nothing, Vec::new()));
        }
        let node = builder.node(0)?;
        builder.end()?;
        let node = if node.is_nothing(source) { format.nothing(node.span)? } else { node };
        Ok((node, builder.repeated))
    }

    /// A text without quotes, which may be more than a text.
    pub(super) fn plain(&self, source: &Source) -> Option<&str> {
        match &self.value {
            Value::Scalar(text) => Some(text.as_str()).filter(|text| *text == source.slice(&self.span)),
            _ => None,
        }
    }

    /// Whether nothing stands here, or a word for it.
    pub fn is_nothing(&self, source: &Source) -> bool {
        let Value::Scalar(text) = &self.value else { return false };
        matches!(text.as_str(), "" | "~" | "null" | "Null" | "NULL") && self.plain(source).is_some()
    }

    /// The text that stands here; none where it is a list, keys with values or nothing.
    pub fn text(&self, source: &Source) -> Option<&str> {
        match &self.value {
            Value::Scalar(text) if !self.is_nothing(source) => Some(text),
            _ => None,
        }
    }

    /// The number that stands here.
    pub fn number(&self, source: &Source) -> Option<f64> {
        number(self.plain(source)?)
    }

    /// The items of a list, in order; none for other nodes.
    pub fn items(&self) -> &[Node] {
        match &self.value {
            Value::List(items) => items,
            _ => &[],
        }
    }

    /// The value of a key; the node itself where there is none, so that a finding still has a place.
    pub fn key(&self, key: &str) -> &Node {
        self.get(key).unwrap_or(self)
    }

    /// The value of a key.
    pub fn get(&self, key: &str) -> Option<&Node> {
        self.entries().iter().find(|entry| entry.key == key).map(|entry| &entry.value)
    }

    /// An item of a list; the node itself where there is none.
    pub fn item(&self, index: usize) -> &Node {
        match &self.value {
            Value::List(items) => items.get(index).unwrap_or(self),
            _ => self,
        }
    }

    /// The keys of a mapping, in order; none for other nodes.
    pub fn entries(&self) -> &[Entry] {
        match &self.value {
            Value::Mapping(entries) => entries,
            _ => &[],
        }
    }

    /// The place of a part of a scalar's text; the whole node where it cannot be told.
    pub fn part(&self, source: &Source, part: Span) -> Span {
        let Value::Scalar(text) = &self.value else { return self.span.clone() };
        let quote = usize::from(matches!(source.slice(&self.span).as_bytes().first(), Some(b'"' | b'\'')));
        let start = self.span.start + quote;
        if source.text().get(start..start + text.len()) == Some(text) && part.end <= text.len() {
            return start + part.start..start + part.end;
        }
        self.same_occurrence(source, text, part).unwrap_or_else(|| self.span.clone())
    }

    /// Where folding or escapes moved the text about: the same occurrence of the same words in what is written.
    fn same_occurrence(&self, source: &Source, text: &str, part: Span) -> Option<Span> {
        let wanted = text.get(part.clone()).filter(|wanted| !wanted.trim().is_empty())?;
        let earlier = text.get(..part.start)?.matches(wanted).count();
        let written = source.slice(&self.span);
        let found = written.match_indices(wanted);
        if found.clone().count() != text.matches(wanted).count() {
            return None;
        }
        let (at, _) = found.clone().nth(earlier)?;
        Some(self.span.start + at..self.span.start + at + wanted.len())
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Of files that may be empty and hold anything.
    static FORMAT: std::sync::LazyLock<Format> =
        std::sync::LazyLock::new(|| Format::new(&schemars::json_schema!(true), "a recipe", "start"));

    fn slice(text: &str, find: impl Fn(&Node) -> &Node) -> String {
        let source = Source::new("a.yaml", text);
        let node = Node::read(&source, &FORMAT).unwrap().0;
        source.slice(&find(&node).span).to_string()
    }

    #[test]
    fn every_value_knows_its_place() {
        let text = "título: ½ tart\nlist:\n  - one thing\n  - {do: \"x\", time: 3}\nend: 'q'\n";
        assert_eq!(slice(text, |n| n.key("título")), "½ tart");
        assert_eq!(slice(text, |n| n.key("list").item(0)), "one thing");
        assert_eq!(slice(text, |n| n.key("list").item(1).key("do")), "\"x\"");
        assert_eq!(slice(text, |n| n.key("list").item(1).key("time")), "3");
        assert_eq!(slice(text, |n| n.key("end")), "'q'");
    }

    #[test]
    fn parts_are_found_in_folded_and_escaped_text() {
        let case = |written: &str, wanted: &str, nth: usize, before: &str| {
            let source = Source::new("a.yaml", format!("a: {written}\n"));
            let root = Node::read(&source, &FORMAT).unwrap().0;
            let node = root.key("a");
            let Value::Scalar(text) = &node.value else { panic!("{written}") };
            let (at, _) = text.match_indices(wanted).nth(nth).unwrap();
            let span = node.part(&source, at..at + wanted.len());
            assert!(source.text()[..span.start].ends_with(before), "{written}: {span:?}");
            assert_eq!(source.slice(&span), wanted);
        };
        case(">\n  Bake at\n  180 °C then\n  at 180 °C", "180 °C", 1, "  at ");
        case("\"say \\\"hot\\\", 121 °C\"", "121 °C", 0, "\\\", ");
    }

    #[test]
    fn hostile_yaml_is_a_finding() {
        let rule = |text: &str| match Node::read(&Source::new("a.yaml", text), &FORMAT) {
            Ok((_, findings)) => findings[0].rule,
            Err(finding) => finding.rule,
        };
        assert_eq!(rule("a: &x [1]\nb: *x\n"), "yaml-alias");
        assert_eq!(rule("a: !include /etc/passwd\n"), "yaml-tag");
        assert_eq!(rule("a: !x\n  b: 1\n"), "yaml-tag");
        assert_eq!(rule("é: [!!str x]\n"), "yaml-tag");
        assert_eq!(rule("a: !"), "yaml-tag");
        assert_eq!(rule(&format!("{}{}", "[".repeat(99), "]".repeat(99))), "nested-too-deep");
        assert_eq!(rule("a: 1\na: 2\n"), "repeated-key");
        assert_eq!(rule("a: \"open\n"), "yaml-syntax");
        assert_eq!(rule("a: 1\n---\nb: 2\n"), "yaml-syntax");
        assert_eq!(rule("{[1]: 2}"), "yaml-syntax");
    }
}
