//! Things that are used before a step makes them.

use std::collections::BTreeSet;
use std::ops::Range;

use super::{Needs, Own, Sentence, TooEarly, sentences};
use crate::facts::{Said, Share};
use crate::language::{Change, Sense};
use crate::pantry::is_droppable;

/// Adjectives before a thing: `the cooled, strained syrup`.
const REACH: usize = 4;

pub(super) fn too_early(own: &Own<'_, '_>) -> Vec<TooEarly> {
    let Some((_, first)) = own.said.first() else { return Vec::new() };
    first.language().makes().iter().filter_map(|thing| of_thing(own, thing)).collect()
}

/// The first place that speaks of a thing, where only a later step makes it.
fn of_thing(own: &Own<'_, '_>, thing: &Change) -> Option<TooEarly> {
    let (index, said, at) = first_spoken_of(own, thing)?;
    let words = phrase(said, thing, at)?;
    if is_known_otherwise(own, said, thing, at) || may_be_made(own, said, thing, words.start) {
        return None;
    }
    let made = |sentence: Sentence<'_, '_>| made_in(own, thing, &sentence).map(|by| (sentence.index, by));
    let (later, by) = own.later(said.step).find_map(made)?;
    Some(TooEarly { needs: Needs::Thing, said: index, words, later, by })
}

/// Where it is first spoken of, if that is where a step is told to use it.
fn first_spoken_of<'f, 'a>(own: &Own<'f, 'a>, thing: &Change) -> Option<(usize, &'f Said<'a>, usize)> {
    let place = |(index, said): (usize, &'f Said<'a>)| thing.said.find(&said.words).map(|at| (index, said, at));
    let (index, said, at) = own.said.iter().copied().find_map(place)?;
    own.orders().any(|(other, _)| other == index).then_some((index, said, at))
}

/// The words of a thing that is known: behind an article, and no sign of being done or aim of the step.
fn phrase(said: &Said<'_>, thing: &Change, at: usize) -> Option<Range<usize>> {
    let words = &said.words;
    let in_sentence = |place: usize| words[place].sentence == words[at].sentence;
    let joined = |place: usize| !words[place].before.contains([';', ':', '(', ')', '.']);
    let plain = |place: usize| {
        is_droppable(&words[place].stem) || said.language().states().iter().any(|state| state.said.at(words, place) > 0)
    };
    let mut start = at;
    while start > 0 && at - start < REACH && in_sentence(start - 1) && joined(start) && plain(start - 1) {
        start -= 1;
    }
    let the = start.checked_sub(1).filter(|the| in_sentence(*the) && joined(start))?;
    let article = said.tells_at(Sense::The, the) && !said.tells_at(Sense::Rest, the);
    let before = the.checked_sub(1).filter(|before| in_sentence(*before));
    let aim = |of: Sense| before.is_some_and(|before| said.tells_at(of, before));
    let coming = aim(Sense::NotYetThere) || aim(Sense::Makes) || aim(Sense::Without) || aim(Sense::ForThe);
    let sign = (0..at).any(|place| in_sentence(place) && said.tells_at(Sense::Until, place));
    let length = thing.said.at(words, at);
    let mut end = at + length;
    if said.language().is_head_first() {
        while end < words.len() && in_sentence(end) && words[end].before == " " && plain(end) {
            end += 1;
        }
    }
    // `the sauce pan`, `the syrup mixture` are other things.
    let next = words.get(end).filter(|next| next.before == " " && next.sentence == words[at].sentence);
    let other = next.is_some() && (said.tells_at(Sense::MadeThing, end) || !said.named[end].is_empty());
    (article && !coming && !sign && !other).then_some(start..end)
}

/// Whether a line, another component or the component's own name is called so, or another component speaks of it.
fn is_known_otherwise(own: &Own<'_, '_>, said: &Said<'_>, thing: &Change, at: usize) -> bool {
    let called = |text: &str| thing.said.find(&said.language().read(text)).is_some();
    let recipe = own.facts.recipe;
    let components = recipe.components.iter().any(|component| called(&component.name));
    let lines = own.facts.all_lines().any(|line| {
        let line = &line.ingredient.line;
        [Some(&line.name), line.prep.as_ref(), line.note.as_ref()].into_iter().flatten().any(|text| called(text))
    });
    let spoken = |other: &Said<'_>| other.component != own.component && thing.said.find(&other.words).is_some();
    !said.named[at].is_empty() || components || lines || own.facts.said.iter().any(spoken)
}

