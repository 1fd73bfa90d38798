use std::collections::HashMap;
use std::sync::LazyLock;

use rustc_hash::FxHashMap;
use schemars::{JsonSchema, Schema};
use serde::Deserialize;
use serde_json::{Value as Json, json};

use super::kind::{OwnKind, put_parts, share};
use super::name::words;
use super::row::Row;
use crate::source::{Finding, Source, Span};
use crate::yaml::{Document, Format, Node, Value};

/// The US nine. Source: FALCPA 2004, FASTER Act 2021.
const US: [&str; 9] = ["milk", "egg", "fish", "crustacean", "tree-nut", "peanut", "wheat", "soybean", "sesame"];

/// The EU fourteen. Source: Regulation (EU) 1169/2011, Annex II.
const EU: [&str; 14] = [
    "gluten",
    "crustacean",
    "egg",
    "fish",
    "peanut",
    "soybean",
    "milk",
    "nut",
    "celery",
    "mustard",
    "sesame",
    "sulphite",
    "lupin",
    "mollusc",
];

/// The cereals of the first of them that rows name. Source: the same, point 1; spelt and khorasan are wheat.
const CEREALS: [&str; 4] = ["wheat", "rye", "barley", "oats"];

/// Rows of one file, at most: five times what is embedded.
const MOST_ROWS: usize = 10_000;

/// Grams and amounts of a measure lie below this.
const HEAVIEST: f64 = 100_000.0;

static FORMAT: LazyLock<Format> = LazyLock::new(|| {
    let start = "a pantry is a list of rows: `- id: quay-mill-flour`, then `names:`, `class:` and `measures:`; or such a list \
                 under `ingredients:`, and kinds of component under `kinds:`";
    Format::new(&schema(), "a pantry", start)
});

/// The JSON Schema (draft 2020-12) of a workspace's `pantry.yaml`, for completion in editors.
pub fn schema() -> Schema {
    let mut schema = schemars::schema_for!(OwnPantry);
    schema.insert("title".into(), json!("A levelcup pantry"));
    let mut put = |place: &str, key: &str, value: Json| {
        let part = schema.pointer_mut(place).and_then(Json::as_object_mut);
        part.map(|part| part.insert(key.into(), value));
    };
    put("/properties/ingredients", "maxItems", json!(MOST_ROWS));
    put("/properties/kinds", "maxItems", json!(MOST_ROWS));
    put("/$defs/AllergenLists/properties/us/items", "enum", json!(US));
    put("/$defs/AllergenLists/properties/eu/items", "enum", json!(EU));
    put("/$defs/AllergenLists/properties/cereals/items", "enum", json!(CEREALS));
    put("/$defs/Row/properties/names", "minItems", json!(1));
    for key in ["amount", "grams", "low", "high"] {
        put(&format!("/$defs/Measure/properties/{key}"), "exclusiveMinimum", json!(0));
    }
    if let Some(kind) = schema.pointer_mut("/$defs/OwnKind").and_then(Json::as_object_mut) {
        put_parts(kind);
    }
    either_form(schema)
}

/// The schema of a mapping of lists, or of the first of these lists alone.
fn either_form(mut schema: Schema) -> Schema {
    const OF_A_MAPPING: [&str; 4] = ["type", "properties", "required", "additionalProperties"];
    let rows = schema.pointer("/properties/ingredients").cloned().unwrap_or_default();
    let keys = OF_A_MAPPING.into_iter().filter_map(|key| Some((key.to_string(), schema.remove(key)?)));
    let mapping: Json = keys.collect::<serde_json::Map<String, Json>>().into();
    schema.insert("anyOf".into(), json!([rows, mapping]));
    schema
}

/// What a workspace adds to the pantry.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OwnPantry {
    /// Rows of its own; one with the id of a built-in row takes its place.
    #[serde(default)]
    pub ingredients: Vec<Row>,
    /// Kinds of component of its own.
    #[serde(default)]
    pub kinds: Vec<OwnKind>,
}

/// Reads a workspace's `pantry.yaml`; an empty one adds nothing.
///
/// # Errors
/// All that is wrong with it, in the order of the places.
pub fn read(source: &Source) -> Result<OwnPantry, Vec<Finding>> {
    let document = Document::read(source, &FORMAT).map_err(|finding| vec![*finding])?;
    let mut reading = RowReading { source, ids: FxHashMap::default(), names: HashMap::new(), findings: Vec::new() };
    let is_list = matches!(document.root.value, Value::List(_));
    let rows = if is_list { Some(&*document.root) } else { document.root.get("ingredients") };
    for (at, row) in rows.map_or(&[][..], Node::items).iter().take(MOST_ROWS).enumerate() {
        reading.row(at, row);
    }
    for kind in document.root.get("kinds").map_or(&[][..], Node::items) {
        reading.kind(kind);
    }
    let findings = reading.findings;
    if is_list {
        let ingredients = document.sound(source, findings)?;
        return Ok(OwnPantry { ingredients, ..OwnPantry::default() });
    }
    document.sound(source, findings)
}

/// Rows that are looked through, one after another.
struct RowReading<'a> {
    source: &'a Source,
    ids: FxHashMap<&'a str, Span>,
    /// Names as look-up reads them, with the row that each is of.
    names: HashMap<Vec<String>, (usize, Span)>,
    findings: Vec<Finding>,
}

