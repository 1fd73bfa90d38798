use std::borrow::Cow;
use std::collections::BTreeMap;

use rustc_hash::FxHashMap;
use serde::Deserialize;

use super::{LevelMeasure, Number, Unit, Weight, decimals, kitchen};

const DATA: &str = include_str!("words.yaml");

/// The words for amounts of one language, for printing.
#[derive(Clone, Debug)]
pub struct Words {
    decimal: char,
    thousands: String,
    /// From this number on a unit is in the plural: above 1 in English, from 2 in French.
    plural_from: Number,
    units: FxHashMap<Unit, (String, String)>,
    /// `a pinch`.
    pub pinch: String,
    /// `to taste`.
    pub to_taste: String,
    /// `weigh`: what must not be measured by spoon.
    pub weigh: String,
    /// Between the ends of a range: `to`.
    pub to: String,
    /// What the remainder of an egg is called: `beaten`.
    pub beaten: String,
}

/// What a word means inside an amount.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reading {
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
    words: FxHashMap<String, Reading>,
    /// First words of phrases, with the number of words in the longest.
    starters: FxHashMap<String, usize>,
}

/// Words that cannot be had.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum WordsError {
    /// The language is not in the data.
    #[error("no words for the language `{0}`; there are: {1}")]
    UnknownLanguage(String, String),
}

#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
struct Section {
    base: Option<String>,
    decimal: Option<char>,
    thousands: Option<String>,
    plural_from: Option<i64>,
    pinch: Option<String>,
    to_taste: Option<String>,
    weigh: Option<String>,
    range: Option<String>,
    beaten: Option<String>,
    show: BTreeMap<Unit, Vec<String>>,
    read: BTreeMap<Unit, Vec<String>>,
    exact: BTreeMap<String, Unit>,
    double: BTreeMap<String, Unit>,
    sizes: BTreeMap<Unit, Vec<String>>,
    numbers: BTreeMap<String, Vec<String>>,
    about: Vec<String>,
    scant: Vec<String>,
    heaped: Vec<String>,
    level: Vec<String>,
    or: Vec<String>,
    to: Vec<String>,
    plus: Vec<String>,
    minus: Vec<String>,
    of: Vec<String>,
    times: Vec<String>,
    each: Vec<String>,
    vague: Vec<String>,
}

/// The sections of a language, its base first.
fn sections(language: &str) -> Result<Vec<Section>, WordsError> {
    let all: BTreeMap<String, Section> = serde_yaml::from_str(DATA).expect("the embedded words are well formed");
    let unknown = || WordsError::UnknownLanguage(language.into(), all.keys().cloned().collect::<Vec<_>>().join(", "));
    let section = all.get(language).ok_or_else(unknown)?;
    let base = section.base.as_ref().and_then(|base| all.get(base));
    Ok(base.into_iter().chain([section]).cloned().collect())
}

impl Words {
    /// The words of `en-US`, `en-GB` or `fr`.
    ///
    /// # Errors
    /// [`WordsError::UnknownLanguage`] for any other.
    pub fn of(language: &str) -> Result<Self, WordsError> {
        let mut words = Words {
            decimal: '.',
            thousands: ",".into(),
            plural_from: Number::from_integer(1),
            units: FxHashMap::default(),
            pinch: String::new(),
            to_taste: String::new(),
            weigh: String::new(),
            to: String::new(),
            beaten: String::new(),
        };
        for section in sections(language)? {
            words.decimal = section.decimal.unwrap_or(words.decimal);
            words.thousands = section.thousands.unwrap_or(words.thousands);
            words.plural_from = section.plural_from.map_or(words.plural_from, Number::from_integer);
            words.pinch = section.pinch.unwrap_or(words.pinch);
            words.to_taste = section.to_taste.unwrap_or(words.to_taste);
            words.weigh = section.weigh.unwrap_or(words.weigh);
            words.to = section.range.unwrap_or(words.to);
            words.beaten = section.beaten.unwrap_or(words.beaten);
            for (unit, forms) in section.show {
                let one = forms.first().cloned().unwrap_or_default();
                let many = forms.get(1).cloned().unwrap_or_else(|| one.clone());
                words.units.insert(unit, (one, many));
            }
        }
        Ok(words)
    }

    /// A unit's word for a number of it: `cup` up to one, else `cups`; French has the plural from two on.
    pub fn unit(&self, unit: Unit, number: Number) -> &str {
        let one_is_enough = number <= Number::from_integer(1) || number < self.plural_from;
        match self.units.get(&unit) {
            Some((one, _)) if one_is_enough => one,
            Some((_, many)) => many,
            None => unit.name(),
        }
    }

