//! The words of running text.

use std::ops::Range;

use super::shared::{is_elided, without_possessive};
use super::stem::{singular, without_accents};
use crate::source::Span;

/// A phrase of a lexicon that begins at a word, and how many words it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct ToldPhrase {
    pub(super) lexicon: u16,
    pub(super) length: u16,
}

/// A word of a running text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    /// Lower case, no accents, singular.
    pub stem: String,
    /// As written, in lower case.
    pub written: String,
    /// Its bytes in the text.
    pub span: Span,
    /// Number of the sentence, from nothing.
    pub sentence: usize,
    /// What stands between the word before it, or the start, and this one.
    pub before: String,
    /// What it tells, alone or with the words behind it.
    pub(super) told: Vec<ToldPhrase>,
}

impl Word {
    /// The same so many sentences later, for texts that are put together.
    pub fn later(&self, sentences: usize) -> Self {
        Self { sentence: self.sentence + sentences, ..self.clone() }
    }

    /// Whether no white space stands between this word and the next: `180-degree`.
    pub fn is_joined(&self, next: &Word) -> bool {
        !next.before.contains(char::is_whitespace)
    }
}

/// The number of the sentence that a byte of a text stands in; that of the first where no word ends behind it.
pub fn sentence_at(words: &[Word], byte: usize) -> usize {
    words.iter().find(|word| word.span.end > byte).map_or(0, |word| word.sentence)
}

/// The places of the words of a sentence.
pub fn sentence(words: &[Word], number: usize) -> Range<usize> {
    let first = words.partition_point(|word| word.sentence < number);
    first..words.partition_point(|word| word.sentence <= number)
}

/// The places of the clause of a word: in its sentence, between signs that part clauses, or words that begin one.
pub fn clause(words: &[Word], at: usize, begins: impl Fn(usize) -> bool) -> Range<usize> {
    let own = sentence(words, words[at].sentence);
    let parts = |at: usize| words[at].before.contains([',', ';', ':']) || begins(at);
    let first = (own.start..=at).rev().find(|at| parts(*at)).unwrap_or(own.start);
    let behind = (at + 1..own.end).find(|at| parts(*at)).unwrap_or(own.end);
    first..behind
}

/// The words of a text, before anything is known of what they tell. Numbers are words; a sentence ends at `.`, `!`, `?` or `;` before white space.
pub(super) fn split(text: &str) -> Vec<Word> {
    let mut words: Vec<Word> = Vec::new();
    let (mut end, mut sentence) = (0, 0);
    let mut from = 0;
    while let Some(start) = text[from..].find(char::is_alphanumeric).map(|at| from + at) {
        let rest = &text[start..];
        let inner = |(at, c): (usize, char)| {
            let apostrophe = matches!(c, '\'' | '’') && rest[at + c.len_utf8()..].starts_with(char::is_alphabetic);
            (!c.is_alphanumeric() && !apostrophe).then_some(at)
        };
        let length = rest.char_indices().find_map(inner).unwrap_or(rest.len());
        let elided = elision(&text[start..start + length]);
        let (start, length) = (start + elided, length - elided);
        let before = &text[end..start];
        if before.trim_end().ends_with(['.', '!', '?', ';']) && before.ends_with(char::is_whitespace) {
            sentence += 1;
        }
        end = start + length;
        let written = lower(&text[start..end]);
        let plain = without_accents(without_possessive(&written));
        let (before, told) = (before.into(), Vec::new());
        words.push(Word { stem: singular(&plain), written, span: start..end, sentence, before, told });
        from = end;
    }
    words
}

/// In lower case; most words are plain ASCII, where that is far cheaper.
fn lower(word: &str) -> String {
    if word.is_ascii() { word.to_ascii_lowercase() } else { word.to_lowercase() }
}

/// How many bytes of a word are an elided article: `l’` of l’eau.
fn elision(word: &str) -> usize {
    let Some((before, behind)) = word.split_once(['\'', '’']).filter(|(before, _)| before.len() <= 2) else {
        return 0;
    };
    let article = is_elided(&lower(before));
    // `'s` and `n't` end English words.
    if article && behind.chars().count() > 1 { word.len() - behind.len() } else { 0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn elided_articles_are_no_part_of_a_word() {
        let stems = |text: &str| split(text).into_iter().map(|word| word.stem).collect::<Vec<_>>();
        assert_eq!(stems("Verser l’eau et l'huile d’olive."), ["verser", "eau", "et", "huile", "olive"]);
        assert_eq!(stems("Don't stir the cook's pan"), ["don't", "stir", "the", "cook", "pan"]);
    }

    #[test]
    fn words_know_their_place_and_sentence() {
        let text = "Whisk the crème's yolks, then rest. Bake at 180 °C; cool.";
        let said = split(text);
        let stems: Vec<(&str, usize)> = said.iter().map(|w| (w.stem.as_str(), w.sentence)).collect();
        assert_eq!(stems[2], ("creme", 0));
        assert_eq!(stems[3], ("yolk", 0));
        assert_eq!(stems[6], ("bake", 1));
        assert_eq!(stems.last(), Some(&("cool", 2)));
        assert_eq!(&text[said[3].span.clone()], "yolks");
    }
}