impl<'a> RowReading<'a> {
    fn row(&mut self, at: usize, row: &'a Node) {
        if let Some(id) = row.get("id") {
            self.id(id);
        }
        if let Some(names) = row.get("names") {
            self.row_names(at, names);
        }
        for measure in row.get("measures").map_or(&[][..], Node::items) {
            self.measure(measure);
        }
        if let Some((node, alcohol)) = self.number(row, "alcohol")
            && !(0.0..=100.0).contains(&alcohol)
        {
            self.impossible(node, "alcohol", "alcohol is per cent by volume: write 0 to 100");
        }
        for nutrient in row.get("nutrients").map_or(&[][..], Node::entries) {
            if nutrient.value.number(self.source).is_some_and(|much| !(0.0..HEAVIEST).contains(&much)) {
                self.impossible(&nutrient.value, &nutrient.key, "write what 100 g hold: 0 or more");
            }
        }
    }

    fn kind(&mut self, kind: &'a Node) {
        let names = kind.get("name").into_iter().chain(kind.get("called").map_or(&[][..], Node::items));
        for node in names {
            if node.text(self.source).is_some_and(|name| !name.chars().any(char::is_alphabetic)) {
                self.blank(node, "write what the component is called, such as `quay biscuit`");
            }
        }
        for part in kind.get("usual").map_or(&[][..], Node::entries) {
            if let Some(text) = part.value.text(self.source).filter(|text| share(text).is_none()) {
                let message = format!("`{text}` is not a share");
                let help = "write per cent, from the least to the most: `60 to 80 %`";
                self.error("unreadable-share", part.value.span.clone(), message, help);
            }
        }
    }

    fn error(&mut self, rule: &'static str, span: Span, message: String, help: &str) {
        self.findings.push(Finding::error(rule, span, message).help(help));
    }

    fn blank(&mut self, node: &Node, help: &str) {
        self.error("empty-text", node.span.clone(), "nothing is written here".into(), help);
    }

    fn id(&mut self, node: &'a Node) {
        let Some(id) = node.text(self.source) else { return };
        if id.trim().is_empty() {
            return self.blank(node, "write a short name of its own, such as `quay-mill-flour`");
        }
        if let Some(first) = self.ids.get(id) {
            let found = Finding::error("repeated-name", node.span.clone(), format!("two rows have the id `{id}`"));
            let found = found.other(first.clone(), "first given here");
            self.findings.push(found.help("give each row its own, or put both into one"));
        } else {
            self.ids.insert(id, node.span.clone());
        }
    }

    fn row_names(&mut self, at: usize, names: &'a Node) {
        if names.items().is_empty() && names.text(self.source).is_none() && !names.is_nothing(self.source) {
            let help = "write what a cook calls it, the name to show first: `names: [quay mill flour]`";
            self.error("missing-key", names.span.clone(), "the row has no name".into(), help);
        }
        for node in names.items() {
            let Some(name) = node.text(self.source) else { continue };
            let key = words(name);
            if name.trim().is_empty() {
                self.blank(node, "write what a cook calls it");
                continue;
            }
            if key.is_empty() {
                let message = format!("`{name}` is not a name that a line could be found by");
                self.error("unreadable-name", node.span.clone(), message, "write words that name the ingredient");
                continue;
            }
            match self.names.get(&key) {
                Some((row, first)) if *row != at => {
                    let message = format!("`{name}` is the name of another row");
                    let found = Finding::error("repeated-name", node.span.clone(), message);
                    let found = found.other(first.clone(), "first given here");
                    self.findings.push(found.help("leave it to one of them, or say more in one: `strong quay flour`"));
                }
                Some(_) => {}
                None => {
                    self.names.insert(key, (at, node.span.clone()));
                }
            }
        }
    }

    fn measure(&mut self, measure: &'a Node) {
        let mut all_right = true;
        for key in ["amount", "grams", "low", "high"] {
            if let Some((node, number)) = self.number(measure, key)
                && !(number > 0.0 && number < HEAVIEST)
            {
                all_right = false;
                self.impossible(node, key, "write a number above 0 and below 100000");
            }
        }
        let of = |key| self.number(measure, key);
        if let (true, Some((_, grams))) = (all_right, of("grams")) {
            let low = of("low").filter(|(_, low)| *low > grams).map(|(node, _)| (node, "low", "above"));
            let high = of("high").filter(|(_, high)| *high < grams).map(|(node, _)| (node, "high", "below"));
            for (node, key, side) in low.into_iter().chain(high) {
                let message = format!("`{key}` is {}, {side} the `grams`", self.source.slice(&node.span));
                let help = "`grams` lie between `low`, the least it weighs, and `high`, the most";
                self.error("impossible-number", node.span.clone(), message, help);
            }
        }
    }

    fn number(&self, node: &'a Node, key: &str) -> Option<(&'a Node, f64)> {
        let node = node.get(key)?;
        Some((node, node.number(self.source)?))
    }

    fn impossible(&mut self, node: &Node, key: &str, help: &str) {
        let message = format!("`{key}` cannot be {}", self.source.slice(&node.span));
        self.error("impossible-number", node.span.clone(), message, help);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Gate;

    /// Each file of the embedded table is held to what a workspace's own is.
    #[test]
    fn the_embedded_rows_are_right() {
        let files = std::fs::read_dir("src/pantry/table").unwrap().map(|entry| entry.unwrap().path());
        let mut rows = 0;
        for path in files.filter(|path| path.extension().is_some_and(|ending| ending == "yaml")) {
            let source = Gate::anywhere().source(&path, path.display().to_string()).unwrap();
            let read = read(&source).unwrap_or_else(|findings| panic!("{}: {:#?}", source.name(), findings.first()));
            rows += read.ingredients.len();
        }
        assert_eq!(rows, super::super::Pantry::embedded().rows().len());
    }
}
