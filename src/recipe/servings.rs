use std::fmt;

use serde::{Serialize, Serializer};

use crate::language::TimeWords;
use crate::text::number;

/// More servings than this are no recipe's.
const MOST: i64 = 100_000;

/// For how many a recipe is: one number, or a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Servings {
    /// The fewest, at least 1.
    pub low: u32,
    /// The most.
    pub high: u32,
}

impl Servings {
    /// Reads `10`, `8–10`, `8 to 10`, `about 6`, with the range words of a language; `None` for anything else.
    pub(super) fn read(text: &str, words: &TimeWords) -> Option<Self> {
        let text = text.trim();
        let about = words.about.iter().find_map(|about| text.strip_prefix(about.as_str())?.strip_prefix(' '));
        let (low, rest) = count(about.unwrap_or(text).trim_start())?;
        let rest = rest.trim();
        if rest.is_empty() {
            return Some(Self { low, high: low });
        }
        let word = || words.range.iter().find_map(|word| rest.strip_prefix(word.as_str())?.strip_prefix(' '));
        let behind = rest.strip_prefix(['-', '–', '—']).or_else(word)?;
        let (high, rest) = count(behind.trim_start())?;
        (rest.trim().is_empty() && low < high).then_some(Self { low, high })
    }

    /// Those that a serving is reckoned by: of a range the fewest, whose servings are the largest.
    pub fn reckoned(self) -> u32 {
        self.low
    }
}

/// A whole number from 1 on, and what stands behind it.
fn count(text: &str) -> Option<(u32, &str)> {
    let (number, length) = number(text)?;
    let whole = number.is_integer().then(|| number.to_integer()).filter(|whole| (1..=MOST).contains(whole))?;
    Some((u32::try_from(whole).ok()?, &text[length..]))
}

/// `10`, `8–10`.
impl fmt::Display for Servings {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.low == self.high { write!(f, "{}", self.low) } else { write!(f, "{}–{}", self.low, self.high) }
    }
}

/// A number, or the text of a range.
impl Serialize for Servings {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if self.low == self.high { serializer.serialize_u32(self.low) } else { serializer.collect_str(self) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::Language;

    #[test]
    fn servings_are_a_number_or_a_range() {
        let case = |tag: &str, text: &str, wanted: Option<(u32, u32)>| {
            let read = Servings::read(text, Language::of(tag).unwrap().times());
            assert_eq!(read.map(|servings| (servings.low, servings.high)), wanted, "{text}");
        };
        case("en-US", "10", Some((10, 10)));
        case("en-US", "8 to 10", Some((8, 10)));
        case("en-US", "8–10", Some((8, 10)));
        case("en-US", "8-10", Some((8, 10)));
        case("en-US", "about 6", Some((6, 6)));
        case("fr", "8 à 10", Some((8, 10)));
        case("en-US", "many", None);
        case("en-US", "0", None);
        case("en-US", "1 1/2", None);
        case("en-US", "10 to 8", None);
        case("en-US", "8 to", None);
        case("en-US", "6 people", None);
        case("en-US", "99999999", None);
    }
}
