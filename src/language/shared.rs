//! Words that are read as those of all languages, since what reads them knows of none.

use std::sync::LazyLock;

use super::section;
use super::spelling::{MeasureWords, Spelling};

static MEASURES: LazyLock<MeasureWords> = LazyLock::new(|| {
    let mut all = MeasureWords::default();
    section::all().for_each(|section| all.add(&section.measures));
    all
});

static SPELLING: LazyLock<Spelling> = LazyLock::new(|| {
    let mut all = Spelling::default();
    section::all().for_each(|section| all.add(&section.spelling));
    let typographic: Vec<String> = all.possessive.iter().map(|end| end.replace('\'', "’")).collect();
    all.possessive.extend(typographic);
    all
});

/// The words of temperatures and lengths.
pub fn measure_words() -> &'static MeasureWords {
    &MEASURES
}

/// Whether what stands before an apostrophe, in lower case, is an article without its vowel.
pub(super) fn is_elided(word: &str) -> bool {
    SPELLING.elided.iter().any(|known| known == word)
}

/// The same in an ingredient line, where `s’mores` is one word.
pub fn is_elided_in_lines(word: &str) -> bool {
    SPELLING.elided_in_lines.iter().any(|known| known.eq_ignore_ascii_case(word))
}

/// A word without the end that says whose a thing is.
pub(super) fn without_possessive(word: &str) -> &str {
    let end = |word: &str| SPELLING.possessive.iter().find(|end| word.ends_with(end.as_str())).map(String::len);
    let mut rest = word;
    while let Some(length) = end(rest) {
        rest = &rest[..rest.len() - length];
    }
    rest
}

/// What owns a thing, and the thing: `egg’s whites`.
pub fn owned(name: &str) -> Option<(&str, &str)> {
    SPELLING.possessive.iter().find_map(|end| {
        name.match_indices(end.as_str()).find_map(|(at, end)| {
            let thing = name[at + end.len()..].strip_prefix(' ')?;
            Some((&name[..at], thing))
        })
    })
}

/// The bytes of a half at the start of a text that counts what it is joined to, with the hyphen: `demi-` of `demi-litre`.
pub fn half_joined(text: &str) -> Option<usize> {
    let begins = |half: &&String| text.get(..half.len()).is_some_and(|start| start.eq_ignore_ascii_case(half));
    let half = SPELLING.halves.iter().find(begins)?;
    let name = SPELLING.no_halves.iter().any(|name| text[half.len()..].starts_with(name.as_str()));
    (!name).then_some(half.len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_parted_where_they_are_joined() {
        assert_eq!(half_joined("demi-litre"), Some(5));
        assert_eq!([half_joined("demi-sel"), half_joined("dem")], [None, None]);
        assert_eq!(owned("egg's whites"), Some(("egg", "whites")));
        assert_eq!(owned("egg’s whites"), Some(("egg", "whites")));
        assert_eq!([without_possessive("cook’s"), without_possessive("glass")], ["cook", "glass"]);
    }

    #[test]
    fn a_fan_is_a_word_of_its_own() {
        let says = |text: &str| measure_words().says_fan(text);
        assert!(says("180 °C Fan") && says("convection oven") && says("180 °C, chaleur tournante"));
        assert!(!says("a fancy oven") && !says("chaleur"));
    }
}
