//! What kind a component is of, told by its name, the parts that are there and what is done; never by amounts, which a
//! slip would change.

use std::sync::LazyLock;

use rustc_hash::FxHashMap;

use super::groups;
use super::parts::{Amounts, LineShare};
use super::ranges::{ANY_DISH, Range, ranges};
use crate::facts::table::{self, list};
use crate::language::without_accents;

/// How each kind is told: what it is never with, words of its own, words that it shares, and words of its steps.
pub(super) const TELLING: &str = include_str!("telling.tsv");

static KINDS: LazyLock<Vec<KindTelling>> = LazyLock::new(|| table::rows(TELLING).map(KindTelling::of).collect());

/// Phrases by the first two bytes of their first word, each with its kind; those that are open, or shorter, stand under none.
struct KindIndex(FxHashMap<Option<[u8; 2]>, Vec<(&'static KindTelling, &'static KindPhrase)>>);

static OWN: LazyLock<KindIndex> = LazyLock::new(|| KindIndex::of(|kind| &kind.own));

static SHARED: LazyLock<KindIndex> = LazyLock::new(|| KindIndex::of(|kind| &kind.shared));

impl KindIndex {
    fn of(phrases: fn(&'static KindTelling) -> &'static [KindPhrase]) -> Self {
        let mut by_start: FxHashMap<_, Vec<(&'static KindTelling, &'static KindPhrase)>> = FxHashMap::default();
        for kind in KINDS.iter() {
            for phrase in phrases(kind) {
                by_start.entry(phrase.start).or_default().push((kind, phrase));
            }
        }
        Self(by_start)
    }

    /// Every phrase that stands in some words: its kind, the first word and the one behind the last, and whether nothing
    /// is between.
    fn hits(&self, words: &[String]) -> Vec<Hit> {
        let mut starts: Vec<Option<[u8; 2]>> = words.iter().map(|word| start(word)).chain([None]).collect();
        starts.sort_unstable();
        starts.dedup();
        let phrases = starts.iter().filter_map(|start| self.0.get(start)).flatten();
        phrases
            .filter_map(|(kind, phrase)| phrase.find(words).map(|(from, to, whole)| (from, to, whole, *kind)))
            .collect()
    }
}

type Hit = (usize, usize, bool, &'static KindTelling);

/// Words between those of a phrase.
const BETWEEN: usize = 2;

/// Words of names, by what they do: `silent` makes a formula unlike all others, `without` says that something is left out,
/// and behind what is `behind` something else is named, as in `crust for pork pie`.
pub(super) const WORDS: &str = include_str!("words.tsv");

static SILENT: LazyLock<Vec<&'static str>> = LazyLock::new(|| words_that("silent"));

static WITHOUT: LazyLock<Vec<&'static str>> = LazyLock::new(|| words_that("without"));

static BEHIND: LazyLock<Vec<&'static str>> = LazyLock::new(|| words_that("behind"));

/// The words of names that do something.
fn words_that(does: &str) -> Vec<&'static str> {
    let line = WORDS.lines().find_map(|line| line.strip_prefix(does)?.strip_prefix('\t'));
    list(line.unwrap_or_default()).collect()
}

struct KindTelling {
    name: &'static str,
    never: Vec<&'static str>,
    own: Vec<KindPhrase>,
    shared: Vec<KindPhrase>,
    says: Vec<KindPhrase>,
    never_says: Vec<KindPhrase>,
}

/// Words in order; `*` stands for letters at the beginning or end of one.
struct KindPhrase {
    words: Vec<String>,
    /// The first two bytes of the first word; none where it is open or shorter.
    start: Option<[u8; 2]>,
}

impl KindTelling {
    fn of(line: &'static str) -> Self {
        let mut cells = line.split('\t');
        let name = cells.next().unwrap_or_default();
        let mut list = || -> Vec<&'static str> {
            let cell = cells.next().unwrap_or_default();
            cell.split(';').map(str::trim).filter(|word| !word.is_empty()).collect()
        };
        let never = list();
        let phrases = |list: Vec<&str>| list.into_iter().map(KindPhrase::of).collect();
        let (own, shared, says) = (phrases(list()), phrases(list()), list());
        let (hush, says): (Vec<_>, Vec<_>) = says.into_iter().partition(|word| word.starts_with('!'));
        let never_says = phrases(hush.into_iter().map(|word| &word[1..]).collect());
        Self { name, never, own, shared, says: phrases(says), never_says }
    }
}

