use std::collections::BTreeSet;

use super::model::Allergens;
use crate::facts::{Facts, LineFacts};
use crate::pantry::Row;

/// The US nine in the order of the law, and the words to print. Source: FALCPA 2004, FASTER Act 2021.
const US: [(&str, &str); 9] = [
    ("milk", "allergen-milk"),
    ("egg", "allergen-egg"),
    ("fish", "allergen-fish"),
    ("crustacean", "allergen-crustacean-us"),
    ("tree-nut", "allergen-tree-nut"),
    ("peanut", "allergen-peanut"),
    ("wheat", "allergen-wheat"),
    ("soybean", "allergen-soybean"),
    ("sesame", "allergen-sesame"),
];

/// The EU fourteen in the order of the annex. Source: Regulation (EU) 1169/2011, Annex II.
const EU: [(&str, &str); 14] = [
    ("gluten", "allergen-gluten"),
    ("crustacean", "allergen-crustacean"),
    ("egg", "allergen-egg"),
    ("fish", "allergen-fish"),
    ("peanut", "allergen-peanut"),
    ("soybean", "allergen-soybean"),
    ("milk", "allergen-milk"),
    ("nut", "allergen-nut"),
    ("celery", "allergen-celery"),
    ("mustard", "allergen-mustard"),
    ("sesame", "allergen-sesame"),
    ("sulphite", "allergen-sulphite"),
    ("lupin", "allergen-lupin"),
    ("mollusc", "allergen-mollusc"),
];

/// What a recipe contains by both lists, kinds of nut, fish and crustacean and the cereals named; and what nothing is known of.
pub(super) fn allergens(facts: &Facts<'_>) -> Allergens {
    let rows: Vec<&Row> = facts.all_lines().flat_map(LineFacts::rows).collect();
    let language = facts.kitchen.language();
    let named = |key: &str, words: &str, of: &dyn Fn(&Row) -> bool| {
        let with = || rows.iter().filter(|row| of(row));
        with().next()?;
        let kinds: BTreeSet<&str> = match key {
            "gluten" => with().flat_map(|row| row.allergens.gluten_of()).collect(),
            "tree-nut" | "nut" | "fish" | "crustacean" => with().filter_map(|row| row.kind.as_deref()).collect(),
            _ => BTreeSet::new(),
        };
        let kinds: BTreeSet<&str> = kinds.into_iter().map(|kind| language.kind(kind)).collect();
        let kinds: Vec<&str> = kinds.into_iter().collect();
        let what = language.say(words, &[]);
        let of_kinds = || language.say("of-kinds", &[("what", &what), ("kinds", &kinds.join(", "))]);
        Some(if kinds.is_empty() { what.clone() } else { of_kinds() })
    };
    let us = US.iter().filter_map(|(key, words)| named(key, words, &|row| row.allergens.us.iter().any(|a| a == key)));
    let eu = EU.iter().filter_map(|(key, words)| named(key, words, &|row| row.allergens.eu.iter().any(|a| a == key)));
    let mut unknown: Vec<String> = Vec::new();
    for line in facts.all_lines().filter(|line| line.row.is_none()) {
        let name = &line.ingredient.line.name;
        if !unknown.contains(name) {
            unknown.push(name.clone());
        }
    }
    Allergens { us: us.collect(), eu: eu.collect(), unknown }
}
