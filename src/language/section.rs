use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;
use serde_json::Value;

use super::names::{NameWords, SiteWords};
use super::phrases::{ChangeSection, GroupSection, HazardSection};
use super::plurals::Plurals;
use super::says::Message;
use super::sense::Sense;
use super::spelling::{MeasureWords, Spelling};
use crate::measure::Unit;

/// Every language as JSON, made of the files beside this one when the program is built.
pub(super) const DATA: &str = include_str!(concat!(env!("OUT_DIR"), "/languages.json"));

static ALL: LazyLock<BTreeMap<String, Section>> =
    LazyLock::new(|| serde_json::from_str(DATA).unwrap_or_else(|error| panic!("{}", fault(DATA, &error.to_string()))));

/// Where the text of all languages is wrong: file, key and what is wrong of it; `otherwise` where nothing tells.
///
/// Serde would tell a column of the joined text. No key needs another, so each is read alone.
fn fault(data: &str, otherwise: &str) -> String {
    let all: BTreeMap<String, Value> = serde_json::from_str(data).unwrap_or_default();
    let found = all.iter().find_map(|(tag, section)| Some((tag, key_at_fault(section, &|section| section)?)));
    found.map_or(otherwise.to_string(), |(tag, (key, error))| format!("src/language/{tag}.yaml: `{key}`: {error}"))
}

/// The key that is wrong alone, and the innermost; `around` puts back what stands around a value.
fn key_at_fault(value: &Value, around: &dyn Fn(Value) -> Value) -> Option<(String, String)> {
    let error = serde_json::from_value::<Section>(around(value.clone())).err()?;
    let inner = value.as_object()?.iter().find_map(|(key, value)| {
        let alone = |value: Value| around(Value::Object([(key.clone(), value)].into_iter().collect()));
        let error = serde_json::from_value::<Section>(alone(value.clone())).err()?.to_string();
        let (inner, error) = key_at_fault(value, &alone).unwrap_or_else(|| (String::new(), error));
        Some((if inner.is_empty() { key.clone() } else { format!("{key}.{inner}") }, error))
    });
    inner.or_else(|| Some((String::new(), error.to_string())))
}

/// A language that cannot be had.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LanguageError {
    /// The language is not in the data.
    #[error("no words for the language `{0}`; there are: {1}")]
    UnknownLanguage(String, String),
    /// Words are given for a key that nothing asks for.
    #[error("no words are kept under `{0}`; the nearest key is `{1}`")]
    UnknownKey(String, String),
}

/// One language's file; `en-US.yaml` says what each key is for.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub(super) struct Section {
    pub(super) base: Option<String>,
    pub(super) decimal: Option<char>,
    pub(super) thousands: Option<String>,
    pub(super) plural_from: Option<i64>,
    pub(super) head_first: bool,
    pub(super) pinch: Option<String>,
    pub(super) to_taste: Option<String>,
    pub(super) weigh: Option<String>,
    pub(super) range: Option<String>,
    pub(super) beaten: Option<String>,
    pub(super) show: BTreeMap<Unit, Vec<String>>,
    pub(super) read: BTreeMap<Unit, Vec<String>>,
    pub(super) exact: BTreeMap<String, Unit>,
    pub(super) double: BTreeMap<String, Unit>,
    pub(super) sizes: BTreeMap<Unit, Vec<String>>,
    pub(super) numbers: BTreeMap<String, Vec<String>>,
    pub(super) about: Vec<String>,
    pub(super) scant: Vec<String>,
    pub(super) heaped: Vec<String>,
    pub(super) level: Vec<String>,
    pub(super) or: Vec<String>,
    pub(super) to: Vec<String>,
    pub(super) plus: Vec<String>,
    pub(super) minus: Vec<String>,
    pub(super) of: Vec<String>,
    pub(super) times: Vec<String>,
    pub(super) each: Vec<String>,
    pub(super) vague: Vec<String>,
    pub(super) line: LineWords,
    pub(super) spelling: Spelling,
    pub(super) measures: MeasureWords,
    pub(super) names: NameWords,
    pub(super) site: SiteWords,
    pub(super) time: TimeWords,
    pub(super) plurals: Option<Plurals>,
    pub(super) differences: Differences,
    pub(super) days: Option<[String; 2]>,
    pub(super) hours: Option<[String; 2]>,
    pub(super) minutes: Option<[String; 2]>,
    pub(super) seconds: Option<[String; 2]>,
    pub(super) about_time: Option<String>,
    pub(super) date: Option<String>,
    pub(super) first_day: Option<String>,
    pub(super) months: Option<[String; 12]>,
    pub(super) partitive: Option<Partitive>,
    pub(super) stems: BTreeMap<String, String>,
    pub(super) senses: BTreeMap<Sense, Vec<String>>,
    pub(super) hazards: BTreeMap<String, HazardSection>,
    pub(super) groups: Vec<GroupSection>,
    pub(super) states: Vec<ChangeSection>,
    pub(super) makes: Vec<ChangeSection>,
    pub(super) kinds: BTreeMap<String, String>,
    pub(super) says: BTreeMap<String, Message>,
}

