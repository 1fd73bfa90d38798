//! How much of a line the words around its name take: all of it, half of it, the rest.

use std::ops::Range;

use super::{LineFacts, Said};
use crate::language::{Language, Sense, Word};
use crate::measure::Number;
use crate::pantry::is_droppable;
use crate::text::number;

/// How much of a line's amount is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Share {
    /// All that is listed.
    All,
    /// A part: half, a stated amount, or what later steps leave.
    Part(Portion),
    /// What earlier steps left.
    Rest,
    /// Nothing more: it went in before, and is only spoken of.
    Again,
}

/// How large a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Portion {
    /// A fraction of the line, above nothing and below all of it.
    Of(Number),
    /// An amount that the step states: `50 g of the sugar`.
    Stated,
    /// Some of it.
    Some,
}

/// Words between a part and the name: `half of the softened, cubed butter`.
const REACH: usize = 7;

/// How many of them may say nothing of how much.
const IDLE: usize = 2;

/// What the words around a name say of how much of it: `half of the`, `the rest of the`, `200 g of the`; `None` where
/// they say nothing, or name all that is listed.
pub(super) fn said_share(said: &Said<'_>, at: usize, line: &LineFacts<'_>, index: usize) -> Option<Share> {
    let (words, language) = (&said.words, said.language());
    let tells = |of: Sense, place: usize| said.tells_at(of, place);
    let behind = words.get(at + 1).is_some_and(|next| next.before == " " && next.sentence == words[at].sentence);
    if language.is_head_first() && behind && tells(Sense::Rest, at + 1) {
        return Some(Share::Rest);
    }
    for place in phrase_start(said, at, index)..at {
        if tells(Sense::Rest, place) {
            return Some(Share::Rest);
        }
        if let Some(part) = fraction(words, place, language) {
            return Some(Share::Part(Portion::Of(part)));
        }
        if tells(Sense::AllBut, place) || tells(Sense::SomeOf, place) {
            return Some(Share::Part(Portion::Some));
        }
        if let Some(portion) = stated(said, place, line) {
            return portion.map(Share::Part);
        }
    }
    is_held_back(said, at, index).then_some(Share::Part(Portion::Some))
}

/// Where the words begin that may say how much of what is named: back to a preposition, an order or another name.
fn phrase_start(said: &Said<'_>, at: usize, line: usize) -> usize {
    let (words, language) = (&said.words, said.language());
    let tells = |of: Sense, place: usize| said.tells_at(of, place);
    let mut idle = 0;
    let mut first = at;
    while let Some(place) = first.checked_sub(1).filter(|place| at - place <= REACH) {
        let word = &words[place];
        let of_line = said.named[place].iter().any(|named| named.line == line);
        let other = !of_line && said.named[place].iter().any(|named| named.surely);
        let adjective = is_droppable(&word.stem) || tells(Sense::NotAlone, place);
        let joined = match words[first].before.trim() {
            "" | "-" => true,
            "," => adjective,
            _ => false,
        };
        let linking = tells(Sense::Linking, place);
        let ends = [Sense::WeakEnd, Sense::JoinsClauses, Sense::ClauseVerb, Sense::Mixes];
        let ends = !linking && !of_line && !adjective && ends.into_iter().any(|of| tells(of, place));
        let timed = language.times().unit(&word.written).is_some();
        if word.sentence != words[at].sentence || !joined || other || ends || timed {
            break;
        }
        let says = [Sense::Rest, Sense::SomeOf, Sense::AllBut, Sense::Half, Sense::Third, Sense::Quarter, Sense::Fifth];
        let says = says.into_iter().any(|of| tells(of, place)) || starts_with_number(word);
        idle += usize::from(!linking && !of_line && !adjective && !says);
        if idle > IDLE {
            break;
        }
        first = place;
    }
    first
}

/// `half`, `two thirds` from a word on.
pub(super) fn fraction(words: &[Word], at: usize, language: &Language) -> Option<Number> {
    let under = |at: usize| {
        let parts = [(Sense::Half, 2), (Sense::Third, 3), (Sense::Quarter, 4), (Sense::Fifth, 5)];
        parts.into_iter().find(|(of, _)| language.lexicon(*of).at(words, at) > 0).map(|(_, under)| under)
    };
    let many = language.count(&words[at].written).filter(|_| words.len() > at + 1);
    let (over, under) = match many.and_then(|over| under(at + 1).map(|under| (over, under))) {
        Some(parts) => parts,
        None => (1, under(at)?),
    };
    let part = Number::new(over, under);
    (part > Number::from_integer(0) && part < Number::from_integer(1)).then_some(part)
}

