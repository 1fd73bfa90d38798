//! Which ingredient lines a text names.

use super::LineFacts;
use crate::language::{Language, Sense, Word};
use crate::pantry::{is_droppable, words};

/// The names by which a component's lines may be called.
#[derive(Debug)]
pub struct Names {
    /// Of each line, its own name first, then those of its row in the pantry.
    lines: Vec<Vec<Name>>,
}

/// One of the names of a line.
#[derive(Debug)]
struct Name {
    /// Its words in the singular.
    words: Vec<String>,
    /// Whether it is of an egg, so that `the white` alone is enough.
    of_egg: bool,
}

/// A line that a word of a text names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Named {
    /// Index of the line in its component.
    pub line: usize,
    /// No other line can be meant, or several are: `both sugars`.
    pub surely: bool,
}

/// How much of a name is said, the least first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum NamePart {
    /// Words from its front or middle: `vanilla` of vanilla extract.
    Front,
    /// Its end: `sugar` of caster sugar.
    End,
    /// All of it.
    Whole,
}

/// The longest part of a line's name that begins at some word.
#[derive(Clone, Copy, Debug)]
struct Match {
    line: usize,
    length: usize,
    part: NamePart,
}

impl Names {
    /// The names of a component's lines as they are written, and the shorter ones by which the pantry knows the same:
    /// `bicarbonate` of `bicarbonate of soda`.
    pub fn own(lines: &[LineFacts<'_>], language: &Language) -> Self {
        let names = |line: &LineFacts<'_>| {
            let of_egg = is_of_egg(line, language);
            let own = Name { words: words(&line.ingredient.line.name), of_egg };
            // Only what begins alike can be a shorter form.
            let initial = |text: &str| text.chars().next().map(|first| first.to_ascii_lowercase());
            let first = own.words.first().and_then(|word| initial(word));
            let mut names = said_names(names_of_row(line).filter(|name| initial(name) == first), of_egg);
            names.retain(|name| name.words.len() < own.words.len() && own.words.starts_with(&name.words));
            names.insert(0, own);
            names
        };
        Self { lines: lines.iter().map(names).collect() }
    }

    /// The same, and what the pantry calls them.
    pub fn of_rows(lines: &[LineFacts<'_>], language: &Language) -> Self {
        let names = |line: &LineFacts<'_>| {
            let names = std::iter::once(line.ingredient.line.name.as_str()).chain(names_of_row(line));
            said_names(names, is_of_egg(line, language))
        };
        Self { lines: lines.iter().map(names).collect() }
    }

    /// For each word of a text, the lines that it names: those with the longest part of a name over that word.
    pub fn in_text(&self, said: &[Word], language: &Language) -> Vec<Vec<Named>> {
        let mut best: Vec<Vec<Match>> = vec![Vec::new(); said.len()];
        for start in 0..said.len() {
            for (line, names) in self.lines.iter().enumerate() {
                let longest = names.iter().filter_map(|name| longest_part(name, &said[start..], language)).max();
                let Some((length, part)) =
                    longest.filter(|(length, _)| *length > 1 || !is_order(said, start, language))
                else {
                    continue;
                };
                for covered in &mut best[start..start + length] {
                    cover(covered, Match { line, length, part });
                }
            }
        }
        best.iter().enumerate().map(|(at, found)| judged(found, is_several(said, at, language))).collect()
    }
}

/// What the pantry calls a line.
fn names_of_row<'n>(line: &'n LineFacts<'_>) -> impl Iterator<Item = &'n str> {
    line.row.into_iter().flat_map(|row| row.names.iter().map(String::as_str))
}

fn is_of_egg(line: &LineFacts<'_>, language: &Language) -> bool {
    language.lexicon(Sense::Egg).find(&line.words).is_some()
}

fn said_names<'n>(names: impl Iterator<Item = &'n str>, of_egg: bool) -> Vec<Name> {
    let names = names.map(|name| Name { words: words(name), of_egg });
    names.filter(|name| !name.words.is_empty()).collect()
}

/// Keeps the longest matches over a word, one a line.
fn cover(covered: &mut Vec<Match>, found: Match) {
    let longest = covered.first().map_or(0, |first| first.length);
    if found.length > longest {
        covered.clear();
    }
    if found.length >= longest {
        match covered.iter_mut().find(|other| other.line == found.line) {
            Some(other) => other.part = other.part.max(found.part),
            None => covered.push(found),
        }
    }
}

/// Which of equally long matches are certain: the only one of the highest part, or all of them where several are meant.
/// The front of a name alone may be another thing.
fn judged(found: &[Match], several: bool) -> Vec<Named> {
    let highest = found.iter().map(|one| one.part).max().unwrap_or(NamePart::Front);
    let single = found.iter().filter(|one| one.part == highest).count() == 1;
    let surely = |one: &Match| highest > NamePart::Front && one.part == highest && (single || several);
    found.iter().map(|one| Named { line: one.line, surely: surely(one) }).collect()
}

