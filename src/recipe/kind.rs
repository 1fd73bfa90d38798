use serde_path_to_error::{Path, Segment};

use super::keys;
use super::node::{Node, Value};
use crate::source::Finding;

/// A value of the wrong kind, told in the words of the format rather than of the reader.
///
/// `said` is what the reader said: `invalid type: string "many", expected u32`.
pub(super) fn wrong_kind(path: &Path, root: &Node, said: &str) -> Finding {
    let mut node = root;
    let mut keys = Vec::new();
    for segment in path.iter() {
        match segment {
            Segment::Map { key } => {
                keys.push(key.as_str());
                node = node.key(key);
            }
            Segment::Seq { index } => node = node.item(*index),
            _ => {}
        }
    }
    let place = keys.last().map_or("the file".to_string(), |key| format!("`{key}`"));
    let message = match wanted(said) {
        Some(wanted) => format!("{place} holds {}, and needs {wanted}", held(node)),
        None => format!("{place} cannot be read: {}", said.split(" at line ").next().unwrap_or(said)),
    };
    let help = match keys.last().and_then(|_| keys::about(&keys)) {
        Some(about) => format!("{place}: {}", about.trim_end_matches('.')),
        None => "a recipe starts with `title:` and has `components:`; `recipes/README.md` shows one".into(),
    };
    Finding::error("wrong-kind", node.span.clone(), message).help(help)
}

/// What a value is, for people.
fn held(node: &Node) -> String {
    match &node.value {
        Value::Scalar(text) if text.is_empty() => "nothing".into(),
        Value::Scalar(text) => format!("`{}`", text.lines().next().unwrap_or_default()),
        Value::List(_) => "a list".into(),
        Value::Mapping(_) => "keys with values".into(),
    }
}

/// What the reader expected, for people.
fn wanted(said: &str) -> Option<String> {
    let (_, expected) = said.split_once("expected ")?;
    let expected = expected.split(" at line ").next().unwrap_or(expected);
    Some(match expected {
        "u8" | "u16" | "u32" | "u64" | "usize" => "a whole number".into(),
        "a sequence" | "sequence" => "a list".into(),
        "map" | "a map" => "keys with values".into(),
        _ if expected.starts_with("struct ") => "keys with values".into(),
        _ => expected.into(),
    })
}
