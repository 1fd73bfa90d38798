//! Words and phrases by which something is told, found in running text.

use rustc_hash::FxHashMap;

use super::stem::without_accents;
use super::word::{Word, words};

/// Words and phrases: whole words in any number, and the beginnings of longer ones.
#[derive(Clone, Debug, Default)]
pub struct Lexicon {
    /// Phrases by their first word.
    whole: FxHashMap<String, Vec<Vec<Token>>>,
    /// Phrases whose first word is only begun.
    begun: Vec<Vec<Token>>,
    /// The first two bytes that a phrase may have, folded to a place: most words are none after one look.
    starts: [u64; 4],
}

#[derive(Clone, Debug)]
enum Token {
    Whole(String),
    Begun(String),
}

impl Token {
    fn text(&self) -> &str {
        let (Self::Whole(text) | Self::Begun(text)) = self;
        text
    }

    fn fits(&self, word: &str) -> bool {
        match self {
            Self::Whole(whole) => whole == word,
            Self::Begun(start) => word.starts_with(start.as_str()),
        }
    }
}

impl Lexicon {
    /// Adds phrases as a language's file writes them: `deep fry*` is `deep` and what begins with `fry`.
    pub(super) fn add(&mut self, phrases: &[String]) {
        for phrase in phrases {
            let tokens: Vec<Token> = phrase.split_whitespace().flat_map(tokens).collect();
            let place = start(tokens.first().map_or("", Token::text));
            self.starts[place / 64] |= 1 << (place % 64);
            match tokens.first() {
                Some(Token::Whole(first)) => self.whole.entry(first.clone()).or_default().push(tokens),
                // One letter alone begins too much.
                Some(Token::Begun(first)) if first.len() > 1 => self.begun.push(tokens),
                Some(Token::Begun(_)) => {}
                None => {}
            }
        }
    }

    /// How many words are one of the phrases, from a place on: of several the most; 0 where there is none.
    pub fn at<W: AsRef<str>>(&self, words: &[W], at: usize) -> usize {
        let Some(first) = words.get(at).map(AsRef::as_ref).filter(|first| self.may_start(first)) else { return 0 };
        let fits = |tokens: &&Vec<Token>| {
            let here = words[at..].iter().zip(tokens.iter()).filter(|(word, token)| token.fits(word.as_ref()));
            here.count() == tokens.len()
        };
        let phrases = self.whole.get(first).into_iter().flatten().chain(&self.begun);
        phrases.filter(fits).map(Vec::len).max().unwrap_or_default()
    }

    fn may_start(&self, word: &str) -> bool {
        let place = start(word);
        self.starts[place / 64] & (1 << (place % 64)) != 0
    }

    /// Whether it has no phrase.
    pub fn is_empty(&self) -> bool {
        self.starts == [0; 4]
    }

    /// Whether a single word, in the singular, is told.
    pub fn has(&self, word: &str) -> bool {
        self.at(&[word], 0) == 1
    }

    /// The place of the first phrase in some words.
    pub fn find<W: AsRef<str>>(&self, words: &[W]) -> Option<usize> {
        (0..words.len()).find(|at| self.at(words, *at) > 0)
    }

    /// Whether a text has any of the phrases.
    pub fn is_in(&self, text: &str) -> bool {
        self.find(&words(text)).is_some()
    }
}

/// A place, from 0 to 255, for the first two bytes of a word.
fn start(word: &str) -> usize {
    let [first, second] = [0, 1].map(|at| word.as_bytes().get(at).copied().map_or(0, usize::from));
    (first * 31 + second) % 256
}

fn tokens(part: &str) -> Vec<Token> {
    let (part, open) = part.strip_suffix('*').map_or((part, false), |part| (part, true));
    let mut tokens: Vec<Token> = words(part).into_iter().map(|Word { stem, .. }| Token::Whole(stem)).collect();
    if open && let Some(Token::Whole(_)) = tokens.pop() {
        let last = part.rsplit(|c: char| !(c.is_alphanumeric() || c == '\'' || c == '’')).next().unwrap_or(part);
        tokens.push(Token::Begun(without_accents(last)));
    }
    tokens
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lexicon(phrases: &[&str]) -> Lexicon {
        let mut lexicon = Lexicon::default();
        lexicon.add(&phrases.iter().map(|phrase| (*phrase).to_string()).collect::<Vec<_>>());
        lexicon
    }

    #[test]
    fn words_phrases_and_beginnings_are_found() {
        let case = |phrases: &[&str], text: &str, wanted: bool| {
            assert_eq!(lexicon(phrases).is_in(text), wanted, "{phrases:?} in {text}");
        };
        case(&["jam"], "two jams", true);
        case(&["jam"], "jambon", false);
        case(&["caramel*"], "Caramélisez le sucre", true);
        case(&["caramel*"], "the caramels", true);
        case(&["deep fry*"], "deep-frying them", true);
        case(&["deep fry*"], "a deep pan; fry", false);
        case(&["deep fry*"], "deep", false);
        case(&["bain d’huile"], "dans un bain d'huile", true);
        case(&["nut"], "minutes and nutmeg", false);
        case(&["crème brûlée"], "creme brulee", true);
        case(&[""], "anything", false);
        case(&["*"], "anything", false);
    }

    #[test]
    fn the_longest_phrase_counts() {
        let said = words("dry ice cream");
        assert_eq!(lexicon(&["dry", "dry ice"]).at(&said, 0), 2);
        assert_eq!(lexicon(&["dry", "dry ice"]).at(&said, 2), 0);
    }
}