    /// A number with kitchen fractions: `1 1/2`.
    pub fn number(&self, number: Number) -> String {
        kitchen(number, self.decimal)
    }

    /// A number with its unit: `1 1/2 cups`.
    pub fn amount(&self, number: Number, unit: Unit) -> String {
        format!("{} {}", kitchen(number, self.decimal), self.unit(unit, number))
    }

    /// A level measure: `1 1/4 cups`, `1/3 cup + 1 tbsp`.
    pub fn level(&self, measure: LevelMeasure) -> String {
        let parts: Vec<String> = measure.amounts().map(|(number, unit)| self.part(number, unit)).collect();
        parts.join(" + ")
    }

    /// Eighths that take two spoons are named as the two spoons.
    fn part(&self, number: Number, unit: Unit) -> String {
        let eighth = Number::new(1, 8);
        if unit == Unit::Tsp && *number.denom() == 8 && *number.numer() > 1 && number < Number::from_integer(1) {
            return format!("{} + {}", self.amount(number - eighth, unit), self.amount(eighth, unit));
        }
        self.amount(number, unit)
    }

    /// A weight for showing: `0.4 g`, `7.5 g`, `1,240 g`.
    pub fn weight(&self, weight: Weight) -> String {
        format!("{} {}", self.grams(weight), self.unit(Unit::G, Number::from_integer(1)))
    }

    /// Two weights for showing, as one where both show the same.
    pub fn weights(&self, low: Weight, high: Weight) -> String {
        if low.shown_decigrams() == high.shown_decigrams() {
            return self.weight(high);
        }
        format!("{}–{}", self.grams(low), self.weight(high))
    }

    fn grams(&self, weight: Weight) -> String {
        let tenths = weight.shown_decigrams();
        let whole = (tenths / 10).to_string();
        let mut said = String::new();
        for (place, digit) in whole.chars().enumerate() {
            if place > 0 && (whole.len() - place).is_multiple_of(3) {
                said.push_str(&self.thousands);
            }
            said.push(digit);
        }
        if tenths % 10 != 0 {
            said.push(self.decimal);
            said.push_str(&(tenths % 10).to_string());
        }
        said
    }

    /// A number with at most `places` decimals and this language's decimal mark.
    pub fn decimal(&self, number: Number, places: u32) -> String {
        decimals(number, places, self.decimal)
    }
}

impl Dictionary {
    /// The dictionary of a language, English words with it.
    ///
    /// # Errors
    /// [`WordsError::UnknownLanguage`] where there is none.
    pub fn of(language: &str) -> Result<Self, WordsError> {
        let mut dictionary = Self {
            language: language.into(),
            exact: FxHashMap::default(),
            words: FxHashMap::default(),
            starters: FxHashMap::default(),
        };
        for section in sections(language)? {
            dictionary.add(section);
        }
        Ok(dictionary)
    }

    /// Its language: `en-GB`.
    pub fn language(&self) -> &str {
        &self.language
    }

    fn add(&mut self, section: Section) {
        self.exact.extend(section.exact);
        for (unit, forms) in section.read {
            self.add_all(forms, Reading::Unit(unit, 1));
        }
        for (form, unit) in section.double {
            self.add_all(vec![form], Reading::Unit(unit, 2));
        }
        for (size, forms) in section.sizes {
            self.add_all(forms, Reading::Size(size));
        }
        for (number, forms) in section.numbers {
            let number = number.parse().expect("the embedded numbers are well formed");
            self.add_all(forms, Reading::Number(number));
        }
        self.add_all(section.about, Reading::About);
        self.add_all(section.scant, Reading::Scant);
        self.add_all(section.heaped, Reading::Heaped);
        self.add_all(section.level, Reading::Level);
        self.add_all(section.or, Reading::Or);
        self.add_all(section.to, Reading::To);
        self.add_all(section.plus, Reading::Plus);
        self.add_all(section.minus, Reading::Minus);
        self.add_all(section.of, Reading::Of);
        self.add_all(section.times, Reading::Times);
        self.add_all(section.each, Reading::Each);
        self.add_all(section.vague, Reading::Vague);
    }

    fn add_all(&mut self, forms: Vec<String>, reading: Reading) {
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
    pub fn word(&self, word: &str) -> Option<Reading> {
        if let Some(unit) = self.exact.get(word) {
            return Some(Reading::Unit(*unit, 1));
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
