use std::fmt;

use serde::{Deserialize, Serialize};

use super::Span;

/// How bad a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Level {
    /// Worth knowing.
    Note,
    /// Probably wrong.
    Warning,
    /// Wrong: nothing is published from the file.
    Error,
}

/// Something about the author's text, with the place it is at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// The rule's name: the fault, in words joined by hyphens.
    pub rule: &'static str,
    /// How bad it is.
    pub level: Level,
    /// The smallest span at fault.
    pub span: Span,
    /// One clause: what is wrong, with numbers, the author's own words in backticks.
    pub message: String,
    /// What is said at the underlined place; may be empty.
    pub label: String,
    /// What to do next.
    pub help: Option<String>,
    /// Further places that belong to it.
    pub others: Vec<Label>,
    /// The text that would be right, where it is known for certain.
    pub mend: Option<Mend>,
}

/// A text to put in the place of another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mend {
    /// What is replaced.
    pub span: Span,
    /// What takes its place.
    pub replacement: String,
}

/// A further place, and what there is to say of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// What to see there.
    pub text: String,
}

impl Finding {
    /// An error at a place.
    pub fn error(rule: &'static str, span: Span, message: impl Into<String>) -> Self {
        Self::new(rule, Level::Error, span, message)
    }

    /// A warning at a place.
    pub fn warning(rule: &'static str, span: Span, message: impl Into<String>) -> Self {
        Self::new(rule, Level::Warning, span, message)
    }

    /// A note at a place.
    pub fn note(rule: &'static str, span: Span, message: impl Into<String>) -> Self {
        Self::new(rule, Level::Note, span, message)
    }

    /// A finding of a rule of the table, which gives it its name and level.
    pub fn at(span: Span, message: impl Into<String>) -> Self {
        Self::new("", Level::Warning, span, message)
    }

    fn new(rule: &'static str, level: Level, span: Span, message: impl Into<String>) -> Self {
        let message = message.into();
        Self { rule, level, span, message, label: String::new(), help: None, others: Vec::new(), mend: None }
    }

    /// With what is said under the underline.
    #[must_use]
    pub fn label(mut self, label: impl Into<String>) -> Self {
        self.label = label.into();
        self
    }

    /// With advice.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// With the text that would be right.
    #[must_use]
    pub fn mend(mut self, span: Span, replacement: impl Into<String>) -> Self {
        self.mend = Some(Mend { span, replacement: replacement.into() });
        self
    }

    /// With a further place.
    #[must_use]
    pub fn other(mut self, span: Span, text: impl Into<String>) -> Self {
        self.others.push(Label { span, text: text.into() });
        self
    }
}

impl fmt::Display for Level {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Level::Note => "note",
            Level::Warning => "warning",
            Level::Error => "error",
        })
    }
}
