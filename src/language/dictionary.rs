use std::borrow::Cow;

use rustc_hash::FxHashMap;

use super::plurals::Plurals;
use super::section::{LanguageError, LineWords, Section, TimeWords, sections};
use crate::measure::{Number, Unit};

/// What a word means inside an amount.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AmountWord {
    /// A unit, and how many of it the word stands for.
    Unit(Unit, i64),
    /// A number.
    Number(Number),
    /// A size: `large`.
    Size(Unit),
    /// `about`.
    About,
    /// `scant`.
    Scant,
    /// `heaped`.
    Heaped,
    /// `level`.
    Level,
    /// `or`.
    Or,
    /// `to`.
    To,
    /// `plus`.
    Plus,
    /// `minus`.
    Minus,
    /// `of`.
    Of,
    /// `x`, as in `2 x 400 g`.
    Times,
    /// `each`.
    Each,
    /// An amount that nobody measures: `handful`.
    Vague,
}

/// The words for amounts of one language, for reading.
#[derive(Clone, Debug)]
pub struct Dictionary {
    language: String,
    exact: FxHashMap<String, Unit>,
    words: FxHashMap<String, AmountWord>,
    /// First words of phrases, with the number of words in the longest.
    starters: FxHashMap<String, usize>,
    lines: Vec<LineWords>,
    times: TimeWords,
    plurals: Plurals,
}

impl Dictionary {
    /// The dictionary of a language, English words with it.
    ///
    /// # Errors
    /// [`LanguageError::UnknownLanguage`] where there is none.
    pub fn of(language: &str) -> Result<Self, LanguageError> {
        let mut dictionary = Self {
            language: language.into(),
            exact: FxHashMap::default(),
            words: FxHashMap::default(),
            starters: FxHashMap::default(),
            lines: Vec::new(),
            times: TimeWords::default(),
            plurals: Plurals::default(),
        };
        for section in sections(language)? {
            dictionary.add(section.clone());
        }
        Ok(dictionary)
    }

    /// Its language: `en-GB`.
    pub fn language(&self) -> &str {
        &self.language
    }

    /// The words of a line that are no part of an amount, those of the base first.
    pub fn lines(&self) -> &[LineWords] {
        &self.lines
    }

    /// How it makes many of one.
    pub fn plurals(&self) -> &Plurals {
        &self.plurals
    }

    /// The words of a length of time.
    pub fn times(&self) -> &TimeWords {
        &self.times
    }

    fn add(&mut self, section: Section) {
        self.lines.push(section.line);
        self.times.add(&section.time);
        if let Some(plurals) = section.plurals {
            self.plurals = plurals;
        }
        self.exact.extend(section.exact);
        for (unit, forms) in section.read {
            self.add_all(forms, AmountWord::Unit(unit, 1));
        }
        for (form, unit) in section.double {
            self.add_all(vec![form], AmountWord::Unit(unit, 2));
        }
        for (size, forms) in section.sizes {
            self.add_all(forms, AmountWord::Size(size));
        }
        for (number, forms) in section.numbers {
            let number = number.parse().expect("the embedded numbers are well formed");
            self.add_all(forms, AmountWord::Number(number));
        }
        self.add_all(section.about, AmountWord::About);
        self.add_all(section.scant, AmountWord::Scant);
        self.add_all(section.heaped, AmountWord::Heaped);
        self.add_all(section.level, AmountWord::Level);
        self.add_all(section.or, AmountWord::Or);
        self.add_all(section.to, AmountWord::To);
        self.add_all(section.plus, AmountWord::Plus);
        self.add_all(section.minus, AmountWord::Minus);
        self.add_all(section.of, AmountWord::Of);
        self.add_all(section.times, AmountWord::Times);
        self.add_all(section.each, AmountWord::Each);
        self.add_all(section.vague, AmountWord::Vague);
    }

    fn add_all(&mut self, forms: Vec<String>, reading: AmountWord) {
        for form in forms {
            let count = form.split(' ').count();
            if count > 1 {
                let first = form.split(' ').next().unwrap_or_default().to_string();
                let longest = self.starters.entry(first).or_default();
                *longest = count.max(*longest);
            }
            self.words.insert(form, reading);
        }
    }

    /// A single word, case as written; a full stop at its end must be gone already.
    pub fn word(&self, word: &str) -> Option<AmountWord> {
        if let Some(unit) = self.exact.get(word) {
            return Some(AmountWord::Unit(*unit, 1));
        }
        if word.bytes().all(|b| !b.is_ascii_uppercase()) {
            return self.words.get(word).copied();
        }
        self.words.get(lower(word).as_ref()).copied()
    }

    /// How many words the longest phrase that starts with this word has; one where there is none.
    pub fn longest_from(&self, first: &str) -> usize {
        self.starters.get(lower(first).as_ref()).copied().unwrap_or(1)
    }
}

/// A word in lower case, which most words are already.
fn lower(word: &str) -> Cow<'_, str> {
    match word.bytes().all(|b| b.is_ascii() && !b.is_ascii_uppercase()) {
        true => Cow::Borrowed(word),
        false => Cow::Owned(word.to_lowercase()),
    }
}
