use std::collections::BTreeMap;

use serde::Deserialize;

/// Words about the names of ingredients.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct NameWords {
    /// Names that are another thing in the plural, by the pantry's name: `peppers`.
    pub in_plural: BTreeMap<String, String>,
    /// Names that are one kind where a spoon or a packet measures them, by the pantry's name: `yeast`.
    pub by_spoon: BTreeMap<String, String>,
    /// An egg and its parts, which are there as soon as the egg is.
    pub egg_parts: Vec<String>,
    /// Ends of what was cut, without which it is what it was cut into: `cubed`.
    pub cut_ends: Vec<String>,
    /// Between the names of two: `salt and pepper`.
    pub pairs: Vec<String>,
}

/// Words of the archive.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct SiteWords {
    /// Tags that name the seasons, in the order of the year from spring.
    pub seasons: [Vec<String>; 4],
    /// Words that nearly every recipe has, and that tell nothing.
    pub too_common: Vec<String>,
}

impl NameWords {
    pub(super) fn add(&mut self, other: &Self) {
        self.in_plural.extend(other.in_plural.clone());
        self.by_spoon.extend(other.by_spoon.clone());
        self.egg_parts.extend(other.egg_parts.iter().cloned());
        self.cut_ends.extend(other.cut_ends.iter().cloned());
        self.pairs.extend(other.pairs.iter().cloned());
    }

    /// The two of a pair: `salt and pepper`.
    pub fn pair<'a>(&self, name: &'a str) -> Option<(&'a str, &'a str)> {
        self.pairs.iter().find_map(|and| {
            name.match_indices(and.as_str())
                .find_map(|(at, and)| Some((name[..at].strip_suffix(' ')?, name[at + and.len()..].strip_prefix(' ')?)))
        })
    }
}

impl SiteWords {
    pub(super) fn add(&mut self, other: &Self) {
        for (own, other) in self.seasons.iter_mut().zip(&other.seasons) {
            own.extend(other.iter().cloned());
        }
        self.too_common.extend(other.too_common.iter().cloned());
    }
}
