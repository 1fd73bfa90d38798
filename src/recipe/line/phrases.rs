use crate::language::LineWords;
use rustc_hash::{FxHashMap, FxHashSet};

/// The words of an ingredient line that are no part of an amount; [`LineWords`] says what each list is for.
#[derive(Clone, Debug, Default)]
pub(super) struct Phrases {
    parts: FxHashSet<String>,
    part_name: String,
    qualities: FxHashSet<String>,
    from: FxHashSet<String>,
    at: FxHashSet<String>,
    /// Phrases by their first word.
    endings: FxHashMap<String, Vec<String>>,
    purpose: FxHashSet<String>,
    adjectives: FxHashSet<String>,
    manners: FxHashSet<String>,
    fills: FxHashSet<String>,
    headings: FxHashSet<String>,
    sole_headings: FxHashSet<String>,
    lengths: FxHashSet<String>,
    between: FxHashSet<String>,
    pub(super) or_so: Vec<String>,
    more: FxHashSet<String>,
    instead: FxHashSet<String>,
    unmeasured: FxHashSet<String>,
    optional: Vec<String>,
    to_taste: Vec<String>,
    part_name_elided: String,
    elided_before: String,
    circa: FxHashSet<String>,
    percent: FxHashSet<String>,
    ordinals: FxHashSet<String>,
    plural_marks: FxHashSet<String>,
    dozens: FxHashSet<String>,
    state_ends: Vec<String>,
    numbered: FxHashSet<String>,
    pods: Vec<String>,
    seeded: Vec<String>,
    seeds: FxHashSet<String>,
    seeds_only: String,
    in_sheets: Vec<String>,
    in_cloves: Vec<String>,
}

impl Phrases {
    /// The phrases of a language, those of its base first.
    pub(super) fn of(lines: &[LineWords]) -> Self {
        let mut phrases = Self::default();
        for words in lines {
            phrases.add(words.clone());
        }
        phrases
    }

    fn add(&mut self, section: LineWords) {
        self.parts.extend(section.parts);
        if !section.part_name.is_empty() {
            self.part_name = section.part_name;
            self.part_name_elided = section.part_name_elided;
            self.elided_before = section.elided_before;
        }
        if !section.seeds_only.is_empty() {
            self.seeds_only = section.seeds_only;
        }
        self.qualities.extend(section.qualities);
        self.from.extend(section.from);
        self.at.extend(section.at);
        for phrase in section.phrases.into_iter().flatten() {
            let first = phrase.split(' ').next().unwrap_or_default().to_string();
            self.endings.entry(first).or_default().push(phrase);
        }
        self.purpose.extend(section.purpose);
        self.adjectives.extend(section.adjectives.into_iter().flatten());
        self.manners.extend(section.manners);
        self.fills.extend(section.fills);
        self.headings.extend(section.headings.into_iter().flatten());
        self.sole_headings.extend(section.sole_headings.into_iter().flatten());
        self.lengths.extend(section.lengths);
        self.between.extend(section.between);
        self.or_so.extend(section.or_so);
        self.more.extend(section.more);
        self.instead.extend(section.instead);
        self.unmeasured.extend(section.unmeasured);
        self.optional.extend(section.optional);
        self.to_taste.extend(section.to_taste);
        self.circa.extend(section.circa);
        self.percent.extend(section.percent);
        self.ordinals.extend(section.ordinals);
        self.plural_marks.extend(section.plural_marks);
        self.dozens.extend(section.dozens);
        self.state_ends.extend(section.state_ends);
        self.numbered.extend(section.numbered);
        self.pods.extend(section.pods);
        self.seeded.extend(section.seeded);
        self.seeds.extend(section.seeds);
        self.in_sheets.extend(section.in_sheets);
        self.in_cloves.extend(section.in_cloves);
    }

    pub(super) fn is_part(&self, word: &str) -> bool {
        has(&self.parts, word)
    }

    pub(super) fn is_quality(&self, word: &str) -> bool {
        has(&self.qualities, word)
    }

    pub(super) fn is_at(&self, word: &str) -> bool {
        has(&self.at, word)
    }

    pub(super) fn is_from(&self, word: &str) -> bool {
        has(&self.from, word)
    }

    pub(super) fn is_purpose(&self, word: &str) -> bool {
        has(&self.purpose, word)
    }

    pub(super) fn is_adjective(&self, word: &str) -> bool {
        has(&self.adjectives, word)
    }

    pub(super) fn is_manner(&self, word: &str) -> bool {
        has(&self.manners, word)
    }

    pub(super) fn is_fill(&self, word: &str) -> bool {
        has(&self.fills, word)
    }

