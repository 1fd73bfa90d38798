//! Words and phrases by which something is told, found in running text.

use rustc_hash::FxHashMap;

use super::stem::without_accents;
use super::word::{ToldPhrase, Word, split};

/// Words and phrases that tell of one thing: whole words in any number, and the beginnings of longer ones.
///
/// Which of them begin at a word is written down with it when a text is read ([`Language::read`](super::Language::words)),
/// for all lexicons of the language at once: asking is then as cheap as looking at a number.
#[derive(Clone, Copy, Debug, Default)]
pub struct Lexicon {
    /// Its number in the phrasebook; none has 0.
    number: u16,
    any: bool,
}

impl Lexicon {
    /// How many words are one of the phrases, from a place on: of several the most; 0 where there is none.
    pub fn at(self, words: &[Word], at: usize) -> usize {
        let Some(word) = words.get(at) else { return 0 };
        let lengths = word.told.iter().filter(|told| told.lexicon == self.number).map(|told| usize::from(told.length));
        lengths.filter(|length| *length <= words.len() - at).max().unwrap_or_default()
    }

    /// Whether it has no phrase.
    pub fn is_empty(self) -> bool {
        !self.any
    }

    /// Whether a word alone is told.
    pub fn has(self, word: &Word) -> bool {
        word.told.contains(&ToldPhrase { lexicon: self.number, length: 1 })
    }

    /// The place of the first phrase in some words.
    pub fn find(self, words: &[Word]) -> Option<usize> {
        (0..words.len()).find(|at| self.at(words, *at) > 0)
    }
}

/// The phrases of all lexicons of a language, by how they begin.
#[derive(Clone, Debug, Default)]
pub(super) struct Phrasebook {
    /// By their first word.
    whole: FxHashMap<String, Vec<Phrase>>,
    /// Those whose first word is only begun, by its first two bytes.
    begun: FxHashMap<[u8; 2], Vec<Phrase>>,
    lexicons: u16,
}

#[derive(Clone, Debug)]
struct Phrase {
    lexicon: u16,
    tokens: Vec<PhraseToken>,
}

#[derive(Clone, Debug)]
enum PhraseToken {
    Whole(String),
    Begun(String),
}

impl PhraseToken {
    fn fits(&self, word: &str) -> bool {
        match self {
            Self::Whole(whole) => whole == word,
            Self::Begun(start) => word.starts_with(start.as_str()),
        }
    }
}

impl Phrasebook {
    /// Adds phrases to a lexicon as a language's file writes them: `deep fry*` is `deep` and what begins with `fry`.
    pub(super) fn add(&mut self, lexicon: &mut Lexicon, phrases: &[String]) {
        if lexicon.number == 0 {
            self.lexicons += 1;
            lexicon.number = self.lexicons;
        }
        for phrase in phrases {
            let tokens: Vec<PhraseToken> = phrase.split_whitespace().flat_map(tokens).collect();
            let phrases = match tokens.first() {
                Some(PhraseToken::Whole(first)) => self.whole.entry(first.clone()).or_default(),
                // One letter alone begins too much.
                Some(PhraseToken::Begun(first)) => match first.as_bytes() {
                    [first, second, ..] => self.begun.entry([*first, *second]).or_default(),
                    _ => continue,
                },
                None => continue,
            };
            phrases.push(Phrase { lexicon: lexicon.number, tokens });
            lexicon.any = true;
        }
    }

    /// The words of a text, and what each of them tells.
    pub(super) fn words(&self, text: &str) -> Vec<Word> {
        let mut words = split(text);
        for at in 0..words.len() {
            words[at].told = self.told(&words[at..]);
        }
        words
    }

    /// The phrases that some words begin with.
    fn told(&self, words: &[Word]) -> Vec<ToldPhrase> {
        let first = words[0].stem.as_str();
        let begun = match first.as_bytes() {
            [first, second, ..] => self.begun.get(&[*first, *second]),
            _ => None,
        };
        let phrases = self.whole.get(first).into_iter().chain(begun).flatten();
        let fits = |phrase: &&Phrase| {
            let tokens = &phrase.tokens;
            tokens.len() <= words.len() && tokens.iter().zip(words).all(|(token, word)| token.fits(&word.stem))
        };
        let told = |phrase: &Phrase| {
            let length = u16::try_from(phrase.tokens.len()).ok()?;
            Some(ToldPhrase { lexicon: phrase.lexicon, length })
        };
        phrases.filter(fits).filter_map(told).collect()
    }
}

fn tokens(part: &str) -> Vec<PhraseToken> {
    let (part, open) = part.strip_suffix('*').map_or((part, false), |part| (part, true));
    let mut tokens: Vec<PhraseToken> =
        split(part).into_iter().map(|Word { stem, .. }| PhraseToken::Whole(stem)).collect();
    if open && let Some(PhraseToken::Whole(_)) = tokens.pop() {
        let last = part.rsplit(|c: char| !(c.is_alphanumeric() || c == '\'' || c == '’')).next().unwrap_or(part);
        tokens.push(PhraseToken::Begun(without_accents(last)));
    }
    tokens
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lexicon(phrases: &[&str]) -> (Lexicon, Phrasebook) {
        let (mut lexicon, mut book) = (Lexicon::default(), Phrasebook::default());
        book.add(&mut lexicon, &phrases.iter().map(|phrase| (*phrase).to_string()).collect::<Vec<_>>());
        (lexicon, book)
    }

    #[test]
    fn words_phrases_and_beginnings_are_found() {
        let case = |phrases: &[&str], text: &str, wanted: bool| {
            let (lexicon, book) = lexicon(phrases);
            assert_eq!(lexicon.find(&book.words(text)).is_some(), wanted, "{phrases:?} in {text}");
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
    fn the_longest_phrase_that_fits_counts() {
        let (lexicon, book) = lexicon(&["dry", "dry ice"]);
        let said = book.words("dry ice cream");
        assert_eq!(lexicon.at(&said, 0), 2);
        assert_eq!(lexicon.at(&said[..1], 0), 1);
        assert_eq!(lexicon.at(&said, 2), 0);
        assert!(lexicon.has(&said[0]) && !lexicon.has(&said[1]));
    }

    #[test]
    fn lexicons_are_told_apart() {
        let (ice, mut book) = lexicon(&["ice"]);
        let mut cream = Lexicon::default();
        book.add(&mut cream, &["cream".to_string()]);
        let said = book.words("ice cream");
        assert_eq!([ice.find(&said), cream.find(&said), Lexicon::default().find(&said)], [Some(0), Some(1), None]);
        assert!(!cream.is_empty() && Lexicon::default().is_empty());
    }
}
