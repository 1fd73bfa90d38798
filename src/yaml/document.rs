use std::sync::Arc;

use serde::de::DeserializeOwned;

use super::check::{Faults, MissingKeys, check};
use super::format::Format;
use super::node::Node;
use super::parse::parse;
use super::typed::Typed;
use crate::source::{Finding, Source, Span};

/// A file that is YAML, with all that is wrong with its form.
#[derive(Debug)]
pub struct Document {
    /// All that it holds.
    pub root: Arc<Node>,
    /// What is wrong with keys, kinds and sizes, in no order.
    pub findings: Vec<Finding>,
    missing: MissingKeys,
    fits: bool,
}

impl Document {
    /// Reads a text and checks its form.
    ///
    /// # Errors
    /// A finding, where it is no YAML that can be used.
    pub fn read(source: &Source, format: &Format) -> Result<Self, Box<Finding>> {
        if let Some(finding) = control_character(source.text()) {
            return Err(Box::new(finding));
        }
        let (root, mut findings) = parse(source, format)?;
        let faults = check(&root, source, format);
        findings.extend(faults.findings);
        let Faults { missing, fits, .. } = faults;
        Ok(Self { root: Arc::new(root), findings, missing, fits })
    }

    /// The types that the text holds; none where something is of the wrong kind or too large, which is among the
    /// findings. A key that is missing is taken as there and empty.
    pub fn typed<T: DeserializeOwned>(&mut self, source: &Source) -> Option<T> {
        if !self.fits {
            return None;
        }
        let typed = T::deserialize(Typed::new(&self.root, source, &self.missing));
        if typed.is_err() {
            // The check lets nothing through that the types refuse; tests hold it to that.
            let fault = Finding::error("internal-fault", self.root.span.clone(), "levelcup cannot use this file");
            self.findings.push(fault.help("this is a fault of levelcup itself; please tell its makers, with the file"));
        }
        typed.ok()
    }

    /// Whether a place lacks a key, of which more need not be said.
    pub fn lacks_keys_at(&self, span: &Span) -> bool {
        self.missing.contains_key(&(span.start, span.end))
    }

    /// The types that the text holds, where neither the form nor `more` has a fault.
    ///
    /// # Errors
    /// All faults, in the order of the places.
    pub fn sound<T: DeserializeOwned>(mut self, source: &Source, more: Vec<Finding>) -> Result<T, Vec<Finding>> {
        self.findings.extend(more);
        if self.findings.is_empty()
            && let Some(typed) = self.typed(source)
        {
            return Ok(typed);
        }
        self.findings.sort_by_key(|finding| finding.span.start);
        Err(self.findings)
    }
}

/// The first character that YAML 1.2.2 allows only escaped (production 1).
fn control_character(text: &str) -> Option<Finding> {
    let barred = |c: char| c.is_control() && !matches!(c, '\t' | '\n' | '\r' | '\u{85}');
    let (at, character) = text.char_indices().find(|(_, c)| barred(*c))?;
    let message = format!("this is not YAML: a control character, U+{:04X}", character as u32);
    Some(
        Finding::error("yaml-syntax", at..at + character.len_utf8(), message)
            .help("remove it; it has no place in a text"),
    )
}
