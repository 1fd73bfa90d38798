use std::collections::BTreeSet;

use super::model::Allergens;
use crate::facts::Facts;
use crate::pantry::Row;

/// The US nine in the order of the law, with the words to print. Source: FALCPA 2004, FASTER Act 2021.
const US: [(&str, &str); 9] = [
    ("milk", "milk"),
    ("egg", "eggs"),
    ("fish", "fish"),
    ("crustacean", "crustacean shellfish"),
    ("tree-nut", "tree nuts"),
    ("peanut", "peanuts"),
    ("wheat", "wheat"),
    ("soybean", "soybeans"),
    ("sesame", "sesame"),
];

/// The EU fourteen in the order of the annex. Source: Regulation (EU) 1169/2011, Annex II.
const EU: [(&str, &str); 14] = [
    ("gluten", "cereals containing gluten"),
    ("crustacean", "crustaceans"),
    ("egg", "eggs"),
    ("fish", "fish"),
    ("peanut", "peanuts"),
    ("soybean", "soybeans"),
    ("milk", "milk"),
    ("nut", "nuts"),
    ("celery", "celery"),
    ("mustard", "mustard"),
    ("sesame", "sesame"),
    ("sulphite", "sulphur dioxide and sulphites"),
    ("lupin", "lupin"),
    ("mollusc", "molluscs"),
];

/// What a recipe contains by both lists, kinds of nut, fish and crustacean named; and what nothing is known of.
pub(super) fn allergens(facts: &Facts<'_>) -> Allergens {
    let rows: Vec<&Row> = facts.all_lines().filter_map(|line| line.row).collect();
    let named = |key: &str, words: &str, of: &dyn Fn(&Row) -> bool| {
        let with = || rows.iter().filter(|row| of(row));
        with().next()?;
        let kinds: BTreeSet<&str> = with().filter_map(|row| row.kind.as_deref()).collect();
        let by_kind = matches!(key, "tree-nut" | "nut" | "fish" | "crustacean") && !kinds.is_empty();
        let kinds: Vec<&str> = kinds.into_iter().collect();
        Some(if by_kind { format!("{words} ({})", kinds.join(", ")) } else { words.to_string() })
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