/// The words of an ingredient line that are no part of an amount.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct LineWords {
    /// What is taken from a fruit, pod or egg: `juice of 1 lemon`.
    pub parts: Vec<String>,
    /// How such a part is named; {thing} in the singular.
    pub part_name: String,
    /// The same before a vowel.
    pub part_name_elided: String,
    /// The letters that count as one.
    pub elided_before: String,
    /// Words that may stand before a part: `finely grated zest of`.
    pub qualities: Vec<String>,
    /// Words between the part and the amount, besides `of`.
    pub from: Vec<String>,
    /// Words before the temperature of what is listed: `water at 22 °C`.
    pub at: Vec<String>,
    /// End a name where they start, and are a remark.
    pub phrases: Vec<Vec<String>>,
    /// Words that start a remark, whatever follows.
    pub purpose: Vec<String>,
    /// A comma after them does not end a name: `boneless, skinless chicken thighs`.
    pub adjectives: Vec<Vec<String>>,
    /// How a cup is filled, where it stands before or behind the unit: `1 packed cup`, `1 cup packed (220 g)`.
    pub manners: Vec<String>,
    /// Those of the manners that say how full the cup is, so that they are no part of the name.
    pub fills: Vec<String>,
    /// End the name of a component, where it stands before a colon or a dash: `Glaze: 1 cup icing sugar`.
    pub headings: Vec<Vec<String>>,
    /// As headings, where nothing else stands before the mark: `cream` also ends the names of ingredients.
    pub sole_headings: Vec<Vec<String>>,
    /// Make a number part of a name: `9-inch`, `20 cm`.
    pub lengths: Vec<String>,
    /// Start a range.
    pub between: Vec<String>,
    /// End an amount and say that it is about right.
    pub or_so: Vec<String>,
    /// Before a further amount in a remark: `2 eggs plus 1 yolk`.
    pub more: Vec<String>,
    /// Before another choice with its own amount: `12 g fresh yeast or 4 g instant`.
    pub instead: Vec<String>,
    /// Stand in place of an amount.
    pub unmeasured: Vec<String>,
    /// Say that a line may be left out.
    pub optional: Vec<String>,
    /// Say that as much is taken as tastes good.
    pub to_taste: Vec<String>,
    /// Before a number, where it says that it is about right and else is a unit: `c`.
    pub circa: Vec<String>,
    /// Behind a number that belongs to the name: `35 percent cream`.
    pub percent: Vec<String>,
    /// Ends of a number that counts no amount: `2nd`.
    pub ordinals: Vec<String>,
    /// Said in brackets behind a unit: `1 cup(s)`.
    pub plural_marks: Vec<String>,
    /// Behind a number, make twelve of each.
    pub dozens: Vec<String>,
    /// Ends of words that say how a thing is.
    pub state_ends: Vec<String>,
    /// Before the size of a can: `No. 2`.
    pub numbered: Vec<String>,
    /// Begin names whose clove is a pod.
    pub pods: Vec<String>,
    /// Begin names of which the seeds alone are a remark and no name: `seeds of 1 vanilla pod`.
    pub seeded: Vec<String>,
    /// The seeds.
    pub seeds: Vec<String>,
    /// The remark.
    pub seeds_only: String,
    /// Begin names whose leaves are sheets.
    pub in_sheets: Vec<String>,
    /// Begin names of which cloves are counted.
    pub in_cloves: Vec<String>,
}

