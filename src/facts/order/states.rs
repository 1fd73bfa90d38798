//! Lines that are spoken of in a state before a step brings them there.

use std::ops::Range;

use super::orders::{is_noun, is_of_egg};
use super::{Needs, Own, Sentence, TooEarly};
use crate::facts::{LineFacts, Portion, Said, Share};
use crate::language::{Change, Sense};
use crate::pantry::is_droppable;

/// Words between a state and the name: `whipped, lightly sweetened cream`.
const REACH: usize = 4;

/// What is in a state: a line, or what goes by a word for some.
struct Thing {
    /// Its words.
    words: Range<usize>,
    /// The lines that it may be of.
    lines: Vec<usize>,
    /// The word that it goes by, where no line alone is meant: the white of `4 eggs`.
    stem: Option<String>,
}

impl Thing {
    /// Whether a word of a text means it.
    fn is_at(&self, said: &Said<'_>, at: usize) -> bool {
        match &self.stem {
            Some(stem) => said.words[at].stem == *stem,
            None => said.named[at].iter().any(|named| self.lines.contains(&named.line) && named.surely),
        }
    }

    /// Whether a word may mean it.
    fn may_be_at(&self, said: &Said<'_>, at: usize) -> bool {
        let line = || said.named[at].iter().any(|named| self.lines.contains(&named.line));
        self.is_at(said, at) || self.stem.is_none() && line()
    }
}

pub(super) fn too_early(own: &Own<'_, '_>) -> Vec<TooEarly> {
    let mut found: Vec<TooEarly> = Vec::new();
    for (index, said) in own.orders() {
        for at in 0..said.words.len() {
            let told = found.iter().any(|early| early.said == index && early.words.contains(&at));
            let states = said.language().states().iter().filter(|state| !told && state.said.at(&said.words, at) > 0);
            found.extend(states.into_iter().find_map(|state| of_state(own, (index, said), at, state)));
        }
    }
    found
}

