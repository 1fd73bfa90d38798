use std::fmt;

/// A template that cannot be read, is not well formed, or names something that is not there.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub struct TemplateError {
    /// Path of the workspace's file, or the name of the built-in template.
    pub file: String,
    /// From 1; 0 where the fault has no place in the file.
    pub line: usize,
    /// In characters, from 1; 0 where the fault has no place in the file.
    pub column: usize,
    /// What is wrong, naming the field where one is missing.
    pub message: String,
    /// What to do about it.
    pub help: Option<String>,
}

impl TemplateError {
    /// An error about a whole file.
    pub(super) fn whole(file: impl Into<String>, message: impl Into<String>, help: Option<String>) -> Self {
        Self { file: file.into(), line: 0, column: 0, message: message.into(), help }
    }
}

impl fmt::Display for TemplateError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.file)?;
        if self.line > 0 {
            write!(out, ":{}:{}", self.line, self.column)?;
        }
        write!(out, ": {}", self.message)?;
        match &self.help {
            Some(help) => write!(out, " ({help})"),
            None => Ok(()),
        }
    }
}
