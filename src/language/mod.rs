//! WORDS: one file a language, with all that is read and said in it.

mod changes;
mod dictionary;
mod groups;
mod hazards;
mod lexicon;
mod names;
mod phrases;
mod plurals;
mod says;
mod section;
mod sense;
mod shared;
mod spelling;
mod stem;
mod telling;
mod word;
mod words;

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::measure::{Duration, Unit};

pub use changes::StateChange;
pub use dictionary::{AmountWord, Dictionary};
pub use groups::Group;
pub use hazards::HazardWords;
pub use lexicon::Lexicon;
pub use names::{NameWords, SiteWords};
pub use plurals::Plurals;
use says::Message;
pub use section::{Differences, LanguageError, LineWords, TimeUnit, TimeWords};
use section::{Partitive, Section, sections};
pub use sense::Sense;
pub use shared::{half_joined, is_elided_in_lines, measure_words, owned};
pub use spelling::MeasureWords;
pub(crate) use stem::{singular, without_accents};
use telling::{Lazily, Telling};
pub use word::{Word, clause, sentence, sentence_at};
pub use words::Words;

/// A language as levelcup writes it and understands recipes in it.
#[derive(Clone, Debug)]
pub struct Language {
    tag: String,
    words: Words,
    /// From this number on, whole things are many.
    plural_from: i64,
    /// Whether the head of a name is its first word: `beurre froid`.
    head_first: bool,
    durations: [[String; 2]; 4],
    about_time: String,
    date: String,
    first_day: Option<String>,
    months: Vec<String>,
    partitive: Partitive,
    telling: Lazily,
    /// What is read as a unit.
    units: BTreeMap<String, Unit>,
    /// Counts in words.
    counts: BTreeMap<String, i64>,
    /// What says that a line may be left out, or is taken to taste.
    flags: Vec<String>,
    times: TimeWords,
    differences: Differences,
    plurals: Plurals,
    names: NameWords,
    site: SiteWords,
    kinds: BTreeMap<String, String>,
    says: BTreeMap<String, Message>,
}

impl Default for Language {
    /// American English.
    fn default() -> Self {
        Self::of("en-US").expect("the embedded languages hold it")
    }
}

impl Language {
    /// The language of a tag, as in [`Language::tags`].
    ///
    /// # Errors
    /// [`LanguageError::UnknownLanguage`] for any other.
    pub fn of(tag: &str) -> Result<Self, LanguageError> {
        let mut language = Self {
            tag: tag.into(),
            words: Words::of(tag)?,
            plural_from: 2,
            head_first: false,
            durations: Default::default(),
            about_time: String::new(),
            date: String::new(),
            first_day: None,
            months: Vec::new(),
            partitive: Partitive::default(),
            telling: Lazily::default(),
            units: BTreeMap::new(),
            counts: BTreeMap::new(),
            flags: Vec::new(),
            times: TimeWords::default(),
            differences: Differences::default(),
            plurals: Plurals::default(),
            names: NameWords::default(),
            site: SiteWords::default(),
            kinds: BTreeMap::new(),
            says: BTreeMap::new(),
        };
        for section in sections(tag)? {
            language.add(section);
        }
        Ok(language)
    }

    /// The same with other words under some keys.
    ///
    /// # Errors
    /// [`LanguageError::UnknownKey`] for a key that nothing asks for.
    pub fn with(mut self, words: &BTreeMap<String, String>) -> Result<Self, LanguageError> {
        for (key, text) in words {
            let Some(message) = self.says.get_mut(key) else {
                return Err(LanguageError::UnknownKey(key.clone(), self.nearest(key)));
            };
            *message = Message::Plain(text.clone());
        }
        Ok(self)
    }

    /// The key that is most like another text.
    pub fn nearest(&self, key: &str) -> String {
        let likeness = |known: &&String| (strsim::jaro_winkler(key, known) * 1e6) as u64;
        self.says.keys().max_by_key(likeness).cloned().unwrap_or_default()
    }