/// What a state at a word is said of, where only a later step brings it there.
fn of_state(own: &Own<'_, '_>, (index, said): (usize, &Said<'_>), at: usize, state: &Change) -> Option<TooEarly> {
    let length = state.said.at(&said.words, at);
    let thing = thing_in(own, said, at, length).filter(|thing| is_of(own, said, state, thing))?;
    let mut words = thing.words.start.min(at)..thing.words.end.max(at + length);
    // `la gélatine ramollie et essorée`, `les blancs montés en neige`
    while let Some(end) = (words.end..said.words.len().min(words.end + 2)).find(|end| is_state(said, *end)) {
        if !said.language().is_head_first() || end > words.end && !said.tells_at(Sense::And, words.end) {
            break;
        }
        words.end =
            end + said.language().states().iter().map(|state| state.said.at(&said.words, end)).max().unwrap_or(1);
    }
    if is_done_before(own, said, state, &thing, &words) || !is_own(own, said, state, &thing) {
        return None;
    }
    let (later, by) = done_later(own, said.step, state, &thing)?;
    Some(TooEarly { needs: Needs::State, said: index, words, later, by })
}

/// What the words of a state are said of.
fn thing_in(own: &Own<'_, '_>, said: &Said<'_>, at: usize, length: usize) -> Option<Thing> {
    let words = &said.words;
    let sentence = words[at].sentence;
    let in_sentence = |place: usize| words.get(place).is_some_and(|word| word.sentence == sentence);
    let is_sign = (0..at).any(|place| in_sentence(place) && said.tells_at(Sense::Until, place));
    let behind = said.language().is_head_first();
    let denied = at.checked_sub(1).is_some_and(|before| {
        [Sense::Without, Sense::MadeInto, Sense::NotAdding].into_iter().any(|of| said.tells_at(of, before))
    });
    if is_sign || denied && !behind {
        return None;
    }
    let mut place = if behind { at.checked_sub(1)? } else { at + length };
    for _ in 0..REACH {
        let joined = |place: usize| !words[place].before.contains([';', ':', '(', ')', '.']);
        if !in_sentence(place) || !joined(if behind { place + 1 } else { place }) {
            return None;
        }
        if is_noun(said, place) && !is_state(said, place) {
            return named_thing(own, said, place);
        }
        let adjective =
            is_state(said, place) || is_droppable(&words[place].stem) || said.tells_at(Sense::NotAlone, place);
        if !adjective && !said.tells_at(Sense::And, place) {
            return None;
        }
        place = if behind { place.checked_sub(1)? } else { place + 1 };
    }
    None
}

fn is_state(said: &Said<'_>, at: usize) -> bool {
    said.language().states().iter().any(|state| state.said.at(&said.words, at) > 0)
}

/// What is named at a word, and with those around it that belong to the name.
fn named_thing(own: &Own<'_, '_>, said: &Said<'_>, at: usize) -> Option<Thing> {
    let words = &said.words;
    let same = |other: usize| {
        let shared = |one: usize| said.named[other].iter().any(|named| said.named[one].contains(named));
        words[other].sentence == words[at].sentence && (shared(at) || is_of_egg(said, other))
    };
    let (mut from, mut to) = (at, at + 1);
    if said.language().is_head_first() {
        while from > 0 && words[from].before.trim().len() < 3 && same(from - 1) {
            from -= 1;
        }
    } else {
        while to < words.len() && words[to].before == " " && same(to) {
            to += 1;
        }
    }
    let head = if said.language().is_head_first() { from } else { to - 1 };
    let next = words.get(to).filter(|next| next.before == " " && next.sentence == words[at].sentence);
    // `the melted butter mixture`
    if next.is_some() && (said.tells_at(Sense::MadeThing, to) || is_noun(said, to)) {
        return None;
    }
    let lines = &own.facts.lines[own.component];
    let surely = || said.named[head].iter().find(|named| named.surely).map(|named| vec![named.line]);
    let (lines, stem): (Vec<usize>, _) = match is_of_egg(said, head) {
        true => ((0..lines.len()).filter(|line| is_egg(said, &lines[*line])).collect(), true),
        false => match surely() {
            Some(lines) => (lines, false),
            None => (of_group(own, said, head), true),
        },
    };
    let stem = stem.then(|| words[head].stem.clone());
    (!lines.is_empty()).then_some(Thing { words: from..to, lines, stem })
}

fn is_egg(said: &Said<'_>, line: &LineFacts<'_>) -> bool {
    [Sense::Egg, Sense::White, Sense::Yolk]
        .into_iter()
        .any(|of| said.language().lexicon(of).find(&line.words).is_some())
}

/// The lines that a word stands for together: `the nuts`.
fn of_group(own: &Own<'_, '_>, said: &Said<'_>, at: usize) -> Vec<usize> {
    let lines = &own.facts.lines[own.component];
    let groups = || said.language().groups().iter().filter(|group| group.takes && group.said.at(&said.words, at) > 0);
    let family = |line: &LineFacts<'_>| line.rows().next().map(|row| row.family.clone());
    let held = |line: &LineFacts<'_>| groups().any(|group| group.holds(family(line).as_deref(), &line.words));
    (0..lines.len()).filter(|line| held(&lines[*line])).collect()
}

/// Whether a state is one of this thing.
fn is_of(own: &Own<'_, '_>, said: &Said<'_>, state: &Change, thing: &Thing) -> bool {
    let lines = &own.facts.lines[own.component];
    let line = |line: &usize| state.of.find(&lines[*line].words).is_some();
    let named = state.of.find(&said.words[thing.words.clone()]).is_some();
    state.of.is_empty() || named || thing.stem.is_none() && thing.lines.iter().any(line)
}

/// Whether all of a thing is meant, no line of it is listed so, and no other component has it.
fn is_own(own: &Own<'_, '_>, said: &Said<'_>, state: &Change, thing: &Thing) -> bool {
    let part = own.facts.taken[own.component].takings.iter().any(|taking| {
        let here = taking.step == said.step && thing.lines.contains(&taking.line);
        here && taking.said && matches!(taking.share, Share::Part(Portion::Of(_) | Portion::Stated) | Share::Rest)
    });
    let elsewhere = own.facts.recipe.components.iter().enumerate().any(|(other, component)| {
        let called = said.language().read(&component.name);
        let named = &said.words[thing.words.clone()];
        other != own.component && named.iter().any(|named| called.iter().any(|word| word.stem == named.stem))
    });
    let greases = said.tells(Sense::TakesLittle) && (said.tells(Sense::Mould) || said.tells(Sense::ForTheBench));
    !(part || elsewhere || greases || is_listed(own, said, state, thing) || is_listed_before(own, said, thing))
}

/// Whether a line of it is listed in that state, or goes in at several times.
fn is_listed(own: &Own<'_, '_>, said: &Said<'_>, state: &Change, thing: &Thing) -> bool {
    let tells = [state.said, state.made_by, state.or_by, said.language().lexicon(Sense::Divided)];
    thing.lines.iter().any(|line| {
        let line = &own.facts.lines[own.component][*line].ingredient.line;
        let texts = [Some(&line.name), line.prep.as_ref(), line.note.as_ref()];
        texts.into_iter().flatten().any(|text| {
            let words = said.language().read(text);
            tells.into_iter().any(|tells| tells.find(&words).is_some())
        })
    })
}

/// Whether a component before lists the same, which may have been brought there.
fn is_listed_before(own: &Own<'_, '_>, said: &Said<'_>, thing: &Thing) -> bool {
    let head = &said.words[thing.words.clone()];
    let same = |line: &LineFacts<'_>| line.words.iter().any(|word| head.iter().any(|named| named.stem == word.stem));
    own.facts.lines[..own.component].iter().flatten().any(same)
}

/// Whether anything said up to some words may have brought a thing there.
fn is_done_before(own: &Own<'_, '_>, said: &Said<'_>, state: &Change, thing: &Thing, words: &Range<usize>) -> bool {
    let taken = own.facts.taken[own.component].takings.iter().any(|taking| {
        let meant = taking.word.is_none() || thing.stem.is_none();
        taking.step < said.step && thing.lines.contains(&taking.line) && meant
    });
    taken || own.until(said.step).any(|sentence| may_do(said, state, thing, words, &sentence))
}

fn may_do(said: &Said<'_>, state: &Change, thing: &Thing, words: &Range<usize>, sentence: &Sentence<'_, '_>) -> bool {
    let here = std::ptr::eq(sentence.said, said);
    let before = |at: &usize| !here || *at < words.start;
    if sentence.places.clone().filter(before).any(|at| thing.may_be_at(sentence.said, at)) {
        return true;
    }
    let speaks = sentence.places.clone().any(|at| thing.may_be_at(sentence.said, at));
    let others = sentence.places.clone().any(|at| sentence.said.named[at].iter().any(|named| named.surely));
    let done = sentence.places_of(state.made_by).any(|at| !words.contains(&at) || !here);
    // `press the crushed biscuits into the tin` crushes none.
    let same = here && sentence.places.contains(&words.start);
    let or = !same && sentence.places_of(state.or_by).any(|at| before(&at));
    (speaks || !others) && (done || or)
}

/// The order of a later step that brings a thing there.
fn done_later(own: &Own<'_, '_>, step: usize, state: &Change, thing: &Thing) -> Option<(usize, Range<usize>)> {
    own.later(step).find_map(|sentence| {
        let said = sentence.said;
        let part = own.facts.taken[own.component].takings.iter().any(|taking| {
            let here = taking.step == said.step && thing.lines.contains(&taking.line);
            here && taking.said && taking.share != Share::All
        });
        if part || sentence.tells(Sense::OnceMore) {
            return None;
        }
        let by = sentence.orders(state.made_by).find_map(|order| by_order(&sentence, state, thing, order))?;
        Some((sentence.index, by))
    })
}

/// The words of an order that is given for a thing: `whip the whites`, `put the nuts on a tray and toast them`.
fn by_order(sentence: &Sentence<'_, '_>, state: &Change, thing: &Thing, order: usize) -> Option<Range<usize>> {
    let (said, words) = (sentence.said, &sentence.said.words);
    let length = state.made_by.at(words, order);
    let objects = sentence.objects(order, length);
    let made = |at: usize| {
        let next = words.get(at + 1).filter(|next| next.before == " " && next.sentence == words[at].sentence);
        next.is_some() && !is_noun(said, at + 1) && said.tells_at(Sense::MadeThing, at + 1)
    };
    if let Some(at) = objects.iter().find(|at| thing.is_at(said, **at)) {
        // `beat the eggs in` puts them in.
        let behind = objects.last().map_or(at + 1, |last| last + 1);
        let added = said.tells_at(Sense::Adds, order) && behind < words.len() && said.tells_at(Sense::MadeInto, behind);
        let rest = (order..*at).any(|place| said.tells_at(Sense::Rest, place));
        return (!made(*at) && !added && !rest).then_some(order..at + 1);
    }
    let first =
        sentence.places.clone().find(|at| said.named[*at].iter().any(|named| named.surely) || is_of_egg(said, *at));
    let first = first.filter(|first| *first < order && thing.is_at(said, *first) && !made(*first))?;
    let joined = [Sense::And, Sense::Then, Sense::NotYetThere, Sense::Pronoun, Sense::Purpose];
    let joined = joined.into_iter().any(|of| said.tells_at(of, order - 1)) || words[order].before.contains(',');
    let joint = if said.language().is_head_first() { "-" } else { " " };
    let pronoun = words.get(order + length).is_some_and(|next| next.before == joint)
        && said.tells_at(Sense::Pronoun, order + length);
    let no_verb = (objects.is_empty() || pronoun) && joined && !said.tells_at(Sense::Adds, order);
    no_verb.then_some(first..order + length)
}