impl KindPhrase {
    fn of(text: &str) -> Self {
        let words = plain(text, true);
        let start = words.first().and_then(|first| start(first)).filter(|bytes| !bytes.contains(&b'*'));
        Self { words, start }
    }

    /// Where it stands in some words: the first and behind the last, and whether nothing is between.
    fn find(&self, words: &[String]) -> Option<(usize, usize, bool)> {
        let may_start = |at: &usize| self.start.is_none_or(|bytes| words[*at].as_bytes().starts_with(&bytes));
        (0..words.len()).filter(may_start).find_map(|start| {
            let mut at = start;
            for (place, pattern) in self.words.iter().enumerate() {
                let reach = if place == 0 { at..at + 1 } else { at..(at + 1 + BETWEEN).min(words.len()) };
                at = 1 + reach.into_iter().find(|at| words.get(*at).is_some_and(|word| fits(pattern, word)))?;
            }
            Some((start, at, at - start == self.words.len()))
        })
    }
}

fn start(word: &str) -> Option<[u8; 2]> {
    word.as_bytes().first_chunk().copied()
}

/// Whether a word is that of a pattern, or its plural.
fn fits(pattern: &str, word: &str) -> bool {
    let (open_start, open_end) = (pattern.starts_with('*'), pattern.ends_with('*'));
    let core = pattern.trim_matches('*');
    if core.is_empty() {
        return true;
    }
    let plural = |rest: &str| matches!(rest, "" | "s" | "es" | "n" | "e");
    match (open_start, open_end) {
        (true, true) => word.contains(core),
        (true, false) => word.ends_with(core) || word.rfind(core).is_some_and(|at| plural(&word[at + core.len()..])),
        (false, true) => word.starts_with(core),
        (false, false) => word.strip_prefix(core).is_some_and(plural),
    }
}

fn plain(text: &str, stars: bool) -> Vec<String> {
    let text = without_accents(text);
    let parts = text.split(|c: char| !(c.is_alphanumeric() || stars && c == '*'));
    parts.filter(|part| !part.is_empty()).map(str::to_string).collect()
}

/// The kinds that a component may be of; none where nothing tells it.
pub(super) fn kinds(
    name: &str,
    title: &str,
    steps: impl Fn() -> String,
    shares: &[LineShare],
    amounts: &Amounts,
) -> Vec<&'static str> {
    let both = format!("{name} {title}").to_lowercase();
    if SILENT.iter().any(|word| both.contains(word)) {
        return Vec::new();
    }
    let steps = std::cell::LazyCell::new(|| plain(&steps(), false));
    let possible = |kinds: Vec<&'static KindTelling>, strict: bool| -> Vec<&'static str> {
        let fit = |kind: &&'static KindTelling| {
            is_possible(kind, amounts, || steps.as_slice()) && (!strict || knows(kind, shares, true))
        };
        kinds.into_iter().filter(fit).map(|kind| kind.name).collect()
    };
    let mut told = told(name, title, possible);
    if told.is_empty() {
        told.push(ANY_DISH);
    }
    told
}

/// The kinds whose own words a name holds and that the parts allow: of a component with all that goes into it.
pub(super) fn surely(name: &str, steps: impl Fn() -> String, amounts: &Amounts) -> Vec<&'static str> {
    let steps = std::cell::LazyCell::new(|| plain(&steps(), false));
    let possible = |kind: &&'static KindTelling| is_possible(kind, amounts, || steps.as_slice());
    by_own_words(name).into_iter().filter(possible).map(|kind| kind.name).collect()
}

