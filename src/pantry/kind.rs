use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value as Json, json};

use crate::measure::Number;
use crate::text::number;

/// Parts of a formula whose share a kitchen may say.
pub const PARTS: [&str; 44] = [
    "agar",
    "alcohol",
    "baking powder",
    "baking soda",
    "butter",
    "cheese",
    "chocolate",
    "cocoa",
    "cream",
    "cream of tartar",
    "dried fruit",
    "dry yeast",
    "egg",
    "fat",
    "flour",
    "fresh cheese",
    "fresh yeast",
    "fruit",
    "gelatine",
    "grain",
    "gum",
    "hydration",
    "lemon juice",
    "liquid",
    "meat",
    "milk",
    "milk powder",
    "nut paste",
    "nuts",
    "oil",
    "pectin",
    "salt",
    "spice",
    "starch",
    "starter",
    "sugar",
    "syrup",
    "total",
    "vegetable",
    "vinegar",
    "water",
    "white",
    "yeast",
    "yolk",
];

/// No share is larger, in per cent: a starter is fed with fifty times its weight.
const LARGEST: f64 = 10_000.0;

/// A kind of component of a kitchen's own, with the shares that are usual in it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OwnKind {
    /// What it is called; a component, or a dish that is most of one, whose name holds it is of the kind.
    pub name: String,
    /// What else it is called.
    #[serde(default)]
    pub called: Vec<String>,
    /// What the shares are of.
    pub of: String,
    /// The usual share of each part, in per cent: `60 to 80 %`.
    pub usual: BTreeMap<String, String>,
}

impl OwnKind {
    /// All its names.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        std::iter::once(&self.name).chain(&self.called).map(String::as_str)
    }
}

/// The least and the most share of a part, in per cent: `60 to 80 %`, `60–80`, `2 %`; `None` for anything else.
pub fn share(text: &str) -> Option<(f64, f64)> {
    let percent = |number: Number| *number.numer() as f64 / *number.denom() as f64;
    let text = text.trim().trim_end_matches('%').trim_end();
    let (low, length) = number(text)?;
    let behind = text[length..].trim_start().trim_start_matches('%').trim_start();
    let high = if behind.is_empty() {
        low
    } else {
        // A dash, or the one word that a language has for it.
        let end = behind.find(|c: char| !c.is_alphabetic()).filter(|end| *end > 0);
        let rest = behind.strip_prefix(['-', '–', '—']).or_else(|| Some(&behind[end?..]))?.trim_start();
        number(rest).filter(|(_, length)| *length == rest.len())?.0
    };
    let (low, high) = (percent(low), percent(high));
    (low > 0.0 && low <= high && high <= LARGEST).then_some((low, high))
}

/// The parts that a kind may say a share of, and be reckoned by, put into its schema.
pub(super) fn put_parts(schema: &mut Map<String, Json>) {
    let parts: Map<String, Json> = PARTS.iter().map(|part| ((*part).into(), json!({"type": "string"}))).collect();
    if let Some(keys) = schema.get_mut("properties").and_then(Json::as_object_mut) {
        keys.insert(
            "of".into(),
            json!({"description": "What the shares are of.", "type": "string", "enum": &PARTS[..]}),
        );
        let usual = json!({
            "description": "The usual share of each part, in per cent: `60 to 80 %`.",
            "type": "object",
            "properties": parts,
            "additionalProperties": false,
        });
        keys.insert("usual".into(), usual);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_are_one_number_or_a_range() {
        let case = |text: &str, wanted: Option<(f64, f64)>| assert_eq!(share(text), wanted, "{text}");
        case("60 to 80 %", Some((60.0, 80.0)));
        case("60 à 80 %", Some((60.0, 80.0)));
        case("60–80", Some((60.0, 80.0)));
        case("1.5 % - 2 %", Some((1.5, 2.0)));
        case("2%", Some((2.0, 2.0)));
        case("80 to 60 %", None);
        case("0 %", None);
        case("some", None);
        case("60 to", None);
        case("60 g", None);
    }

    #[test]
    fn parts_stand_in_their_order() {
        assert!(PARTS.is_sorted());
    }
}
