use std::sync::LazyLock;

use rustc_hash::FxHashMap;
use serde::Deserialize;

use super::colour::Colour;
use crate::pantry::Pantry;

const DATA: &str = include_str!("tints.yaml");

/// Of what the pantry does not know.
const NEUTRAL: Tint = Tint { colour: Colour::new(0xd9, 0xd6, 0xcb), shows: USUAL };

/// How much a gram of flour colours a mixture.
const USUAL: u32 = 10;

static TINTS: LazyLock<Tints> = LazyLock::new(|| {
    let rows: Vec<TintRow> = serde_yaml::from_str(DATA).expect("the embedded tints are well formed, as a test sees to");
    Tints::new(&rows)
});

/// The colour of an ingredient.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Tint {
    pub(super) colour: Colour,
    /// How much a gram of it colours a mixture, against the others; 0 where it is clear.
    shows: u32,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TintRow {
    tint: String,
    #[serde(default = "usual")]
    shows: u32,
    #[serde(default)]
    of: Vec<String>,
    #[serde(default)]
    family: Vec<String>,
}

fn usual() -> u32 {
    USUAL
}

struct Tints {
    words: FxHashMap<String, Tint>,
    families: FxHashMap<String, Tint>,
}

impl Tints {
    fn new(rows: &[TintRow]) -> Self {
        let tint = |row: &TintRow| Colour::parse(&row.tint).map(|colour| Tint { colour, shows: row.shows });
        let named = |names: fn(&TintRow) -> &[String]| {
            let pairs = rows.iter().flat_map(|row| names(row).iter().map(move |name| (name.clone(), tint(row))));
            pairs.filter_map(|(name, tint)| Some((name, tint?))).collect()
        };
        Self { words: named(|row| &row.of), families: named(|row| &row.family) }
    }

    /// By the longest run of the id's words, of equals the last.
    fn by_words(&self, id: &str) -> Option<Tint> {
        let starts: Vec<usize> = std::iter::once(0).chain(id.match_indices('-').map(|(at, _)| at + 1)).collect();
        let end = |last: usize| starts.get(last + 1).map_or(id.len(), |next| next - 1);
        let runs =
            (1..=starts.len()).rev().flat_map(|length| (0..=starts.len() - length).rev().map(move |at| (at, length)));
        let mut runs = runs.map(|(first, length)| &id[starts[first]..end(first + length - 1)]);
        runs.find_map(|run| self.words.get(run).copied())
    }
}

impl Tint {
    /// Of an ingredient by its id in the pantry.
    pub(super) fn of(pantry: &Pantry, id: Option<&str>) -> Self {
        let known = id.and_then(|id| TINTS.by_words(id));
        let family = || TINTS.families.get(&pantry.by_id(id?)?.family).copied();
        known.or_else(family).unwrap_or(NEUTRAL)
    }
}

/// The colour of ingredients mixed, each with its milligrams; that of nothing is neutral.
///
/// In whole numbers, so that it is the same on every machine.
pub(super) fn mixed(parts: &[(Tint, u64)]) -> Colour {
    let shown = parts.iter().any(|(tint, milligrams)| tint.shows > 0 && *milligrams > 0);
    let weight =
        |(tint, milligrams): &(Tint, u64)| u128::from(*milligrams) * u128::from(if shown { tint.shows } else { USUAL });
    let total: u128 = parts.iter().map(weight).sum();
    if total == 0 {
        return NEUTRAL.colour;
    }
    let channel = |of: fn(Colour) -> u8| {
        let sum: u128 = parts.iter().map(|part| weight(part) * u128::from(of(part.0.colour))).sum();
        u8::try_from((sum + total / 2) / total).expect("a mean of bytes is a byte")
    };
    Colour::new(channel(Colour::red), channel(Colour::green), channel(Colour::blue))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows() -> Vec<TintRow> {
        serde_yaml::from_str(DATA).expect("the tints are well formed")
    }

    #[test]
    fn every_tint_is_a_colour_and_every_name_is_used_once() {
        let mut names: Vec<String> = Vec::new();
        for row in rows() {
            assert!(Colour::parse(&row.tint).is_some(), "{}", row.tint);
            names.extend(row.family.into_iter().map(|family| format!("family {family}")));
            names.extend(row.of);
        }
        names.sort();
        let twice: Vec<_> = names.windows(2).filter(|pair| pair[0] == pair[1]).collect();
        assert!(twice.is_empty(), "{twice:?}");
    }

    #[test]
    fn every_name_is_of_the_pantry_and_every_family_has_a_tint() {
        let pantry = Pantry::embedded();
        let within =
            |name: &str| pantry.rows().iter().any(|row| format!("-{}-", row.id).contains(&format!("-{name}-")));
        let strange: Vec<String> = rows().into_iter().flat_map(|row| row.of).filter(|name| !within(name)).collect();
        assert!(strange.is_empty(), "{strange:?}");
        let bare: Vec<&str> =
            pantry.rows().iter().map(|row| row.family.as_str()).filter(|f| !TINTS.families.contains_key(*f)).collect();
        assert!(bare.is_empty(), "{bare:?}");
    }

    #[test]
    fn an_ingredient_has_the_colour_of_its_kind() {
        let pantry = Pantry::embedded();
        let hex = |id: &str| Tint::of(&pantry, Some(id)).colour.hex();
        assert_eq!(hex("frozen-raspberry"), hex("strawberry"));
        assert_eq!(hex("almond-milk"), hex("whole-milk"));
        assert_ne!(hex("white-chocolate"), hex("dark-chocolate"));
        assert_ne!(hex("peanut-butter"), hex("unsalted-butter"));
        assert_eq!(hex("medlar-of-the-quay"), NEUTRAL.colour.hex());
        assert_eq!(Tint::of(&pantry, None), NEUTRAL);
    }

    #[test]
    fn a_mixture_lies_between_its_parts_by_their_weight() {
        let part = |red, shows, milligrams| (Tint { colour: Colour::new(red, 0, 0), shows }, milligrams);
        assert_eq!(mixed(&[part(100, 10, 3), part(200, 10, 1)]), Colour::new(125, 0, 0));
        assert_eq!(mixed(&[part(100, 10, 1), part(200, 30, 1)]), Colour::new(175, 0, 0));
        assert_eq!(mixed(&[part(100, 0, 5)]), Colour::new(100, 0, 0));
        assert_eq!(mixed(&[part(255, u32::MAX, u64::MAX), part(255, 1, u64::MAX)]), Colour::new(255, 0, 0));
        assert_eq!(mixed(&[]), NEUTRAL.colour);
    }
}