/// The kinds that the words alone tell, for what cannot be weighed.
pub(super) fn named(name: &str, title: &str) -> Vec<&'static str> {
    let of_name = by_own_words(name);
    let kinds = if of_name.is_empty() { by_own_words(title) } else { of_name };
    kinds.into_iter().map(|kind| kind.name).collect()
}

/// The kinds that the words tell and the parts allow, by the component's name before the dish's.
fn told(
    name: &str,
    title: &str,
    possible: impl Fn(Vec<&'static KindTelling>, bool) -> Vec<&'static str>,
) -> Vec<&'static str> {
    let of_name = by_own_words(name);
    if !of_name.is_empty() {
        return possible(of_name, false);
    }
    let of_title = by_own_words(title);
    let shared = by_shared_words(name);
    if shared.is_empty() {
        return possible(of_title, true);
    }
    let both: Vec<&'static KindTelling> =
        shared.iter().filter(|kind| of_title.iter().any(|other| other.name == kind.name)).copied().collect();
    if !both.is_empty() {
        return possible(both, false);
    }
    // The title says that it is something else: then both have to find it odd.
    let mut all = possible(shared, true);
    all.extend(possible(of_title, false));
    all
}

/// Whether a phrase stands in a name.
pub(super) fn holds(name: &str, phrase: &str) -> bool {
    KindPhrase::of(phrase).find(&plain(name, false)).is_some_and(|(.., whole)| whole)
}

/// Whether one name tells of a kind that another tells of too.
pub(super) fn tell_the_same(one: &str, other: &str) -> bool {
    let (one, other) = (by_own_words(one), by_own_words(other));
    one.iter().any(|kind| other.iter().any(|same| same.name == kind.name))
}

/// By the words that are a kind's own, in the head of a name before the whole of it.
fn by_own_words(name: &str) -> Vec<&'static KindTelling> {
    let whole = plain(name, false);
    let behind = whole.iter().position(|word| BEHIND.contains(&word.as_str())).unwrap_or(whole.len());
    let comma = plain(name.split(',').next().unwrap_or_default(), false).len();
    let all = OWN.hits(&whole);
    for words in [&whole[..behind.min(comma)], &whole[..]] {
        let hits = OWN.hits(words);
        // `tourte de seigle` is more than a `tourte`.
        let inside = |hit: &(usize, usize, bool, &KindTelling)| {
            all.iter().any(|other| other.2 && other.0 <= hit.0 && hit.1 <= other.1 && other.1 - other.0 > hit.1 - hit.0)
        };
        let own: Vec<&Hit> = hits.iter().filter(|hit| !inside(hit)).collect();
        let same = |hit: &Hit| hits.iter().any(|own| (own.0, own.1) == (hit.0, hit.1));
        let sharing = if hits.is_empty() { Vec::new() } else { SHARED.hits(words) };
        let mut kinds: Vec<&'static KindTelling> = sharing.into_iter().filter(same).map(|hit| hit.3).collect();
        for hit in &own {
            if !kinds.iter().any(|kind| kind.name == hit.3.name) {
                kinds.push(hit.3);
            }
        }
        if !kinds.is_empty() {
            return kinds;
        }
    }
    Vec::new()
}

fn by_shared_words(name: &str) -> Vec<&'static KindTelling> {
    let words = plain(name, false);
    let mut kinds: Vec<&'static KindTelling> = Vec::new();
    for (.., kind) in SHARED.hits(&words) {
        if !kinds.iter().any(|known| known.name == kind.name) {
            kinds.push(kind);
        }
    }
    kinds
}

/// Whether what a kind needs is there, nothing that it is never with, and the steps are like its own.
fn is_possible<'s>(kind: &KindTelling, amounts: &Amounts, steps: impl Fn() -> &'s [String]) -> bool {
    let of = |part: &str| amounts.get(part).copied().unwrap_or_default();
    let own = ranges(kind.name);
    let Some(base) = own.first().map(|range| range.base) else { return false };
    let lacks = |range: &Range| range.needed && of(range.part) <= 0.0;
    of(base) > 0.0 && !own.iter().any(lacks) && has_nothing_else(kind, amounts, steps)
}

