use super::file::WrittenText;
use super::{LineReader, time};
use crate::source::{Finding, Source, Span};
use crate::text::is_web_address;
use crate::yaml::Node;

/// Collects findings while texts are understood.
pub(super) struct Reader<'a> {
    pub(super) source: &'a Source,
    pub(super) lines: &'a LineReader,
    pub(super) findings: Vec<Finding>,
}

impl Reader<'_> {
    pub(super) fn error(&mut self, rule: &'static str, span: Span, message: String, help: &str) {
        self.findings.push(Finding::error(rule, span, message).help(help));
    }

    /// A text that must hold something.
    pub(super) fn filled(&mut self, text: WrittenText, node: &Node) -> String {
        if text.0.is_empty() {
            self.error("empty-text", node.span.clone(), "nothing is written here".into(), "write a name");
        }
        text.0
    }

    pub(super) fn timestamp(&mut self, text: &str, node: &Node) -> Option<u32> {
        match time::timestamp(text) {
            Ok(seconds) => Some(seconds),
            Err(error) => {
                let message = format!("`{}` is not a time in a video", error.0);
                self.error(
                    "unreadable-time",
                    node.span.clone(),
                    message,
                    "write minutes and seconds, quoted: `\"2:35\"`",
                );
                None
            }
        }
    }

    /// An address that may be printed and followed.
    pub(super) fn url(&mut self, url: &str, node: &Node) -> Option<String> {
        if is_web_address(url) {
            return Some(url.to_string());
        }
        let message = format!("`{}` is not an http(s) address", url.chars().take(60).collect::<String>());
        let help = "write the whole address: `https://shop.example/ring-24`; encode spaces and quotes";
        self.error("unsafe-link", node.span.clone(), message, help);
        None
    }
}
