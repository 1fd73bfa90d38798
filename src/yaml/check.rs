use std::collections::BTreeMap;

use super::format::Format;
use super::nearest::nearest;
use super::node::{Entry, Node, Value};
use super::scalar::{number, truth};
use super::shape::{Mapping, Shape};
use crate::source::{Finding, Source, Span};

/// What is wrong with the form of a file.
#[derive(Debug)]
pub(super) struct Faults {
    /// All of it.
    pub(super) findings: Vec<Finding>,
    /// The keys that are not there.
    pub(super) missing: MissingKeys,
    /// Whether every list and text is of a size that is worked on, and every value of the kind that its place has.
    pub(super) fits: bool,
}

/// Keys that mappings lack, by the mapping's place.
pub(super) type MissingKeys = BTreeMap<(usize, usize), Vec<Lacking>>;

/// A key that a mapping lacks.
#[derive(Debug)]
pub(super) struct Lacking {
    pub(super) key: String,
    /// Whether a list belongs there, and not a text.
    pub(super) list: bool,
}

/// Checks every key and value of a file against its format.
pub(super) fn check(root: &Node, source: &Source, format: &Format) -> Faults {
    let faults = Faults { findings: Vec::new(), missing: MissingKeys::new(), fits: true };
    let mut checking = Checking { source, format, faults };
    checking.walk(root, format.shape(), ValuePlace::File);
    checking.faults
}

/// Where a value stands.
#[derive(Clone, Copy)]
enum ValuePlace<'a> {
    File,
    /// In the list that is the whole file.
    Entry,
    /// Under a key, or in a list under it; with what the key is for.
    Key(&'a Entry, &'a str),
}

impl ValuePlace<'_> {
    fn name(self) -> String {
        match self {
            ValuePlace::File => "the file".into(),
            ValuePlace::Entry => "an entry of the file".into(),
            ValuePlace::Key(entry, _) => format!("`{}`", entry.key),
        }
    }
}

struct Checking<'a> {
    source: &'a Source,
    format: &'a Format,
    faults: Faults,
}

impl<'a> Checking<'a> {
    fn walk(&mut self, node: &'a Node, shape: &'a Shape, place: ValuePlace<'a>) {
        if let Some(found) = self.above_bounds(node, shape) {
            return self.unfit(found);
        }
        match (&node.value, &shape.list, &shape.mapping) {
            (Value::Scalar(text), ..) => {
                if !self.accepts(node, text, shape) {
                    let found = self.wrong(node, text, shape, place);
                    self.unfit(found);
                }
            }
            (Value::List(items), Some(list), _) => {
                let place = if matches!(place, ValuePlace::File) { ValuePlace::Entry } else { place };
                items.iter().for_each(|item| self.walk(item, &list.item, place));
            }
            (Value::Mapping(entries), _, Some(mapping)) => self.mapping(node, entries, mapping),
            _ => {
                let found = self.wrong_kind(node, shape, place);
                self.unfit(found);
            }
        }
    }

    fn unfit(&mut self, finding: Finding) {
        self.faults.findings.push(finding);
        self.faults.fits = false;
    }

    fn accepts(&self, node: &Node, text: &str, shape: &Shape) -> bool {
        if node.is_nothing(self.source) {
            return shape.nothing;
        }
        let plain = || node.plain(self.source);
        shape.text
            || shape.choices.iter().any(|choice| choice == text)
            || (shape.whole && plain().is_some_and(|text| text.parse::<u32>().is_ok()))
            || (shape.number && plain().is_some_and(|text| number(text).is_some()))
            || (shape.truth && plain().is_some_and(|text| truth(text).is_some()))
    }

    /// What a file never has so much of; work on it could take minutes.
    fn above_bounds(&self, node: &Node, shape: &Shape) -> Option<Finding> {
        let start = node.span.start;
        match &node.value {
            Value::List(items) => {
                let most = shape.list.as_ref()?.most.filter(|most| items.len() > *most)?;
                let message = format!("{} entries stand in this list; at most {most} are read", items.len());
                let found = Finding::error("too-much", items[most].span.clone(), message);
                let help = format!("{} has fewer; are these several files?", self.format.name());
                Some(found.other(start..start + 1, "the list begins here").help(help))
            }
            Value::Scalar(text) => {
                let most =
                    shape.longest.filter(|most| text.len() > *most && text.char_indices().nth(*most).is_some())?;
                let message = format!("this text has more than {most} characters, which is all that is read");
                Some(Finding::error("too-much", node.span.clone(), message).help("shorten it"))
            }
            Value::Mapping(_) => None,
        }
    }

    /// A value without keys of its own that does not belong to its place.
    fn wrong(&self, node: &Node, text: &str, shape: &Shape, place: ValuePlace<'_>) -> Finding {
        let only_choices = !(shape.text || shape.whole || shape.number || shape.truth)
            && shape.list.is_none()
            && shape.mapping.is_none();
        if only_choices && !shape.choices.is_empty() && !node.is_nothing(self.source) {
            let choices: Vec<&str> = shape.choices.iter().map(String::as_str).collect();
            return unknown_choice(text, node.span.clone(), &place.name(), &choices);
        }
        self.wrong_kind(node, shape, place)
    }

