//! Which lines a step means without naming them one by one: `everything`, `the spices`, `mix it`.

use std::ops::Range;

use super::{Facts, Said, StepKey};
use crate::language::{Language, Sense, Word, sentence};

/// The lines of a component that its steps mean together.
pub(super) fn meant(facts: &Facts<'_>, component: usize) -> Vec<usize> {
    let mut taken = vec![false; facts.lines[component].len()];
    let mut all = Vec::new();
    for said in facts.said_in(component).filter(|said| said.key == StepKey::Do) {
        for sentence in sentences(&said.words) {
            let named = named_in(said, sentence.clone());
            let mut meant = of_the_rest(said, sentence.clone(), &taken, &named);
            meant.extend(of_groups(facts, component, said, sentence));
            named.iter().chain(&meant).for_each(|line| taken[*line] = true);
            all.extend(meant);
        }
    }
    all
}

/// The places of the words of each sentence.
fn sentences(words: &[Word]) -> impl Iterator<Item = Range<usize>> {
    let last = words.last().map(|word| word.sentence);
    (0..last.map_or(0, |last| last + 1)).map(|number| sentence(words, number)).filter(|places| !places.is_empty())
}

fn named_in(said: &Said<'_>, sentence: Range<usize>) -> Vec<usize> {
    let mut lines: Vec<usize> = said.named[sentence].iter().flatten().map(|named| named.line).collect();
    lines.sort_unstable();
    lines.dedup();
    lines
}

/// The lines that `everything`, `the other two`, `the first five` or a verb without an object stand for.
fn of_the_rest(said: &Said<'_>, sentence: Range<usize>, taken: &[bool], named: &[usize]) -> Vec<usize> {
    let language = said.language();
    let words = &said.words[..sentence.end];
    let untaken = || (0..taken.len()).filter(|line| !taken[*line] && !named.contains(line)).collect::<Vec<_>>();
    if let Some(lines) = sentence.clone().find_map(|at| counted(words, at, taken.len(), language)) {
        return lines;
    }
    let told = |of: Sense| sentence.clone().any(|at| language.lexicon(of).at(words, at) > 0);
    if told(Sense::Everything) || sentence.clone().any(|at| is_all(words, at, language)) || is_rest(said, &sentence) {
        return untaken();
    }
    let mixes = language.lexicon(Sense::Mixes);
    let orders = |at: &usize| mixes.at(words, *at) > 0;
    let nothing_yet = !taken.iter().any(|taken| *taken);
    // `Mix it`: before anything went in, that is all of it.
    let pronoun = sentence.clone().take(3).filter(orders).any(|at| {
        words
            .get(at + 1)
            .is_some_and(|next| next.sentence == words[at].sentence && language.lexicon(Sense::Pronoun).has(&next.stem))
    });
    if nothing_yet && pronoun {
        return (0..taken.len()).collect();
    }
    let first = nothing_yet && named.is_empty();
    let orders = sentence.clone().take(3).any(|at| orders(&at));
    if first && orders && named_in(said, 0..said.words.len()).is_empty() { untaken() } else { Vec::new() }
}

/// `the first five`, `the last two`: so many lines from an end.
fn counted(words: &[Word], at: usize, lines: usize, language: &Language) -> Option<Vec<usize>> {
    let [first, last] = [Sense::FirstOf, Sense::LastOf].map(|of| language.lexicon(of).has(&words[at].stem));
    let count = language.count(&words.get(at + 1)?.written)?;
    let count = usize::try_from(count).ok().filter(|count| (2..=lines).contains(count) && (first || last))?;
    // `the first 5 minutes`
    let timed = words.get(at + 2).is_some_and(|next| language.times().unit(&next.written).is_some());
    (!timed).then(|| if first { (0..count).collect() } else { (lines - count..lines).collect() })
}

/// `all` as what a verb acts on: `mix all`, `knead all into a dough`, and not `all over` or `all the butter`.
fn is_all(words: &[Word], at: usize, language: &Language) -> bool {
    if !language.lexicon(Sense::All).has(&words[at].stem) {
        return false;
    }
    let verb = at.checked_sub(1).is_some_and(|before| {
        words[before].sentence == words[at].sentence && language.lexicon(Sense::Mixes).at(words, before) > 0
    });
    let object = words.get(at + 1).is_none_or(|next| {
        next.before.contains([',', '.', ';', ':']) || language.lexicon(Sense::AfterAll).has(&next.stem)
    });
    verb && object
}

/// `add the rest`, where no name says of what.
fn is_rest(said: &Said<'_>, sentence: &Range<usize>) -> bool {
    let rest = said.language().lexicon(Sense::RestAlone);
    sentence.clone().any(|at| {
        let of = said.words.get(at + 1).filter(|next| next.sentence == said.words[at].sentence);
        let of_something = of.is_some_and(|next| {
            let named =
                said.named.get(at + 1..(at + 5).min(said.named.len())).into_iter().flatten().any(|n| !n.is_empty());
            next.before.trim().is_empty() && (named || next.stem == "of")
        });
        rest.at(&said.words, at) > 0 && !of_something
    })
}

/// `maple syrup` is one thing of its own, and no word for all that makes a syrup.
fn is_in_another_name(facts: &Facts<'_>, words: &[Word], at: usize) -> bool {
    let Some(before) = at.checked_sub(1).filter(|_| words[at].before == " ") else { return false };
    let both = format!("{} {}", words[before].written, words[at].written);
    let pantry = facts.kitchen.pantry();
    let known = |name: &str| pantry.find(name).map(|row| &row.id);
    known(&both).is_some() && known(&both) != known(&words[at].written)
}

/// The lines of the groups that a sentence speaks of, where its words name none of them alone.
fn of_groups(facts: &Facts<'_>, component: usize, said: &Said<'_>, sentence: Range<usize>) -> Vec<usize> {
    let mut lines = Vec::new();
    for at in sentence {
        if said.named[at].iter().any(|named| named.surely) {
            continue;
        }
        let mut groups = said.language().groups().iter().filter(|group| group.said.at(&said.words, at) > 0).peekable();
        if groups.peek().is_none() || is_in_another_name(facts, &said.words, at) {
            continue;
        }
        for group in groups {
            for (line, of_line) in facts.lines[component].iter().enumerate() {
                let family = of_line.rows().next().map(|row| row.family.as_str());
                if !lines.contains(&line) && group.holds(family, &of_line.ingredient.line.name) {
                    lines.push(line);
                }
            }
        }
    }
    lines
}
