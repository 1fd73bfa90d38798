//! What steps put in that no line lists.

use std::cell::{LazyCell, OnceCell};
use std::collections::BTreeSet;
use std::ops::Range;

use super::{Facts, LineFacts, Said, StepKey};
use crate::language::{Sense, Word};
use crate::pantry::{Role, Row, is_droppable, words};

/// An ingredient that a step puts in, and that no component lists.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unlisted {
    /// Index of the text in [`Facts::said`].
    pub said: usize,
    /// The words that name it, by their places in the text.
    pub words: Range<usize>,
}

/// Words of the longest name that is looked up.
const LONGEST: usize = 3;

/// So many lines are a list of all that goes into a component that takes up no other.
const OWN_LIST: usize = 3;

/// Families of the pantry that are made things, or are spoken of without being put in.
const MADE: [&str; 6] = ["baked", "preserve", "frozen", "decoration", "confectionery", "pasta"];

/// What the steps put in that no component lists, each once, where it is first spoken of.
pub(super) fn unlisted(facts: &Facts<'_>) -> Vec<Unlisted> {
    let open = |component: &crate::recipe::Component| component.ingredients.is_empty() && component.uses.is_empty();
    if facts.recipe.components.iter().any(open) {
        // A component without a list leaves open what goes in.
        return Vec::new();
    }
    let count = facts.recipe.components.len();
    let anywhere = LazyCell::new(|| ListedNames::of(facts, &(0..count).collect::<Vec<_>>()));
    let own: Vec<OnceCell<ListedNames<'_>>> = vec![OnceCell::new(); count];
    let is_listed = |row: &Row, said: &Said<'_>, words: &Range<usize>| {
        let here = own[said.component].get_or_init(|| ListedNames::of(facts, &reached(facts, said.component)));
        // What only another component lists may be spoken of where its like is listed: the citrus juices, of limes.
        here.has(row, said, words.clone())
            || here.has_like(row, &said.words[words.end - 1].stem) && anywhere.has(row, said, words.clone())
    };
    let made = made(facts);
    let mut told: BTreeSet<&str> = BTreeSet::new();
    let mut found = Vec::new();
    for (index, said) in facts.said.iter().enumerate().filter(|(_, said)| said.key == StepKey::Do) {
        let mut at = 0;
        while at < said.words.len() {
            let name = name_at(facts, said, at).filter(|(row, words)| {
                is_put_in(facts, said, words.clone())
                    && !is_made(facts, said, words)
                    && !made.contains(said.words[words.end - 1].stem.as_str())
                    && !is_listed(row, said, words)
            });
            if let Some((row, words)) = name {
                at = words.end;
                if told.insert(&row.id) {
                    found.push(Unlisted { said: index, words });
                }
            } else {
                at += 1;
            }
        }
    }
    found
}

/// What the steps make by its name, `cook to a thin porridge`, or what comes about: `when the vinegar has risen`.
fn made<'f>(facts: &'f Facts<'_>) -> BTreeSet<&'f str> {
    const REACH: usize = 3;
    let made = |said: &'f Said<'_>, at: usize| -> &'f [Word] {
        let words = said.words.as_slice();
        match () {
            () if said.tells_at(Sense::MadeInto, at) => words.get(at + 2..words.len().min(at + 2 + REACH)),
            () if said.tells_at(Sense::Arises, at) => at.checked_sub(1).map(|before| &words[before..at]),
            () => None,
        }
        .unwrap_or_default()
    };
    let in_text = |said: &'f Said<'_>| (0..said.words.len()).flat_map(move |at| made(said, at));
    facts.said.iter().filter(|said| said.key == StepKey::Do).flat_map(in_text).map(|word| word.stem.as_str()).collect()
}