    fn wrong_kind(&self, node: &Node, shape: &Shape, place: ValuePlace<'_>) -> Finding {
        let (name, nothing) = (place.name(), node.is_nothing(self.source));
        let held = match &node.value {
            _ if nothing => "nothing".into(),
            Value::Scalar(_) => format!("`{}`", beginning(self.source.slice(&node.span))),
            Value::List(_) => "a list".into(),
            Value::Mapping(_) => "keys with values".into(),
        };
        let message = format!("{name} holds {held}, and needs {}", shape.wanted());
        let quoted = matches!(node.value, Value::Scalar(_)) && node.plain(self.source).is_none();
        let (span, help) = match place {
            ValuePlace::Key(key, _) if nothing && self.is_comment(key) => {
                (key.span.clone(), "a `#` with a space before it starts a comment: put the value in quotes".into())
            }
            ValuePlace::Key(key, about) if nothing => {
                (key.span.clone(), format!("write something behind it, or leave the line out ({about})"))
            }
            ValuePlace::Key(..) if quoted && (shape.whole || shape.number || shape.truth) => {
                (node.span.clone(), "write it without quotes".into())
            }
            ValuePlace::Key(_, about) if !about.is_empty() => (node.span.clone(), format!("{name}: {about}")),
            _ => (node.span.clone(), self.format.start().into()),
        };
        Finding::error("wrong-kind", span, message).help(help)
    }

    /// Whether what was meant to be the value became a comment: `accent: #1f3a4d`.
    fn is_comment(&self, key: &Entry) -> bool {
        let behind = self.source.text().get(key.span.end..).unwrap_or_default();
        let line = behind.lines().next().unwrap_or_default();
        line.split_once('#').is_some_and(|(before, after)| {
            before.trim_matches(['"', '\'', ':', ' ', '\t']).is_empty()
                && after.starts_with(|c: char| !c.is_whitespace())
        })
    }

    fn mapping(&mut self, node: &'a Node, entries: &'a [Entry], mapping: &'a Mapping) {
        for entry in entries {
            match (mapping.key(&entry.key), &mapping.others) {
                (Some(key), _) => self.walk(&entry.value, &key.shape, ValuePlace::Key(entry, &key.about)),
                (None, Some(others)) => self.walk(&entry.value, others, ValuePlace::Key(entry, "")),
                (None, None) => {
                    let known: Vec<&str> = mapping.keys.iter().map(|key| key.name.as_str()).collect();
                    self.faults.findings.push(unknown_key(&entry.key, entry.span.clone(), &known));
                }
            }
        }
        for key in mapping.keys.iter().filter(|key| key.required && node.get(&key.name).is_none()) {
            let (start, name) = (node.span.start, &key.name);
            let finding = Finding::error("missing-key", start..start + 1, format!("`{name}` is missing here"));
            let about = if key.about.is_empty() { "it is needed" } else { &key.about };
            self.faults.findings.push(finding.help(format!("add `{name}:` ({about})")));
            let lacking = Lacking { key: name.clone(), list: key.shape.list.is_some() && !key.shape.text };
            self.faults.missing.entry((node.span.start, node.span.end)).or_default().push(lacking);
        }
    }
}

/// Choices are listed beside the nearest of them where they are no more than this.
const MOST_LISTED: usize = 20;

/// A word where one of several others belongs; `of` is what they are of.
pub fn unknown_choice(word: &str, span: Span, of: &str, choices: &[&str]) -> Finding {
    let all = match choices {
        [first @ .., last] if !first.is_empty() => format!("there are {} and {last}", first.join(", ")),
        _ => format!("there is {}", choices.concat()),
    };
    let help = match nearest(word, choices.iter().copied()) {
        Some(near) if choices.len() > MOST_LISTED => format!("did you mean `{near}`?"),
        Some(near) => format!("did you mean `{near}`? {all}"),
        None => all,
    };
    let message = format!("`{}` is not one of the values of {of}", beginning(word));
    Finding::error("unknown-choice", span, message).help(help)
}

/// As much of a text as a message has room for.
pub fn beginning(text: &str) -> String {
    let line = text.lines().next().unwrap_or_default();
    match line.char_indices().nth(60) {
        Some((end, _)) => format!("{}…", &line[..end]),
        None => line.into(),
    }
}

fn unknown_key(key: &str, span: Span, known: &[&str]) -> Finding {
    let help = match nearest(key, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        _ if key.contains(' ') => "put the text in quotes: inside `{ }` a comma starts a new key".into(),
        _ => format!("known here: {}", known.join(", ")),
    };
    Finding::error("unknown-key", span, format!("`{key}` is not a key of this place")).help(help)
}