/// Whether what is said up to a word may have made it; `the hot custard` heats none.
fn may_be_made(own: &Own<'_, '_>, said: &Said<'_>, thing: &Change, at: usize) -> bool {
    own.until(said.step).any(|sentence| {
        let here = std::ptr::eq(sentence.said, said);
        let same = here && sentence.places.contains(&at);
        let before = |place: &usize| !here || *place < at;
        // `pour the custard over` pours nothing into it.
        let or = sentence.places_of(thing.or_by).filter(|_| !same);
        let ordered = sentence.places_of(thing.made_by).chain(or).any(|place| before(&place));
        let named = |place: &usize| !sentence.said.named[*place].is_empty();
        let named: Vec<usize> = sentence.places.clone().filter(before).filter(named).collect();
        let unsaid = named.is_empty() && !same;
        let part = |place: &usize| thing.of.is_empty() || is_part(own, thing, sentence.said, *place);
        ordered && (unsaid || named.iter().any(part))
    })
}

fn is_part(own: &Own<'_, '_>, thing: &Change, said: &Said<'_>, at: usize) -> bool {
    let lines = &own.facts.lines[own.component];
    let line = |line: usize| thing.of.find(&lines[line].words).is_some();
    thing.of.at(&said.words, at) > 0 || said.named[at].iter().any(|named| line(named.line))
}

/// The words of a later sentence that make the thing of lines that were not used before.
fn made_in(own: &Own<'_, '_>, thing: &Change, sentence: &Sentence<'_, '_>) -> Option<Range<usize>> {
    let said = sentence.said;
    let fresh = fresh(own, said.step);
    let part =
        |line: &usize| thing.of.is_empty() || thing.of.find(&own.facts.lines[own.component][*line].words).is_some();
    if sentence.tells(Sense::OnceMore) || !fresh.iter().any(part) {
        return None;
    }
    let order = sentence.orders(thing.made_by).next();
    let spoken = sentence.places_of(thing.said).find_map(|at| {
        let article = (sentence.places.start..at)
            .rev()
            .take(REACH)
            .find(|place| said.tells_at(Sense::Article, *place) || said.tells_at(Sense::The, *place));
        let start = article.map_or(at, |article| article);
        let before = start.checked_sub(1).filter(|before| sentence.places.contains(before));
        let aimed = (sentence.places.start..at).rev().take(REACH).any(|place| said.tells_at(Sense::ForThe, place));
        let made = before.is_some_and(|before| said.tells_at(Sense::Makes, before));
        (aimed || made).then(|| before.unwrap_or(start)..at + thing.said.at(&said.words, at))
    });
    if spoken.is_some() {
        // `keep some sugar for the syrup` makes none.
        let makes = order.is_some()
            || sentence.places.clone().any(|at| said.tells_at(Sense::Mixes, at) || said.tells_at(Sense::Makes, at));
        return spoken.filter(|_| makes);
    }
    let order = order.filter(|order| {
        let named = said.named[*order..sentence.places.end].iter().flatten().map(|named| named.line);
        let lines: BTreeSet<usize> = named.filter(|line| fresh.contains(line)).collect();
        lines.len() > 1 && lines.iter().any(part)
    })?;
    let becomes = sentences(sentence.index, said)
        .into_iter()
        .any(|other| other.places_of(thing.said).any(|at| at > order && comes_to_be(&other, at)));
    becomes.then_some(order..sentence.objects(order, 1).last().map_or(order + 1, |last| last + 1))
}

/// `let the syrup get cold`, `to a thick custard`: a thing that is coming to be.
fn comes_to_be(sentence: &Sentence<'_, '_>, at: usize) -> bool {
    let said = sentence.said;
    let before = (sentence.places.start..at).rev().take(REACH);
    before.into_iter().any(|place| said.tells_at(Sense::NotYetThere, place) || said.tells_at(Sense::MadeInto, place))
}

/// The lines of which a step is the first to take.
fn fresh(own: &Own<'_, '_>, step: usize) -> BTreeSet<usize> {
    let takings = &own.facts.taken[own.component].takings;
    let before: BTreeSet<usize> =
        takings.iter().filter(|taking| taking.step < step).map(|taking| taking.line).collect();
    let here = takings.iter().filter(|taking| taking.step == step && taking.share != Share::Again);
    here.map(|taking| taking.line).filter(|line| !before.contains(line)).collect()
}