/// `cream the butter` takes no cream.
fn is_order(said: &[Word], at: usize, language: &Language) -> bool {
    let article = said.get(at + 1).filter(|next| next.before == " ");
    language.lexicon(Sense::VerbToo).has(&said[at])
        && article.is_some_and(|article| language.lexicon(Sense::Article).has(article))
}

/// Whether a word stands for several lines: `both sugars`, `all the flours`.
pub(super) fn is_several(said: &[Word], at: usize, language: &Language) -> bool {
    let sentence = said[at].sentence;
    let several = language.lexicon(Sense::Several);
    let (written, stem) = (&said[at].written, &said[at].stem);
    if written.ends_with('s') && !stem.ends_with('s') && !language.is_head_first() {
        return true;
    }
    (at.saturating_sub(3)..at).any(|before| said[before].sentence == sentence && several.at(said, before) > 0)
}

/// How many words a text starts with that stand together in a name, and which part of it they are; a mere adjective
/// alone is none.
fn longest_part(name: &Name, said: &[Word], language: &Language) -> Option<(usize, NamePart)> {
    let Name { words: name, of_egg } = name;
    let mut longest: Option<(usize, NamePart)> = None;
    for from in 0..name.len() {
        // `the egg, yolk and milk` are three things.
        let joined = |at: usize, word: &Word| at == 0 || !word.before.contains([',', ';', ':', '.', '(']);
        let same = name[from..].iter().zip(said).enumerate();
        let same = same.take_while(|(at, (part, word))| **part == word.stem && joined(*at, word)).count();
        // `the white` is that of an egg; beside other things it is a colour.
        let alone = same == 1 && name.len() > 1 && !*of_egg;
        if same == 0 || alone && (is_droppable(&name[from]) || language.lexicon(Sense::NotAlone).has(&said[0])) {
            continue;
        }
        let part = match (from, from + same == name.len()) {
            (0, true) => NamePart::Whole,
            // The head of a name is its last word in English, and its first in French; both may be written.
            (0, false) if language.is_head_first() => NamePart::End,
            (_, true) => NamePart::End,
            _ => NamePart::Front,
        };
        longest = longest.max(Some((same, part)));
    }
    longest
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(text: &str) -> Vec<Word> {
        Language::default().read(text)
    }

    fn names(names: &[&str]) -> Names {
        Names { lines: names.iter().map(|name| said_names(std::iter::once(*name), name.contains("egg"))).collect() }
    }

    fn lines(found: Vec<Vec<Named>>, keep: impl Fn(&Named) -> bool) -> Vec<usize> {
        let mut lines: Vec<usize> = found.concat().into_iter().filter(keep).map(|named| named.line).collect();
        lines.sort_unstable();
        lines.dedup();
        lines
    }

    #[test]
    fn the_longest_name_wins() {
        let case = |listed: &[&str], text: &str, wanted: &[usize]| {
            assert_eq!(lines(names(listed).in_text(&said(text), &Language::default()), |_| true), wanted, "{text}");
        };
        case(&["cold butter", "plain flour"], "Rub the butter into the flour.", &[0, 1]);
        case(&["caster sugar", "brown sugar"], "Add the caster sugar.", &[0]);
        case(&["caster sugar", "brown sugar"], "Add both sugars.", &[0, 1]);
        case(&["lemon juice", "lemon zest"], "Rub in the lemon zest.", &[1]);
        case(&["egg yolks", "egg whites"], "Whip the whites, then the eggs.", &[0, 1]);
        case(&["egg whites"], "Whip the whites.", &[0]);
        case(&["ground white pepper"], "White and ground.", &[]);
        case(&["crème fraîche"], "Fold in the creme fraiche", &[0]);
        case(&["vanilla extract"], "Stir in the vanilla.", &[0]);
    }

    #[test]
    fn what_may_be_two_lines_is_not_certain() {
        let case = |listed: &[&str], text: &str, wanted: &[usize]| {
            assert_eq!(
                lines(names(listed).in_text(&said(text), &Language::default()), |named| named.surely),
                wanted,
                "{text}"
            );
        };
        case(&["cold butter", "plain flour"], "Rub the butter into the flour.", &[0, 1]);
        case(&["plain flour", "buckwheat flour"], "Add the flour.", &[]);
        case(&["plain flour", "buckwheat flour"], "Add the plain flour.", &[0]);
        case(&["plain flour", "buckwheat flour"], "Add both flours.", &[0, 1]);
        case(&["plain flour", "buckwheat flour"], "Sift all the flours.", &[0, 1]);
        case(&["caster sugar", "sugar"], "Add the caster sugar.", &[0]);
        case(&["caster sugar", "sugar"], "Add the sugar.", &[1]);
        case(&["egg", "egg yolk"], "Beat in the eggs.", &[0]);
        case(&["egg yolks", "egg whites"], "Whip the whites.", &[1]);
        case(&["potato"], "Stir in the potatoes.", &[0]);
        case(&["lemon zest", "lemon juice"], "Squeeze the lemon.", &[]);
        case(&["butter", "peanut butter"], "Melt the butter.", &[0]);
    }
}
