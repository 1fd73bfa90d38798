use super::scalar::number;
use crate::source::{Source, Span};

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::yaml::Format;
    use crate::yaml::parse::parse;

    /// Of files that may be empty and hold anything.
    static FORMAT: std::sync::LazyLock<Format> =
        std::sync::LazyLock::new(|| Format::new(&schemars::json_schema!(true), "a recipe", "start"));

    fn slice(text: &str, find: impl Fn(&Node) -> &Node) -> String {
        let source = Source::new("a.yaml", text);
        let node = parse(&source, &FORMAT).unwrap().0;
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
            let root = parse(&source, &FORMAT).unwrap().0;
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
        let rule = |text: &str| match parse(&Source::new("a.yaml", text), &FORMAT) {
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
