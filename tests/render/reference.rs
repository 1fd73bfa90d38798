use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};

use crate::fixture::{bench, site, tart};
use crate::told::same_list;

const README: &str = include_str!("../../templates/README.md");

/// The fields that `templates/README.md` lists, as paths, under headings such as `recipe.links[]`.
fn listed() -> BTreeSet<String> {
    let (_, fields) = README.split_once("## Fields").expect("the page lists fields");
    let mut paths = BTreeSet::new();
    let mut heading = String::new();
    for line in fields.lines() {
        if let Some(name) = line.strip_prefix("### `").and_then(|rest| rest.strip_suffix('`')) {
            heading = name.to_owned();
        } else if let Some((field, rest)) = line.strip_prefix("| `").and_then(|rest| rest.split_once("` | ")) {
            if rest.starts_with("list |") {
                continue;
            }
            paths.insert(format!("{heading}.{field}"));
        }
    }
    paths
}

/// The fields that a value has, as paths; lengths of time and named things are leaves, as on the page.
fn fields(at: &str, value: &Value, paths: &mut BTreeMap<String, bool>) {
    match value {
        Value::Object(map) => {
            let names: Vec<&str> = map.keys().map(String::as_str).collect();
            if matches!(names.as_slice(), ["text", "iso", "seconds", "least"] | ["name", "slug"]) {
                paths.insert(at.to_owned(), true);
                return;
            }
            map.iter().for_each(|(name, value)| fields(&format!("{at}.{name}"), value, paths));
        }
        Value::Array(elements) => {
            elements.iter().for_each(|element| fields(&format!("{at}[]"), element, paths));
            if elements.is_empty() {
                paths.entry(at.to_owned()).or_insert(false);
            }
        }
        other => *paths.entry(at.to_owned()).or_insert(false) |= !other.is_null(),
    }
}

#[test]
fn the_reference_lists_every_field_and_no_other() {
    let mut paths = BTreeMap::new();
    fields("site", &json!(site()), &mut paths);
    fields("recipe", &json!(tart()), &mut paths);
    fields("bench", &json!(bench(&tart())), &mut paths);
    // A list that is empty in one place and filled in another is told of by its elements.
    let all: BTreeSet<String> = paths.keys().cloned().collect();
    let empty = |path: &String| all.iter().any(|other| other.starts_with(&format!("{path}[]")));
    let real: BTreeSet<String> = all.iter().filter(|path| !empty(path)).cloned().collect();
    same_list("templates/README.md, under `## Fields`", listed(), &real);
    let bare: Vec<&String> = real.iter().filter(|path| !paths[*path]).collect();
    assert!(
        bare.is_empty(),
        "tests/render/fixture.rs: expected a value in every field of the tart, got none in {bare:?}"
    );
}
