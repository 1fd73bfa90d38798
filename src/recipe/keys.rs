use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde_json::Value as Json;

use super::file;
use super::node::{Node, Value};
use crate::source::Finding;

static SCHEMA: LazyLock<Json> = LazyLock::new(|| file::schema().to_value());

/// What is wrong with the keys of a recipe file.
#[derive(Debug)]
pub(super) struct Faults {
    /// Unknown keys and missing ones, all of them.
    pub(super) findings: Vec<Finding>,
    /// The missing ones.
    pub(super) missing: Missing,
    /// Whether every list and text is of a size that is worked on.
    pub(super) bounded: bool,
}

/// Keys that mappings lack, by the mapping's place.
pub(super) type Missing = BTreeMap<(usize, usize), Vec<Lacking>>;

/// A key that a mapping lacks.
#[derive(Debug)]
pub(super) struct Lacking {
    pub(super) key: &'static str,
    /// Whether a list belongs there, and not a text.
    pub(super) list: bool,
}

/// Checks every key of a recipe file against the schema of the Rust types.
pub(super) fn check(root: &Node) -> Faults {
    let mut faults = Faults { findings: Vec::new(), missing: Missing::new(), bounded: true };
    walk(root, &SCHEMA, &mut faults);
    faults
}

/// Whether any place of a recipe file has a key of the name.
pub(super) fn is_key(name: &str) -> bool {
    let has = |schema: &Json| schema.get("properties").is_some_and(|keys| keys.get(name).is_some());
    has(&SCHEMA) || SCHEMA.get("$defs").and_then(Json::as_object).is_some_and(|parts| parts.values().any(has))
}

/// What the format says of the place that these keys lead to.
pub(super) fn about(keys: &[&str]) -> Option<&'static str> {
    let last = keys.iter().try_fold(&*SCHEMA, |schema, key| property(schema, key))?;
    last.get("description").and_then(Json::as_str)
}

/// The schema of a key, also of one in a list's items or in an alternative.
fn property(schema: &'static Json, key: &str) -> Option<&'static Json> {
    if let Some(name) = schema.get("$ref").and_then(Json::as_str) {
        return property(SCHEMA.pointer(name.trim_start_matches('#'))?, key);
    }
    let inside = |inner: &'static Json| property(inner, key);
    let alternatives = || schema.get("anyOf").and_then(Json::as_array)?.iter().find_map(inside);
    let own = schema.get("properties").and_then(|known| known.get(key));
    own.or_else(alternatives).or_else(|| schema.get("items").and_then(inside))
}

fn walk(node: &Node, schema: &'static Json, faults: &mut Faults) {
    let own = resolve(node, schema);
    if let Some(found) = own.and_then(|schema| above_bounds(node, schema)) {
        faults.findings.push(found);
        faults.bounded = false;
        return;
    }
    match &node.value {
        // It has no keys, whatever its place.
        Value::Scalar(_) => {}
        Value::List(items) => {
            if let Some(of_item) = own.and_then(|schema| schema.get("items")) {
                items.iter().for_each(|item| walk(item, of_item, faults));
            }
        }
        Value::Mapping(_) => {
            if let Some(schema) = own {
                mapping(node, schema, faults);
            }
        }
    }
}

/// What a recipe never has so much of; work on it could take minutes.
fn above_bounds(node: &Node, schema: &Json) -> Option<Finding> {
    let most = |key: &str| schema.get(key).and_then(Json::as_u64).and_then(|most| usize::try_from(most).ok());
    let start = node.span.start;
    match &node.value {
        Value::List(items) => {
            let most = most("maxItems").filter(|most| items.len() > *most)?;
            let message = format!("{} entries stand in this list; at most {most} are read", items.len());
            let found = Finding::error("too-much", items[most].span.start..items[most].span.end, message);
            Some(
                found
                    .other(start..start + 1, "the list begins here")
                    .help("a recipe has fewer; are these several files?"),
            )
        }
        Value::Scalar(text) => {
            let most = most("maxLength").filter(|most| text.len() > *most && text.chars().nth(*most).is_some())?;
            let message = format!("this text has more than {most} characters, which is all that is read");
            Some(Finding::error("too-much", node.span.clone(), message).help("shorten it"))
        }
        Value::Mapping(_) => None,
    }
}

/// Follows references, and takes the alternative that fits the kind of node.
fn resolve(node: &Node, schema: &'static Json) -> Option<&'static Json> {
    if let Some(name) = schema.get("$ref").and_then(Json::as_str) {
        let target = SCHEMA.pointer(name.trim_start_matches('#'))?;
        return resolve(node, target);
    }
    if let Some(options) = schema.get("anyOf").and_then(Json::as_array) {
        return options.iter().find_map(|option| resolve(node, option));
    }
    let fits = match node.value {
        Value::Scalar(_) => true,
        Value::List(_) => schema.get("items").is_some(),
        Value::Mapping(_) => schema.get("properties").is_some(),
    };
    fits.then_some(schema)
}

fn mapping(node: &Node, schema: &'static Json, faults: &mut Faults) {
    let Some(known) = schema.get("properties").and_then(Json::as_object) else { return };
    for entry in node.entries() {
        match known.get(&entry.key) {
            Some(of_value) => walk(&entry.value, of_value, faults),
            None => faults.findings.push(unknown(&entry.key, entry.span.clone(), known.keys())),
        }
    }
    let required = schema.get("required").and_then(Json::as_array).into_iter().flatten();
    for key in required.filter_map(Json::as_str) {
        if node.get(key).is_none() {
            let start = node.span.start;
            let finding = Finding::error("missing-key", start..start + 1, format!("`{key}` is missing here"));
            let about = known[key].get("description").and_then(Json::as_str).unwrap_or("it is needed");
            faults.findings.push(finding.help(format!("add `{key}:` ({})", about.trim_end_matches('.'))));
            let list = known[key].get("type").and_then(Json::as_str) == Some("array");
            faults.missing.entry((node.span.start, node.span.end)).or_default().push(Lacking { key, list });
        }
    }
}

fn unknown<'k>(key: &str, span: crate::source::Span, known: impl Iterator<Item = &'k String>) -> Finding {
    let known: Vec<&str> = known.map(String::as_str).collect();
    let nearest = known.iter().map(|k| (strsim::osa_distance(key, k), *k)).min();
    let help = match nearest {
        Some((distance, near)) if distance <= 1 + near.len() / 3 => format!("did you mean `{near}`?"),
        _ if key.contains(' ') => "put the text in quotes: inside `{ }` a comma starts a new key".into(),
        _ => format!("known here: {}", known.join(", ")),
    };
    Finding::error("unknown-key", span, format!("`{key}` is not a key of this place")).help(help)
}