/// The longest name of the pantry that begins at a word, of what may be eaten and is no water.
fn name_at<'a>(facts: &Facts<'a>, said: &Said<'_>, at: usize) -> Option<(&'a Row, Range<usize>)> {
    let words = &said.words;
    let known = said.named[at].iter().any(|named| named.surely);
    // What is put in stands behind another word of its sentence.
    let first = at == 0 || words[at - 1].sentence != words[at].sentence;
    if first || known || said.excepted[at] || said.tells_at(Sense::WeakEnd, at) || !may_be_put_in(said, at) {
        return None;
    }
    let joined = |last: usize| {
        (at + 1..=last).all(|at| matches!(words[at].before.as_str(), " " | "-" | " d'" | " d’"))
            && words[last].sentence == words[at].sentence
    };
    let ends = |at: usize| !said.tells_at(Sense::WeakEnd, at);
    let find = |last: usize| {
        let name: Vec<&str> = words[at..=last].iter().map(|word| word.written.as_str()).collect();
        facts.kitchen.pantry().find(&name.join(" ")).map(|row| (row, at..last + 1))
    };
    let lasts = (at..words.len().min(at + LONGEST)).filter(|last| joined(*last) && ends(*last));
    // The first word of `cold milk` names nothing, that of `baking powder` does.
    let idle = is_droppable(&words[at].stem);
    let whole = |(row, name): &(&Row, Range<usize>)| {
        let rest = || words[at + 1..name.end].iter().map(|word| word.written.as_str()).collect::<Vec<_>>().join(" ");
        !idle || name.len() > 1 && facts.kitchen.pantry().find(&rest()).is_none_or(|other| other.id != row.id)
    };
    // The last words of `glaze cold` name nothing more.
    let mut found: Option<(&Row, Range<usize>)> = None;
    for other in lasts.into_iter().filter(|_| ends(at)).filter_map(find).filter(whole) {
        if found.as_ref().is_none_or(|(row, _)| row.id != other.0.id) || !is_droppable(&words[other.1.end - 1].stem) {
            found = Some(other);
        }
    }
    // Several kinds go by one name: `the yeast`.
    let order = [Sense::Mixes, Sense::ClauseVerb].into_iter().any(|of| said.tells_at(of, at));
    let the = said.tells_at(Sense::The, at - 1) && !order;
    let rows = facts.kitchen.pantry().rows();
    let of_family = || the.then(|| rows.iter().find(|row| row.family == words[at].stem)).flatten();
    let found = found.or_else(|| of_family().map(|row| (row, at..at + 1)))?;
    let eaten = !found.0.is(Role::Water) || is_in_a_list(facts, said, &found.1) || is_mixed_with(said, at);
    (eaten && !MADE.contains(&found.0.family.as_str())).then_some(found)
}

/// The word before another and mere adjectives in front of it: `the` of `the beaten egg`.
fn before_adjectives(said: &Said<'_>, at: usize) -> usize {
    let words = &said.words;
    let idle = |place: &usize| is_droppable(&words[*place].stem) && words[*place + 1].before == " ";
    let first = (0..at).rev().take_while(idle).last().unwrap_or(at);
    first.saturating_sub(1)
}

/// Whether anything before a word may put in what it names: [`is_put_in`] looks closer, and at more cost.
fn may_be_put_in(said: &Said<'_>, at: usize) -> bool {
    let sentence = said.words[at].sentence;
    let near = [Sense::The, Sense::And].into_iter().any(|of| said.tells_at(of, before_adjectives(said, at)));
    let before = || (0..at).rev().take_while(|before| said.words[*before].sentence == sentence);
    near || before().any(|before| said.tells_at(Sense::Adds, before))
}

/// Components whose lines a component may speak of: its own and those of what it takes up; all, where it has hardly a
/// list of its own.
fn reached(facts: &Facts<'_>, component: usize) -> Vec<usize> {
    let has_its_own = facts.lines[component].len() >= OWN_LIST;
    if has_its_own { facts.with_used(component) } else { (0..facts.recipe.components.len()).collect() }
}

/// What is listed, and every word by which it may be called.
#[derive(Clone)]
struct ListedNames<'f> {
    rows: Vec<&'f Row>,
    known: BTreeSet<String>,
    /// The words that begin or end a name of a row: `aubergine` for eggplant.
    heads: BTreeSet<String>,
}