/// Whether nothing is there that the kind is never with, and the steps are like its own.
fn has_nothing_else<'s>(kind: &KindTelling, amounts: &Amounts, steps: impl Fn() -> &'s [String]) -> bool {
    let of = |part: &str| amounts.get(part).copied().unwrap_or_default();
    let flour = |part: &'static str| if part == "flour" { "wheat and other flour" } else { part };
    if kind.never.iter().any(|part| of(flour(part)) > 0.0) {
        return false;
    }
    if kind.says.is_empty() && kind.never_says.is_empty() {
        return true;
    }
    let steps = steps();
    let says = |phrases: &[KindPhrase]| phrases.iter().any(|phrase| phrase.find(steps).is_some());
    steps.is_empty() || ((kind.says.is_empty() || says(&kind.says)) && !says(&kind.never_says))
}

/// The kind that the words tell, and the one part that all kinds that they may tell lack, where nothing else is odd of
/// them.
pub(super) fn lacking(
    name: &str,
    title: &str,
    steps: impl Fn() -> String,
    shares: &[LineShare],
    amounts: &Amounts,
) -> Option<(&'static str, &'static str)> {
    let of_name = by_own_words(name);
    let told = if of_name.is_empty() { by_own_words(title) } else { of_name };
    let both = format!("{name} {title}").to_lowercase();
    if told.is_empty() || SILENT.iter().chain(WITHOUT.iter()).any(|word| both.contains(word)) {
        return None;
    }
    let steps = plain(&steps(), false);
    let fits = |kind: &&&'static KindTelling| has_nothing_else(kind, amounts, || &steps) && knows(kind, shares, false);
    let mut found: Option<(&'static str, &'static str)> = None;
    let words = [plain(name, false), plain(title, false)];
    // What only shares a word may still be what it is, and then lacks nothing.
    let is_told = |kind: &KindTelling| {
        let own = kind.own.iter().filter(|phrase| !phrase.words.iter().any(|word| word == "*"));
        own.into_iter().any(|phrase| words.iter().any(|words| phrase.find(words).is_some()))
    };
    for kind in told.iter().filter(fits) {
        let own = ranges(kind.name);
        let odd = own.iter().any(|range| range.share(amounts).is_some_and(|share| range.is_beyond(share)));
        match lacks(own, amounts).as_slice() {
            [] => return None,
            _ if !is_told(kind) => {}
            // A roast of nuts, a jam of tomatoes, a burger of beans.
            [part] if groups::lists("stood in for", part) => return None,
            [part] if !odd && found.is_none_or(|(_, other)| other == *part) => found = Some((kind.name, part)),
            [_] if !odd => return None,
            _ => {}
        }
    }
    found
}

/// The base and the parts that a kind cannot be without and that are not there.
fn lacks(own: &[Range], amounts: &Amounts) -> Vec<&'static str> {
    let is_there = |part: &str| amounts.get(part).copied().unwrap_or_default() > 0.0;
    let base = own.first().map(|range| range.base).into_iter();
    let mut lacks: Vec<&'static str> = Vec::new();
    for part in base.chain(own.iter().filter(|range| range.expected).map(|range| range.part)) {
        // A starter raises without yeast.
        let stood_in = part == "yeast" && is_there("raising agent");
        if !is_there(part) && !stood_in && !lacks.contains(&part) {
            lacks.push(part);
        }
    }
    lacks
}

/// Whether a kind has a range for every part that is there; `of_plates`, also one that bounds any plate.
fn knows(kind: &KindTelling, shares: &[LineShare], of_plates: bool) -> bool {
    let own = ranges(kind.name);
    shares.iter().all(|share| {
        let known = |name: &'static str| name == share.part || groups::covers(name, share.part);
        matches!(share.part, "other" | "pasta")
            || own
                .iter()
                .filter(|range| range.is_a_share() && (of_plates || range.base != "plate"))
                .any(|range| known(range.part) || known(range.base))
    })
}