/// The words of a length of time.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct TimeWords {
    /// Before a length that is not meant exactly: `about`.
    pub about: Vec<String>,
    /// A night, in which nobody looks: `overnight`.
    pub overnight: Vec<String>,
    /// Between the ends of a range: `to`.
    pub range: Vec<String>,
    /// Between the parts of one length: `and`.
    pub and: Vec<String>,
    /// Lengths that are said in words, and the same in figures: `half an hour`.
    pub spoken: BTreeMap<String, String>,
    /// The units.
    pub units: BTreeMap<TimeUnit, Vec<String>>,
}

/// A unit of time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TimeUnit {
    /// Second.
    Second,
    /// Minute.
    Minute,
    /// Hour.
    Hour,
    /// Day.
    Day,
    /// Week.
    Week,
}

impl TimeUnit {
    /// How many seconds it has.
    pub fn seconds(self) -> u64 {
        match self {
            Self::Second => 1,
            Self::Minute => 60,
            Self::Hour => 3600,
            Self::Day => 86_400,
            Self::Week => 604_800,
        }
    }
}

impl TimeWords {
    /// The unit that a word in lower case means.
    pub fn unit(&self, word: &str) -> Option<TimeUnit> {
        self.units.iter().find(|(_, words)| words.iter().any(|known| known == word)).map(|(unit, _)| *unit)
    }

    pub(super) fn add(&mut self, other: &Self) {
        self.about.extend(other.about.iter().cloned());
        self.overnight.extend(other.overnight.iter().cloned());
        self.range.extend(other.range.iter().cloned());
        self.and.extend(other.and.iter().cloned());
        self.spoken.extend(other.spoken.clone());
        for (unit, words) in &other.units {
            self.units.entry(*unit).or_default().extend(words.iter().cloned());
        }
    }
}

/// Words by which a temperature is a difference: `by 20 °C`, `5 °C less`.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Differences {
    /// In front of it.
    pub before: Vec<String>,
    /// Behind it.
    pub behind: Vec<String>,
}

/// What stands between an amount and what it is of.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Partitive {
    pub(super) plain: String,
    /// Before a vowel.
    pub(super) elided: String,
    /// The letters that count as one.
    pub(super) before: String,
    /// Words that begin with one and are not elided.
    pub(super) except: Vec<String>,
}

/// The tags of all languages, in their order.
pub(super) fn tags() -> impl Iterator<Item = &'static str> {
    ALL.keys().map(String::as_str)
}

/// The sections of a language, its base first.
pub(super) fn sections(language: &str) -> Result<Vec<&'static Section>, LanguageError> {
    let unknown = || LanguageError::UnknownLanguage(language.into(), tags().collect::<Vec<_>>().join(", "));
    let section = ALL.get(language).ok_or_else(unknown)?;
    let base = section.base.as_ref().and_then(|base| ALL.get(base));
    Ok(base.into_iter().chain([section]).collect())
}

/// What the files of all languages hold.
pub(super) fn all() -> impl Iterator<Item = &'static Section> {
    ALL.values()
}

/// The words of all languages whose stem no ending tells.
pub(super) fn stems() -> impl Iterator<Item = (&'static str, &'static str)> {
    ALL.values().flat_map(|section| &section.stems).map(|(word, stem)| (word.as_str(), stem.as_str()))
}

#[cfg(test)]
mod tests {
    use super::fault;

    #[test]
    fn what_is_wrong_of_a_file_is_told_by_its_key() {
        let case = |data: &str, wanted: &str| {
            let said = fault(data, "line 1, column 8163");
            assert!(said.starts_with(wanted), "{said}");
        };
        case(r#"{"fr": {"days": ["jour"]}}"#, "src/language/fr.yaml: `days`: invalid length 1");
        case(r#"{"de": {"hazards": {"lye": {"say": 3}}}}"#, "src/language/de.yaml: `hazards.lye.say`: invalid type");
        case(r#"{"de": {"show": {"gramm": ["g"]}}}"#, "src/language/de.yaml: `show.gramm`: unknown variant");
        case(r#"{"de": {"word": "g"}}"#, "src/language/de.yaml: `word`: unknown field");
        case(
            r#"{"de": {"line": {"parts": ["Saft"], "form": []}}}"#,
            "src/language/de.yaml: `line.form`: unknown field",
        );
    }
}