    /// Whether a word ends the heading of a component; `sole` where it is the only one.
    pub(super) fn is_heading(&self, word: &str, sole: bool) -> bool {
        has(&self.headings, word) || (sole && has(&self.sole_headings, word))
    }

    pub(super) fn is_length(&self, word: &str) -> bool {
        has(&self.lengths, word)
    }

    pub(super) fn is_between(&self, word: &str) -> bool {
        has(&self.between, word)
    }

    pub(super) fn is_more(&self, word: &str) -> bool {
        has(&self.more, word)
    }

    pub(super) fn is_instead(&self, word: &str) -> bool {
        has(&self.instead, word)
    }

    pub(super) fn is_unmeasured(&self, word: &str) -> bool {
        has(&self.unmeasured, word)
    }

    pub(super) fn is_circa(&self, word: &str) -> bool {
        self.circa.contains(word)
    }

    pub(super) fn is_percent(&self, word: &str) -> bool {
        self.percent.contains(word)
    }

    pub(super) fn is_ordinal(&self, word: &str) -> bool {
        self.ordinals.contains(word)
    }

    pub(super) fn is_plural_mark(&self, word: &str) -> bool {
        self.plural_marks.contains(word)
    }

    pub(super) fn is_dozen(&self, word: &str) -> bool {
        has(&self.dozens, word)
    }

    pub(super) fn is_state(&self, word: &str) -> bool {
        let lower = word.to_lowercase();
        self.state_ends.iter().any(|end| lower.ends_with(end.as_str())) || lower.ends_with('%')
    }

    pub(super) fn is_numbered(&self, word: &str) -> bool {
        has(&self.numbered, word)
    }

    /// Whether a name begins with what has pods and no cloves.
    pub(super) fn has_pods(&self, word: &str) -> bool {
        self.pods.iter().any(|pod| word.starts_with(pod.as_str()))
    }

    /// The remark where the seeds of a pod are taken, which name nothing by themselves.
    pub(super) fn seeds_only(&self, part: &str, name: &str) -> Option<&str> {
        (self.seeds.contains(part) && begins_a_word(&self.seeded, name)).then_some(self.seeds_only.as_str())
    }

    pub(super) fn is_in_sheets(&self, name: &str) -> bool {
        begins_a_word(&self.in_sheets, name)
    }

    pub(super) fn is_in_cloves(&self, name: &str) -> bool {
        begins_a_word(&self.in_cloves, name)
    }

    /// What says that a line may be left out.
    pub(super) fn optional(&self) -> &[String] {
        &self.optional
    }

    /// What says that as much is taken as tastes good.
    pub(super) fn to_taste(&self) -> &[String] {
        &self.to_taste
    }

    /// `lemon juice`, `jus de citron`.
    pub(super) fn part_name(&self, thing: &str, part: &str) -> String {
        let elided = !self.part_name_elided.is_empty() && thing.starts_with(|c| self.elided_before.contains(c));
        let name = if elided { &self.part_name_elided } else { &self.part_name };
        name.replace("{thing}", thing).replace("{part}", part)
    }

    /// Whether a text starts with a phrase that ends a name.
    pub(super) fn ends_name(&self, text: &str) -> bool {
        let first = text.split([' ', ',', '\u{A0}']).next().unwrap_or_default();
        let known = match self.endings.get(first.trim_end_matches('.')) {
            Some(known) => Some(known),
            None if first.bytes().any(|b| b.is_ascii_uppercase()) => {
                self.endings.get(first.to_lowercase().trim_end_matches('.'))
            }
            None => None,
        };
        known.is_some_and(|known| known.iter().any(|phrase| starts_with_words(text, phrase)))
    }
}

/// Whether a text starts with these words and no more letters follow; `phrase` is in lower case.
pub(super) fn starts_with_words(text: &str, phrase: &str) -> bool {
    let mut rest = text.char_indices();
    for wanted in phrase.chars() {
        match rest.next() {
            Some((_, c)) if c == wanted || c.to_lowercase().eq(std::iter::once(wanted)) => {}
            Some((_, c)) if wanted == ' ' && c.is_whitespace() => {}
            _ => return false,
        }
    }
    !rest.as_str().starts_with(char::is_alphanumeric)
}

/// Whether one of a name's words begins so.
fn begins_a_word(beginnings: &[String], name: &str) -> bool {
    let name = name.to_lowercase();
    let mut words = name.split(|c: char| !c.is_alphanumeric());
    words.any(|word| beginnings.iter().any(|start| word.starts_with(start.as_str())))
}

fn has(words: &FxHashSet<String>, word: &str) -> bool {
    words.contains(word) || (word.chars().any(char::is_uppercase) && words.contains(word.to_lowercase().as_str()))
}