/// The part of a line that an amount at a word is: `50 g`, `½`, `one` of what is counted; `Some(None)` where it is all that
/// is listed.
fn stated(said: &Said<'_>, at: usize, line: &LineFacts<'_>) -> Option<Option<Portion>> {
    let word = &said.words[at];
    let of_heat = said.settings.iter().flat_map(|setting| &setting.ways).any(|way| way.span.contains(&word.span.start));
    let quantity = said.quantities.iter().find(|quantity| quantity.span.start == word.span.start);
    let amounts = &line.ingredient.line.amounts;
    let (value, unit) = match quantity {
        _ if of_heat => return None,
        Some(quantity) => (quantity.high, Some(quantity.unit)),
        None if starts_with_number(word) => (number(&said.text[word.span.start..])?.0, None),
        None => {
            let counted = amounts.first().filter(|amount| amount.unit.is_none())?;
            let count = Number::from_integer(said.language().count(&word.written)?);
            (Some(count).filter(|count| *count <= counted.high)?, None)
        }
    };
    let one = Number::from_integer(1);
    let same = amounts.iter().find(|amount| amount.unit == unit && amount.high > Number::from_integer(0));
    match same.map(|amount| value / amount.high) {
        Some(part) if part < one => Some(Some(Portion::Of(part))),
        Some(part) if part == one => Some(None),
        None if unit.is_none() && value < one => Some(Some(Portion::Of(value))),
        _ => Some(Some(Portion::Stated)),
    }
}

fn starts_with_number(word: &Word) -> bool {
    word.written.starts_with(char::is_numeric)
}

/// `the sugar, keeping a spoonful back`: what is named loses a part behind its name.
fn is_held_back(said: &Said<'_>, at: usize, line: usize) -> bool {
    let holds = said.language().lexicon(Sense::HoldsBack);
    let sentence = said.words[at].sentence;
    let behind = (at + 1..said.words.len()).take_while(|place| said.words[*place].sentence == sentence);
    let own = behind.take_while(|place| said.named[*place].iter().all(|named| named.line == line));
    let left_out = |place: usize| said.excepted.get(place + 1).is_some_and(|excepted| *excepted);
    own.into_iter().any(|place| holds.at(&said.words, place) > 0 && !left_out(place))
}

/// Whether a verb that takes a little stands before a name, or is made of it: `brush with the butter`, `butter the tin`.
pub(super) fn takes_little(said: &Said<'_>, at: usize) -> bool {
    let sentence = said.words[at].sentence;
    let first = at == 0 || said.words[at - 1].sentence != sentence;
    if first && at + 1 < said.words.len() && said.tells_at(Sense::Article, at + 1) {
        return true;
    }
    let mut before = (0..at).rev().take_while(|place| said.words[*place].sentence == sentence);
    let verb = before.find(|place| said.tells_at(Sense::TakesLittle, *place));
    // `scatter the bread in a dish` is all of it, `dust the bench with flour` is not.
    let is_object = |verb: usize| {
        said.tells_at(Sense::Article, verb + 1) && !(verb + 2..at).any(|place| said.tells_at(Sense::WeakEnd, place))
    };
    verb.is_some_and(|verb| !is_object(verb))
}

/// A share of what was named before: `half of them`, `incorporez-en la moitié`.
pub(super) fn pronoun_share(said: &Said<'_>, sentence: Range<usize>) -> Option<Share> {
    let (words, language) = (&said.words[..sentence.end], said.language());
    let tells = |of: Sense, at: usize| language.lexicon(of).at(words, at) > 0;
    sentence.clone().find_map(|at| {
        let share = match fraction(words, at, language) {
            Some(part) => Share::Part(Portion::Of(part)),
            None if tells(Sense::SomeOf, at) => Share::Part(Portion::Some),
            None => return None,
        };
        let of_it = (at + 1..words.len()).take(2).any(|behind| {
            tells(Sense::Linking, behind) && behind + 1 < words.len() && tells(Sense::Pronoun, behind + 1)
        });
        let en = language.is_head_first()
            && (at.saturating_sub(2)..at).any(|before| tells(Sense::OfThem, before) && words[before].before == "-");
        (of_it && !language.is_head_first() || en).then_some(share)
    })
}
