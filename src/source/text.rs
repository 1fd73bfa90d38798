use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Bytes of a source, from the first to one past the last.
pub type Span = std::ops::Range<usize>;

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

/// A file that cannot be had as text.
#[derive(Debug, thiserror::Error)]
pub enum SourceError {
    /// The file cannot be opened or read.
    #[error("cannot read `{path}`: {cause}")]
    Unreadable {
        /// The file.
        path: PathBuf,
        /// What the system said.
        cause: std::io::Error,
    },
    /// The file is larger than a text of its kind ever is.
    #[error("`{path}` has {size} bytes; at most {limit} are read")]
    TooLarge {
        /// The file.
        path: PathBuf,
        /// Its size.
        size: u64,
        /// The limit.
        limit: u64,
    },
    /// The file is not UTF-8.
    #[error("`{path}` is not UTF-8 text: byte {offset}, on line {line}, is not part of a character")]
    NotUtf8 {
        /// The file.
        path: PathBuf,
        /// Bytes before the first bad one.
        offset: usize,
        /// The line of it, from 1.
        line: usize,
    },
}

impl Source {
    /// The largest file that is read, 1 MiB: some four hundred times a long recipe.
    pub const LIMIT: u64 = 1 << 20;

    /// A text under a name.
    pub fn new(name: impl Into<Arc<str>>, text: impl Into<Arc<str>>) -> Self {
        Self { name: name.into(), text: text.into() }
    }

    /// Reads a file, without the byte order mark that some editors put first; `name` is what people will see.
    ///
    /// # Errors
    /// [`SourceError`]: unreadable, above [`Source::LIMIT`], or not UTF-8.
    pub fn read(path: &Path, name: impl Into<Arc<str>>) -> Result<Self, SourceError> {
        let unreadable = |cause| SourceError::Unreadable { path: path.into(), cause };
        let size = std::fs::metadata(path).map_err(unreadable)?.len();
        if size > Self::LIMIT {
            return Err(SourceError::TooLarge { path: path.into(), size, limit: Self::LIMIT });
        }
        let bytes = std::fs::read(path).map_err(unreadable)?;
        let text = String::from_utf8(bytes).map_err(|error| {
            let offset = error.utf8_error().valid_up_to();
            let line = 1 + error.as_bytes()[..offset].iter().filter(|byte| **byte == b'\n').count();
            SourceError::NotUtf8 { path: path.into(), offset, line }
        })?;
        Ok(Self::new(name, text.strip_prefix('\u{feff}').unwrap_or(&text)))
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