    /// The tags of all languages.
    pub fn tags() -> impl Iterator<Item = &'static str> {
        section::tags()
    }

    fn add(&mut self, section: &Section) {
        let units = [&section.days, &section.hours, &section.minutes, &section.seconds];
        for (own, other) in self.durations.iter_mut().zip(units) {
            if let Some(other) = other {
                own.clone_from(other);
            }
        }
        self.head_first |= section.head_first;
        let set = |own: &mut String, other: &Option<String>| own.clone_from(other.as_ref().unwrap_or(&own.clone()));
        set(&mut self.about_time, &section.about_time);
        set(&mut self.date, &section.date);
        self.first_day = section.first_day.clone().or(self.first_day.take());
        if let Some(months) = &section.months {
            self.months = months.to_vec();
        }
        self.partitive = section.partitive.clone().unwrap_or(std::mem::take(&mut self.partitive));
        // A recipe may be written in the base language too: its words are known beside this one's.
        let forms = section.read.iter().flat_map(|(unit, forms)| forms.iter().map(|form| (form.clone(), *unit)));
        self.units.extend(forms);
        for (number, words) in &section.numbers {
            let number: Option<i64> = number.parse().ok();
            self.counts
                .extend(number.into_iter().flat_map(|number| words.iter().map(move |word| (word.clone(), number))));
        }
        self.flags.extend(section.line.optional.iter().chain(&section.line.to_taste).cloned());
        self.times.add(&section.time);
        self.names.add(&section.names);
        self.site.add(&section.site);
        self.differences.before.extend(section.differences.before.iter().cloned());
        self.differences.behind.extend(section.differences.behind.iter().cloned());
        if let Some(plurals) = &section.plurals {
            self.plurals.clone_from(plurals);
        }
        self.kinds.extend(section.kinds.clone());
        self.says.extend(section.says.clone());
    }

    /// Its BCP 47 tag.
    pub fn tag(&self) -> &str {
        &self.tag
    }

    /// The tag of the language whose words are read beside its own.
    pub fn base(&self) -> Option<&'static str> {
        sections(&self.tag).ok()?.last()?.base.as_deref()
    }

    /// Its words for amounts.
    pub fn words(&self) -> &Words {
        &self.words
    }

    /// How it makes many of one.
    pub fn plurals(&self) -> &Plurals {
        &self.plurals
    }

    /// Its words about the names of ingredients.
    pub fn names(&self) -> &NameWords {
        &self.names
    }

    /// Its words of the archive.
    pub fn site(&self) -> &SiteWords {
        &self.site
    }

    /// The words of a length of time.
    pub fn times(&self) -> &TimeWords {
        &self.times
    }

    /// Words by which a temperature is a difference, in lower case.
    pub fn differences(&self) -> &Differences {
        &self.differences
    }

    /// What readers see in the place of a key, with `{name}`s filled in; `None` where there is no such key.
    pub fn find(&self, key: &str, with: &[(&str, &str)]) -> Option<String> {
        self.says.get(key).map(|message| message.filled(with, self.plural_from))
    }

    /// The same for a key of the program's own; the key itself where a language lacks it, which a test forbids.
    pub fn say(&self, key: &str, with: &[(&str, &str)]) -> String {
        self.find(key, with).unwrap_or_else(|| key.to_string())
    }

    /// All keys, in order.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.says.keys().map(String::as_str)
    }

    /// What stands between an amount and a name: nothing in English, `de ` or `d’` in French.
    pub fn partitive(&self, name: &str) -> &str {
        let Partitive { plain, elided, before, except } = &self.partitive;
        let first = name.split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default().to_lowercase();
        let vowel = first.chars().next().is_some_and(|letter| before.contains(letter));
        if vowel && !except.contains(&first) { elided } else { plain }
    }

    /// The name of a kind of nut, fish or crustacean, which the pantry has in English.
    pub fn kind<'a>(&'a self, kind: &'a str) -> &'a str {
        self.kinds.get(kind).map_or(kind, String::as_str)
    }

    /// A remark without what is told of the line in words of its own: that it may be left out, or is taken to taste.
    pub fn without_flags(&self, remark: &str) -> Option<String> {
        let told = |part: &&str| !self.flags.iter().any(|flag| *flag == part.to_lowercase());
        let rest: Vec<&str> = remark.split(';').map(str::trim).filter(told).collect();
        (!rest.is_empty()).then(|| rest.join("; "))
    }

    /// What an ingredient is called: by the pantry, which speaks English, else as the author wrote it.
    pub fn name<'a>(&self, in_pantry: &'a str, written: &'a str) -> &'a str {
        if self.tag.starts_with("en") { in_pantry } else { written }
    }

    /// An ISO 8601 date for reading, `July 4, 2026`; `None` where it is no date.
    pub fn day(&self, iso: &str) -> Option<String> {
        let date: Date = iso.parse().ok()?;
        let month = self.months.get(usize::from(date.month().unsigned_abs()).saturating_sub(1))?;
        let day = date.day().to_string();
        let day = self.first_day.as_ref().filter(|_| date.day() == 1).unwrap_or(&day);
        Some(self.date.replace("{day}", day).replace("{month}", month).replace("{year}", &date.year().to_string()))
    }

    /// A duration for reading: `1 h 20 min`, `22–25 min`, `2 days`. Days only from 48 hours up.
    pub fn duration(&self, duration: Duration) -> String {
        let part = |(number, unit): (u64, usize)| {
            let [one, many] = &self.durations[unit];
            format!("{number} {}", if number < 2 { one } else { many })
        };
        let single = |seconds: u64| {
            let parts: Vec<String> = Duration::parts(seconds).into_iter().map(part).collect();
            if parts.is_empty() { part((0, 2)) } else { parts.join(" ") }
        };
        if duration.low == duration.high {
            return single(duration.high);
        }
        match duration.shared() {
            Some((low, high, unit)) => format!("{low}–{}", part((high, unit))),
            None => format!("{} {} {}", single(duration.low), self.words.to, single(duration.high)),
        }
    }

    /// A sum of ranges for reading, by its longer end to five minutes: `about 9 h 35 min`.
    pub fn about(&self, duration: Duration) -> String {
        const FIVE_MINUTES: u64 = 300;
        if duration.low == duration.high {
            return self.duration(duration);
        }
        let rounded = Duration::seconds(duration.high.next_multiple_of(FIVE_MINUTES));
        self.about_time.replace("{time}", &self.duration(rounded))
    }

    fn telling(&self) -> &Telling {
        self.telling.of(&self.tag)
    }

    /// Whether the head of a name is its first word: `beurre froid`.
    pub fn is_head_first(&self) -> bool {
        self.head_first
    }

    /// The words of a running text, with what each tells in this language.
    pub fn read(&self, text: &str) -> Vec<Word> {
        self.telling().phrases.words(text)
    }

    /// The words and phrases that tell of something.
    pub fn lexicon(&self, of: Sense) -> Lexicon {
        self.telling().senses[of as usize]
    }

    /// Whether a text has one of the words that tell of something.
    pub fn tells(&self, of: Sense, text: &str) -> bool {
        self.lexicon(of).find(&self.read(text)).is_some()
    }

    /// The words of a hazard, by its name; `None` for a name that no hazard has.
    pub fn hazard(&self, name: &str) -> Option<&HazardWords> {
        self.telling().hazards.get(name)
    }

    /// The unit that a word means.
    pub fn unit(&self, word: &str) -> Option<Unit> {
        self.units.get(word).or_else(|| self.units.get(&word.to_lowercase())).copied()
    }

    /// The unit that a word is most like, where it is a slip of the fingers away from it and is none itself.
    pub fn unit_like(&self, word: &str) -> Option<&str> {
        let word = word.to_lowercase();
        let slip = |unit: &&String| {
            unit.len() > 2
                && **unit != word
                && unit.chars().next() == word.chars().next()
                && strsim::damerau_levenshtein(unit, &word) <= 1 + unit.len() / 8
        };
        let nearest = self
            .units
            .keys()
            .filter(slip)
            .min_by_key(|unit| (strsim::damerau_levenshtein(unit, &word), std::cmp::Reverse(unit.len())));
        nearest.filter(|_| word.len() > 2 && !self.units.contains_key(&word)).map(String::as_str)
    }

    /// The words by which a step speaks of several ingredients at once.
    pub fn groups(&self) -> &[Group] {
        &self.telling().groups
    }

    /// States of a line, and the orders that bring it there.
    pub fn states(&self) -> &[StateChange] {
        &self.telling().states
    }

    /// Things that steps make, and the orders that make them.
    pub fn makes(&self) -> &[StateChange] {
        &self.telling().makes
    }

    /// A count, in words or digits: `two`, `24`.
    pub fn count(&self, written: &str) -> Option<i64> {
        self.counts.get(written).copied().or_else(|| written.parse().ok())
    }
}

#[cfg(test)]
mod tests;