impl<'f> ListedNames<'f> {
    /// What some components list.
    fn of(facts: &'f Facts<'_>, components: &[usize]) -> Self {
        let lines = || components.iter().flat_map(|component| &facts.lines[*component]);
        let rows: Vec<&Row> = lines().flat_map(LineFacts::rows).collect();
        let mut known = BTreeSet::new();
        for line in lines().map(|line| &line.ingredient.line) {
            let texts = [Some(&line.name), line.prep.as_ref(), line.note.as_ref()];
            texts.into_iter().flatten().for_each(|text| known.extend(words(text)));
        }
        for row in &rows {
            known.extend(words(&row.family));
            known.extend(row.kind.iter().flat_map(|kind| words(kind)));
            // A part of an egg is there as soon as the egg is.
            if row.family == "egg" {
                known.extend(facts.kitchen.language().names().egg_parts.iter().flat_map(|part| words(part)));
            }
        }
        let made = facts.recipe.components.iter().map(|component| component.name.as_str());
        made.chain([facts.recipe.title.as_str()]).for_each(|name| known.extend(words(name)));
        let names = rows.iter().flat_map(|row| &row.names).map(|name| words(name));
        // `salt` is no head of `salt butter`, `beurre` is one of `beurre salé`.
        let first = facts.kitchen.language().is_head_first();
        let heads = names.flat_map(|name| [name.first().filter(|_| first).cloned(), name.last().cloned()]);
        let heads = heads.flatten().collect();
        Self { rows, known, heads }
    }

    /// Whether something of the same family is listed, or that goes by the same last word.
    fn has_like(&self, row: &Row, stem: &str) -> bool {
        !row.is(Role::Water) && self.rows.iter().any(|other| other.family == row.family) || self.heads.contains(stem)
    }

    /// Whether words may name something that is listed: its row, a word of its name, or what its family is called.
    fn has(&self, row: &Row, said: &Said<'_>, words: Range<usize>) -> bool {
        let known = |at: usize| self.known.contains(&said.words[at].stem);
        let last = words.end - 1;
        let family = |other: &&&Row| other.family == row.family;
        // `the peanut butter` is no butter.
        let other_thing = words.len() > 1 && !known(words.start) && !self.rows.iter().any(|other| family(&other));
        let alias = row.names.iter().any(|name| !name.contains(' ') && self.known.contains(name.as_str()));
        let spoken = !other_thing && (words.clone().any(known) || alias);
        let stem = &said.words[last].stem;
        let alone =
            words.len() == 1 && (self.rows.iter().any(|other| other.family == *stem) || self.heads.contains(stem));
        let same = |other: &&Row| other.id == row.id || other.is(Role::Water) && row.is(Role::Water);
        self.rows.iter().any(same) || spoken || alone
    }
}

/// Whether words are part of a thing that is made, `the chocolate mixture`, or `walnut-sized`; or may be one: `the cream`.
fn is_made(facts: &Facts<'_>, said: &Said<'_>, words: &Range<usize>) -> bool {
    let first = words.start;
    let next = said.words.get(words.end).filter(|next| next.sentence == said.words[first].sentence);
    let part_of =
        next.is_some_and(|next| next.before == "-" || next.before == " " && said.tells_at(Sense::MadeThing, words.end));
    // `the cream` of a recipe that makes one is that.
    let called = |component: &crate::recipe::Component| facts.kitchen.language().tells(Sense::Bought, &component.name);
    let makes_one = || facts.recipe.components.iter().any(called);
    let bought = said.tells_at(Sense::Bought, first) && !makes_one() && is_added(facts, said, words);
    let alone = words.len() == 1 || (first + 1..words.end).all(|at| is_droppable(&said.words[at].stem));
    let told = bought || is_told_with_lines(facts, said, words);
    part_of || alone && said.tells_at(Sense::MadeThing, first) && !told
}

/// Whether what may be a made thing is told as lines are, before anything in the recipe can have made one: `boil the sugar
/// with the water`.
fn is_told_with_lines(facts: &Facts<'_>, said: &Said<'_>, name: &Range<usize>) -> bool {
    let stem = &said.words[name.end - 1].stem;
    let called = facts.recipe.components.iter().any(|component| words(&component.name).contains(stem));
    let here = |other: &&Said<'_>| (other.component, other.step) < (said.component, said.step);
    let earlier = facts.said.iter().filter(here).any(|other| other.words.iter().any(|word| word.stem == *stem));
    (is_in_a_list(facts, said, name) || is_mixed_with(said, name.start)) && !called && !earlier
}

