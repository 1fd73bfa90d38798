//! Which lines a step means without naming them one by one: `everything`, `the spices`, `mix it`.

use std::ops::Range;

use super::naming::is_several;
use super::share::{Share, said_share};
use super::taking::{Left, names};
use super::{Facts, Said};
use crate::language::{Language, Sense, Word};

/// What a sentence means without naming each.
pub(super) struct Meant {
    /// The lines that it takes, and the word that stands for them where there is one.
    pub(super) taken: Vec<(usize, Option<usize>)>,
    /// Those that it may take: a word for what is made of some of them, or a verb that needs one.
    pub(super) hinted: Vec<usize>,
}

/// The lines of a component that a sentence means together; `left` is what the sentences before left of each.
pub(super) fn meant(
    facts: &Facts<'_>,
    component: usize,
    said: &Said<'_>,
    sentence: Range<usize>,
    left: &[Left],
) -> Meant {
    // `Simmer until the sugar is gone` names a sign, and nothing that goes in.
    let named = named_in(said, sentence.start..first_sign(said, &sentence));
    let excepted = sentence.clone().filter(|at| said.excepted[*at]);
    let mut without: Vec<usize> = excepted.clone().flat_map(|at| of_groups(facts, component, said, at).0).collect();
    without.extend(excepted.flat_map(|at| said.named[at].iter().map(|named| named.line)));
    let mut groups = Meant { taken: Vec::new(), hinted: Vec::new() };
    for at in sentence.clone().filter(|at| !said.excepted[*at]) {
        let (taken, hinted) = of_groups(facts, component, said, at);
        for line in taken {
            // `the berries` of which half is crushed are those.
            let begun = matches!(left[line], Left::Some(_))
                && said_share(said, at, &facts.lines[component][line], line).is_none();
            let named = said.named[at].iter().any(|named| named.surely && named.line == line);
            if !begun && !named && !groups.taken.iter().any(|(other, _)| *other == line) {
                groups.taken.push((line, Some(at)));
            }
        }
        groups.hinted.extend(hinted);
    }
    let speaks_of_some = !groups.taken.is_empty() || !groups.hinted.is_empty();
    let parts: Vec<usize> = parts_named(facts, component, said, 0..sentence.end);
    let rest = match is_rest(said, &sentence) && !parts.is_empty() {
        // `fold in a third of the cream, then the rest`
        true => parts,
        false => of_the_rest(said, sentence.clone(), left, &named, speaks_of_some),
    };
    let mut meant = Meant { taken: rest.into_iter().map(|line| (line, None)).collect(), hinted: groups.hinted };
    if sentence.clone().any(|at| said.tells_at(Sense::AllOfIt, at)) {
        meant.hinted.extend((0..left.len()).filter(|line| left[*line] != Left::Nothing));
    }
    if speaks_of_some && meant.taken.is_empty() {
        // `Boil the roots in salted water` may mean the salt.
        meant.hinted.extend(of_the_rest(said, sentence.clone(), left, &named, false));
    }
    for (line, at) in groups.taken {
        if !meant.taken.iter().any(|(other, _)| *other == line) {
            meant.taken.push((line, at));
        }
    }
    meant.taken.retain(|(line, _)| !without.contains(line));
    meant
}

/// Where a sentence begins to tell the sign by which it is done.
fn first_sign(said: &Said<'_>, sentence: &Range<usize>) -> usize {
    sentence.clone().find(|at| said.tells_at(Sense::Until, *at)).unwrap_or(sentence.end)
}

fn named_in(said: &Said<'_>, sentence: Range<usize>) -> Vec<usize> {
    let mut lines: Vec<usize> = said.named[sentence].iter().flatten().map(|named| named.line).collect();
    lines.sort_unstable();
    lines.dedup();
    lines
}

/// The lines of which a sentence says that it takes a part.
fn parts_named(facts: &Facts<'_>, component: usize, said: &Said<'_>, sentence: Range<usize>) -> Vec<usize> {
    let mut lines: Vec<usize> = names(said, sentence)
        .into_iter()
        .filter(|(line, at)| {
            let share = said_share(said, *at, &facts.lines[component][*line], *line);
            matches!(share, Some(Share::Part(_)))
        })
        .map(|(line, _)| line)
        .collect();
    lines.dedup();
    lines
}

