use std::path::PathBuf;
use std::sync::Arc;

use super::{Finding, Span};

/// A text and the name it goes by; clones share both.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    name: Arc<str>,
    text: Arc<str>,
}

/// A position for people: both from 1, the column in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Line.
    pub line: usize,
    /// Column.
    pub column: usize,
}

/// A file that cannot be had.
#[derive(Debug, thiserror::Error)]
#[error("`{path}` {fault}")]
pub struct SourceError {
    /// The file, as it was looked for.
    pub path: PathBuf,
    /// What is wrong with it.
    pub fault: SourceFault,
}

/// Why a file cannot be had.
#[derive(Debug, thiserror::Error)]
pub enum SourceFault {
    /// It cannot be opened or read.
    #[error("cannot be read: {0}")]
    Unreadable(std::io::Error),
    /// A link, or a path, to somewhere else.
    #[error("leads out of the workspace; nothing outside it is read")]
    Outside,
    /// A folder, a pipe or a device.
    #[error("is no plain file")]
    NotPlain,
    /// It is larger than a file of its kind ever is.
    #[error("has {size} bytes; at most {limit} are read")]
    TooLarge {
        /// Its size.
        size: u64,
        /// The limit.
        limit: u64,
    },
    /// It is not UTF-8.
    #[error("is not UTF-8 text: byte {offset}, on line {line}, is not part of a character")]
    NotUtf8 {
        /// Bytes before the first bad one.
        offset: usize,
        /// The line of it, from 1.
        line: usize,
        /// All that was read.
        bytes: Vec<u8>,
    },
}

impl SourceError {
    /// The error as a finding, with what there is of the text to draw it in; `name` is what people see of the file.
    pub fn drawn(self, name: &str) -> (Source, Finding) {
        let message = format!("the file {}", self.fault);
        let (text, at, help) = match self.fault {
            SourceFault::NotUtf8 { offset, bytes, .. } => {
                (String::from_utf8_lossy(&bytes).into_owned(), offset, "save the file as UTF-8")
            }
            SourceFault::TooLarge { .. } => (String::new(), 0, "a text is a few kilobytes; is this the right file?"),
            SourceFault::Unreadable(_) => (String::new(), 0, "check that the file is there and may be read"),
            SourceFault::Outside => (String::new(), 0, "put the file itself into the workspace"),
            SourceFault::NotPlain => (String::new(), 0, "put a plain file there"),
        };
        (Source::new(name, text), Finding::error("unreadable-file", at..at + 1, message).help(help))
    }
}

impl Source {
    /// The largest file that is read, 1 MiB: some four hundred times a long recipe.
    pub const LIMIT: u64 = 1 << 20;

    /// A text under a name.
    pub fn new(name: impl Into<Arc<str>>, text: impl Into<Arc<str>>) -> Self {
        Self { name: name.into(), text: text.into() }
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// All of it.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The part in a span; nothing where the span does not fit the text.
    pub fn slice(&self, span: &Span) -> &str {
        self.text.get(span.clone()).unwrap_or_default()
    }

    /// The position of a byte; past the end, the end.
    pub fn place(&self, offset: usize) -> Place {
        let mut offset = offset.min(self.text.len());
        while !self.text.is_char_boundary(offset) {
            offset -= 1;
        }
        let before = &self.text[..offset];
        let start = before.rfind('\n').map_or(0, |newline| newline + 1);
        Place { line: 1 + before.matches('\n').count(), column: 1 + before[start..].chars().count() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters() {
        let source = Source::new("a.yaml", "one\n½ cup of flour\n");
        assert_eq!(source.place(4), Place { line: 2, column: 1 });
        assert_eq!(source.place(6), Place { line: 2, column: 2 });
        assert_eq!(source.place(5), Place { line: 2, column: 1 }, "inside the fraction sign");
        assert_eq!(source.place(999), Place { line: 3, column: 1 });
    }
}