/// Whether a sentence puts in what some words name: a known thing behind an order to add, or on a list of what is taken.
fn is_put_in(facts: &Facts<'_>, said: &Said<'_>, name: Range<usize>) -> bool {
    let words = &said.words;
    let sentence = words[name.start].sentence;
    if name.start == 0 || words[name.start - 1].sentence != sentence {
        return false;
    }
    let earlier = || (0..name.start).rev().take_while(|at| words[*at].sentence == sentence);
    // `when the vinegar has risen` tells of what was drawn.
    let arises =
        words.get(name.end).is_some_and(|next| next.sentence == sentence) && said.tells_at(Sense::Arises, name.end);
    if arises || earlier().any(|at| said.tells_at(Sense::NotAdding, at)) {
        return false;
    }
    let together = matches!(words[name.start].before.as_str(), " " | "-");
    let the = together && said.tells_at(Sense::The, before_adjectives(said, name.start));
    the || is_in_a_list(facts, said, &name) || is_added(facts, said, &name)
}

/// Whether words go on a list of what is taken: `with the sugar, lemon juice and cinnamon`.
fn is_in_a_list(facts: &Facts<'_>, said: &Said<'_>, name: &Range<usize>) -> bool {
    const REACH: usize = 4;
    let words = &said.words;
    let at = name.start;
    let and = said.tells_at(Sense::And, at - 1) && words[at].before == " ";
    let is_line = |place: usize| said.named[place].iter().any(|named| named.surely);
    let item = at.checked_sub(if and { 2 } else { 1 }).filter(|place| words[*place].sentence == words[at].sentence);
    let is_food = |place: usize| is_line(place) || facts.kitchen.pantry().find(&words[place].written).is_some();
    let behind_line = item.is_some_and(is_line);
    let from = at.saturating_sub(REACH);
    let listed = (from..at).any(|before| words[before].sentence == words[at].sentence && is_line(before));
    // `and season`, `and infuse` are orders, `the flour and salt` are things: what is listed ends the clause.
    let verb = name.len() == 1 && [Sense::Mixes, Sense::ClauseVerb].into_iter().any(|of| said.tells_at(of, at));
    let next = words.get(name.end).filter(|next| next.sentence == words[at].sentence);
    let ends =
        next.is_none_or(|next| next.before.contains([',', ';', ')', ':']) || said.tells_at(Sense::ClauseEnd, name.end));
    // `the cream, milk, salt and nutmeg` goes on.
    let goes_on = next.is_some_and(|next| next.before.trim() == "," || said.tells_at(Sense::And, name.end));
    let among = words[at].before.trim() == "," && item.is_some_and(is_food) && listed && goes_on;
    and && listed && ends && (!verb || behind_line) || among && !verb
}

/// `the sugar with the water`: what a line of the component is mixed with.
fn is_mixed_with(said: &Said<'_>, at: usize) -> bool {
    let sentence = said.words[at].sentence;
    let with = if said.tells_at(Sense::The, at - 1) { at.checked_sub(2) } else { at.checked_sub(1) };
    let with = with.filter(|place| said.words[*place].sentence == sentence && said.tells_at(Sense::With, *place));
    let line = |place: usize| said.named[place].iter().any(|named| named.surely);
    with.and_then(|place| place.checked_sub(1))
        .is_some_and(|place| said.words[place].sentence == sentence && line(place))
}

/// Whether an order to add stands before words, with nothing but what is added between: `add walnuts`, `stir in a little
/// cream, walnuts`.
fn is_added(facts: &Facts<'_>, said: &Said<'_>, name: &Range<usize>) -> bool {
    let words = &said.words;
    let next = words.get(name.end).filter(|next| next.sentence == words[name.start].sentence && next.before == " ");
    if next.is_some() && said.tells_at(Sense::Article, name.end) {
        // `cream the butter`
        return false;
    }
    let mut at = name.start;
    while let Some(before) = at.checked_sub(1).filter(|before| words[*before].sentence == words[name.start].sentence) {
        if said.tells_at(Sense::Adds, before) {
            return true;
        }
        let known = !said.named[before].is_empty() || facts.kitchen.pantry().find(&words[before].written).is_some();
        let link = [Sense::Linking, Sense::Article, Sense::And, Sense::SomeOf, Sense::Rest, Sense::AddsIn];
        let link = link.into_iter().any(|of| said.tells_at(of, before)) || is_droppable(&words[before].stem);
        if !(known || link) || !matches!(words[at].before.trim(), "" | "," | "-") {
            return false;
        }
        at = before;
    }
    false
}