/// The lines that `everything`, `the other two`, `the first five` or a verb without an object stand for.
fn of_the_rest(said: &Said<'_>, sentence: Range<usize>, left: &[Left], named: &[usize], some: bool) -> Vec<usize> {
    let sign = first_sign(said, &sentence);
    let language = said.language();
    let words = &said.words[..sentence.end];
    let tells = |of: Sense, at: usize| language.lexicon(of).at(words, at) > 0;
    let is_open = |left: Left| matches!(left, Left::All { spoken_of: false } | Left::Some(_));
    let untaken = || (0..left.len()).filter(|line| is_open(left[*line]) && !named.contains(line)).collect::<Vec<_>>();
    if let Some(lines) = sentence.clone().find_map(|at| counted(words, at, left.len(), language)) {
        return lines;
    }
    // `all but 20 g of the sugar` is of one thing, `all but the sugar` of the others.
    let one = |at: usize| tells(Sense::AllBut, at) && !said.excepted.get(at + 2).is_some_and(|excepted| *excepted);
    let everything = sentence.clone().any(|at| tells(Sense::Everything, at) && !one(at));
    let all = everything || sentence.clone().any(|at| is_all(words, at, language));
    // `return everything to the pan` is all that was in it.
    let back = left.iter().any(|left| !matches!(left, Left::All { .. }))
        && sentence.clone().any(|at| tells(Sense::PutsBack, at));
    if all && back {
        return Vec::new();
    }
    if all || is_rest(said, &sentence) {
        return untaken();
    }
    let mixes = language.lexicon(Sense::Mixes);
    let orders = |at: &usize| mixes.at(words, *at) > 0;
    let nothing_yet = left.iter().all(|left| *left == Left::All { spoken_of: false });
    // `Mix it`: before anything went in, that is all of it.
    let pronoun = sentence.clone().take(3).filter(orders).any(|at| {
        // `mélangez-les`; with a space the same word is an article.
        let joined = |next: &&Word| next.before == if language.is_head_first() { "-" } else { " " };
        words.get(at + 1).filter(joined).is_some_and(|next| language.lexicon(Sense::Pronoun).has(next))
    });
    let all_of_it = sentence.clone().any(|at| tells(Sense::AllOfIt, at));
    if nothing_yet && (pronoun || all_of_it) {
        return (0..left.len()).collect();
    }
    // `Whisk the dry things` speaks of some.
    let first = nothing_yet && named.is_empty() && !some;
    let orders = sentence.clone().take(3).any(|at| orders(&at));
    let named_elsewhere =
        (0..said.words.len()).any(|at| !said.named[at].is_empty() && !(sign..sentence.end).contains(&at));
    if first && orders && !named_elsewhere { untaken() } else { Vec::new() }
}

/// `the first five`, `the last two`: so many lines from an end.
fn counted(words: &[Word], at: usize, lines: usize, language: &Language) -> Option<Vec<usize>> {
    let [first, last] = [Sense::FirstOf, Sense::LastOf].map(|of| language.lexicon(of).has(&words[at]));
    let count = language.count(&words.get(at + 1)?.written)?;
    let count = usize::try_from(count).ok().filter(|count| (2..=lines).contains(count) && (first || last))?;
    // `the first 5 minutes`
    let timed = words.get(at + 2).is_some_and(|next| language.times().unit(&next.written).is_some());
    (!timed).then(|| if first { (0..count).collect() } else { (lines - count..lines).collect() })
}

/// `all` as what a verb acts on: `mix all`, `knead all into a dough`, and not `all over` or `all the butter`.
fn is_all(words: &[Word], at: usize, language: &Language) -> bool {
    if !language.lexicon(Sense::All).has(&words[at]) {
        return false;
    }
    let verb = at.checked_sub(1).is_some_and(|before| {
        words[before].sentence == words[at].sentence && language.lexicon(Sense::Mixes).at(words, before) > 0
    });
    let object = words
        .get(at + 1)
        .is_none_or(|next| next.before.contains([',', '.', ';', ':']) || language.lexicon(Sense::AfterAll).has(next));
    verb && object
}

/// `add the rest`, where no name says of what.
fn is_rest(said: &Said<'_>, sentence: &Range<usize>) -> bool {
    let rest = said.language().lexicon(Sense::RestAlone);
    sentence.clone().any(|at| {
        let behind = at + rest.at(&said.words, at);
        let of = said.words.get(behind).filter(|next| next.sentence == said.words[at].sentence);
        let of_something = of.is_some_and(|next| {
            let reach = behind..(behind + 4).min(said.named.len());
            let named = said.named[reach].iter().any(|named| !named.is_empty());
            next.before.trim().is_empty() && (named || said.tells_at(Sense::Of, behind))
        });
        behind > at && !of_something
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

/// The lines of the groups that a word stands for, where it names none of them alone: of those that take, and of the
/// others.
fn of_groups(facts: &Facts<'_>, component: usize, said: &Said<'_>, at: usize) -> (Vec<usize>, Vec<usize>) {
    let mut lines = (Vec::new(), Vec::new());
    // `kiwi fruit` is called the fruit, and `all the fruit` is more.
    if said.named[at].iter().any(|named| named.surely) && !is_several(&said.words, at, said.language()) {
        return lines;
    }
    let groups = said.language().groups().iter();
    let mut groups = groups.filter(|group| group.said.at(&said.words, at) > 0).peekable();
    if groups.peek().is_none() || is_in_another_name(facts, &said.words, at) {
        return lines;
    }
    for group in groups {
        let lines = if group.takes { &mut lines.0 } else { &mut lines.1 };
        for (line, of_line) in facts.lines[component].iter().enumerate() {
            let family = of_line.rows().next().map(|row| row.family.as_str());
            if !lines.contains(&line) && group.holds(family, &of_line.words) {
                lines.push(line);
            }
        }
    }
    lines
}
