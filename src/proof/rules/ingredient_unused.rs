//! What it finds: an ingredient that no step of its component names.
//!
//! Why it matters: the reader holds a bowl of it and does not know where it goes.
//!
//! Example: `60 g buckwheat flour` among the ingredients, and steps that speak of butter and sugar only
//!
//! Instead: `Rub the butter into both flours.`
//!
//! Source: rule of the house. A name, a part of one, its family (`the spices`), or words for all of them (`everything`,
//! `the dry ingredients`) are enough; garnishes, lines with a purpose (`for the tin`) and options are passed over.

use crate::facts::{LineFacts, Names, Said};
use crate::language::{Sense, Word};
use crate::pantry::words;
use crate::proof::Context;
use crate::recipe::{Component, Ingredient};
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let components = context.recipe.components.iter().enumerate();
    components.flat_map(|(at, component)| unused(context, at, component)).collect()
}

fn unused(context: &Context<'_>, at: usize, component: &Component) -> Vec<Finding> {
    if component.ingredients.len() < 2 || component.steps.is_empty() {
        return Vec::new();
    }
    let users = (at + 1..context.recipe.components.len()).filter(|later| context.uses(*later, at));
    let rooms: Vec<usize> = std::iter::once(at).chain(users).collect();
    let said: Vec<&Said<'_>> = context.said().filter(|said| rooms.contains(&said.component)).collect();
    let lines = &context.facts.lines[at];
    let mut open = not_named(&context.facts.names[at], lines.len(), &said, context);
    if !open.is_empty() {
        let by_row = not_named(&Names::of_rows(lines, context.language()), lines.len(), &said, context);
        open.retain(|line| by_row.contains(line));
    }
    if open.is_empty() {
        return Vec::new();
    }
    let taken = &context.facts.taken[at];
    let meant: Vec<usize> = taken.takings.iter().map(|taking| taking.line).chain(taken.hinted.clone()).collect();
    // What the pantry does not know may be what the steps call otherwise: the `fior di latte` is `the cheese`.
    let otherwise = context.facts.unlisted().iter().any(|found| context.facts.said[found.said].component == at);
    open.retain(|line| !(meant.contains(line) || otherwise && lines[*line].row.is_none()));
    open.into_iter()
        .map(|line| &lines[line])
        .filter(|line| {
            let ingredient = line.ingredient;
            !is_passed_over(context, ingredient)
                && !is_the_dish(component, ingredient)
                && !by_part_of_a_word(context, line, &said)
                && !in_a_pair(context, line, &meant, lines)
        })
        .map(|line| finding(component, line.ingredient))
        .collect()
}

/// The lines that no text names.
fn not_named(names: &Names, lines: usize, said: &[&Said<'_>], context: &Context<'_>) -> Vec<usize> {
    let mut named = vec![false; lines];
    for said in said {
        for (at, found) in names.in_text(&said.words, context.language()).into_iter().enumerate() {
            // `the sugar` is that of this name and no other sugar; `the sugars` may be all.
            let word = &said.words[at];
            let one = word.written == word.stem && found.iter().any(|named| named.surely);
            let meant = found.iter().filter(|named| !said.excepted[at] && (named.surely || !one));
            meant.into_iter().for_each(|found| named[found.line] = true);
        }
    }
    (0..named.len()).filter(|line| !named[*line]).collect()
}

/// What needs no step: a purpose is said in the line, or it may be left out.
fn is_passed_over(context: &Context<'_>, ingredient: &Ingredient) -> bool {
    let line = &ingredient.line;
    let purpose =
        |text: &Option<String>| text.as_deref().is_some_and(|text| context.language().tells(Sense::Purpose, text));
    line.optional || line.to_taste || purpose(&line.prep) || purpose(&line.note)
}

/// `2.5 kg turkey crown` in a component called `Turkey` is what every step is about.
fn is_the_dish(component: &Component, ingredient: &Ingredient) -> bool {
    let line = words(&ingredient.line.name);
    let dish = words(&component.name);
    !dish.is_empty() && dish.iter().all(|word| line.contains(word))
}

/// `the wax` for beeswax, `the rasps` for raspberries, `the paste` for hazelnut paste: a part of one of its words, or a
/// word that alone is too common to name it, where nothing else is called so.
fn by_part_of_a_word(context: &Context<'_>, line: &LineFacts<'_>, said: &[&Said<'_>]) -> bool {
    const LEAST: usize = 3;
    let name = words(&line.ingredient.line.name);
    let not_alone = context.language().lexicon(Sense::NotAlone);
    let part = |word: &Word| {
        let stem = word.stem.as_str();
        name.iter().any(|own| {
            let longer = own.len() > stem.len() + 1;
            let begun = own.starts_with(stem) && stem.len() > LEAST;
            (longer && (own.ends_with(stem) || begun)) || (own == stem && not_alone.has(word))
        })
    };
    // `the cubes` of what is cubed, `the toast` of what is toasted.
    let shape = line.ingredient.line.prep.as_deref().map(words).unwrap_or_default();
    let ends = &context.language().names().cut_ends;
    let is_cut = |own: &String, word: &str| ends.iter().any(|end| own.strip_suffix(end.as_str()) == Some(word));
    let cut = |word: &str| word.len() > LEAST && shape.iter().any(|own| is_cut(own, word));
    let known = |word: &Word| context.kitchen().pantry().find(&word.stem).is_some() && !not_alone.has(word);
    said.iter().any(|said| {
        let free =
            |at: &usize| said.named[*at].is_empty() && !said.excepted[*at] && said.words[*at].stem.len() >= LEAST;
        (0..said.words.len()).filter(free).any(|at| {
            let (word, thing) = (&said.words[at], at > 0 && said.tells_at(Sense::Article, at - 1));
            thing && cut(&word.stem) || part(word) && !known(word)
        })
    })
}

/// Of `salt and pepper` the one stands for both.
fn in_a_pair(context: &Context<'_>, line: &LineFacts<'_>, meant: &[usize], lines: &[LineFacts<'_>]) -> bool {
    let name = &line.ingredient.line.name;
    let pair = context.language().names().pair(name).filter(|_| line.row.is_none());
    let Some((first, _)) = pair else { return false };
    let family = context.kitchen().pantry().find(first).map(|row| row.family.as_str());
    let same = |other: &usize| lines[*other].row.is_some_and(|row| Some(row.family.as_str()) == family);
    meant.iter().any(same)
}

fn finding(component: &Component, ingredient: &Ingredient) -> Finding {
    let name = &ingredient.line.name;
    let message = format!("no step of {} names `{name}`", component.name);
    Finding::at(ingredient.span.clone(), message)
        .label("where does it go?")
        .help(format!("name it in a step: `the {name}`"))
}
