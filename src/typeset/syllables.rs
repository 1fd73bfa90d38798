//! Where words may be hyphenated.

use std::cell::RefCell;
use std::rc::Rc;

use hypher::Lang;
use rustc_hash::FxHashMap;

/// Shortest run of letters that may be hyphenated.
const SHORTEST_HYPHENATED: usize = 6;

/// Longest run of letters that may be hyphenated, in bytes: longer ones are no words.
const LONGEST_HYPHENATED: usize = hypher::MAX_INLINE_SIZE;

/// Syllable ends of the words within a piece of unbroken text; none within an address.
pub(crate) fn syllables(word: &str, language: Lang) -> Vec<usize> {
    let mut found = Vec::new();
    if word.len() < SHORTEST_HYPHENATED || word.contains(['/', '@', '_']) {
        return found;
    }
    let mut at = 0;
    for run in word.split_inclusive(|c: char| !c.is_alphabetic()) {
        let letters = run.trim_end_matches(|c: char| !c.is_alphabetic());
        let count = letters.chars().count();
        if count >= SHORTEST_HYPHENATED
            && letters.len() <= LONGEST_HYPHENATED
            && letters.chars().any(char::is_lowercase)
        {
            found.extend(ends(letters, language).iter().map(|&end| at + usize::from(end)));
        }
        at += run.len();
    }
    found
}

/// Ends of the syllables of a word in bytes, the last excepted; known words are not asked for again.
fn ends(word: &str, language: Lang) -> Rc<[u8]> {
    SYLLABLES.with_borrow_mut(|known| {
        let words = known.entry(language).or_default();
        if let Some(ends) = words.get(word) {
            return Rc::clone(ends);
        }
        let mut end = 0;
        // Words are shorter than 256 bytes, see `LONGEST_HYPHENATED`.
        let mut ends: Vec<u8> = hypher::hyphenate(word, language)
            .map(|syllable| {
                end += syllable.len();
                end as u8
            })
            .collect();
        ends.pop();
        let ends: Rc<[u8]> = ends.into();
        if words.len() < STORE_LIMIT {
            words.insert(word.into(), Rc::clone(&ends));
        }
        ends
    })
}

/// Words whose syllables are kept; a long archive repeats most of its words.
const STORE_LIMIT: usize = 20_000;

/// Words with the ends of their syllables.
type Ends = FxHashMap<Box<str>, Rc<[u8]>>;

thread_local! {
    /// Syllables of words by language.
    static SYLLABLES: RefCell<FxHashMap<Lang, Ends>> = RefCell::default();
}

#[cfg(test)]
mod tests {
    use super::{Lang, syllables};

    #[test]
    fn syllables_end_within_words() {
        assert_eq!(syllables("extensive,", Lang::English), [2, 5]);
        assert_eq!(syllables("butter-scented", Lang::English).first(), Some(&3));
        for word in ["oven", "BUTTERMILK", "https://tern-quay.example/extensive", &"extensive".repeat(9)] {
            assert!(syllables(word, Lang::English).is_empty(), "{word}");
        }
    }
}
