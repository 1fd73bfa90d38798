//! What it finds: a component that cannot fit the mould that the recipe names, or that hardly covers its bottom.
//!
//! Why it matters: it runs over in the oven, or the cake is a biscuit.
//!
//! Example: `makes: 6 moulds of 80 mL` for 830 g of cream
//!
//! Instead: `makes: 6 moulds of 140 mL`
//!
//! Source: geometry; a gram takes at least 0.8 mL (heavy batters) and at most 4 mL (foams); common practice. The mould is
//! the one in `makes` (not a jar), else the only piece of gear with three measures or a width and a depth, else what a
//! step names with its volume.

use std::f64::consts::PI;

use crate::facts::Said;
use crate::language::{Language, Sense, Word};
use crate::proof::Context;
use crate::proof::shares::{mass, with_used};
use crate::recipe::LinkKind;
use crate::source::{Finding, Span};

/// Millilitres that a gram takes, the least and most.
const ML_PER_GRAM: (f64, f64) = (0.8, 4.0);

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    match mould(context) {
        Some((volume, span)) => misfit(context, volume, span).into_iter().collect(),
        None => context.said().filter_map(|said| overfilled(context, said)).collect(),
    }
}

/// What a step puts into a mould that it names with its volume, where that is too much.
fn overfilled(context: &Context<'_>, said: &Said<'_>) -> Option<Finding> {
    let (volume, part) = mould_of_step(&said.words, context.language())?;
    let grams: f64 = with_used(context, said.component).iter().map(|room| mass(context, *room)).sum();
    let name = &context.recipe.components[said.component].name;
    let too_much = grams * ML_PER_GRAM.0 > volume && context.lines().all(|(row, _)| row.is_some());
    let found = || Finding::at(said.span(part), format!("{name} weighs {grams:.0} g and cannot fit {volume:.0} mL"));
    too_much.then(|| found().help("check the size and the number of moulds"))
}

/// `a 500 ml pudding basin`, `six 150 ml ramekins`: all of them together, and their words; none for `150 ml ramekins`.
fn mould_of_step(said: &[Word], language: &Language) -> Option<(f64, Span)> {
    said.iter().enumerate().find_map(|(at, word)| {
        let joined = word.written.strip_suffix("ml").filter(|digits| !digits.is_empty());
        let first = if joined.is_some() { at } else { at.checked_sub(1).filter(|_| word.written == "ml")? };
        let each: f64 = joined.unwrap_or(&said[first].written).parse().ok()?;
        let behind = said.get(at + 1..).unwrap_or_default().iter().take(3);
        let same =
            behind.take_while(|next| next.before.trim_matches('-').trim().is_empty() && next.sentence == word.sentence);
        let mould = same.into_iter().find(|next| language.lexicon(Sense::Mould).has(next))?;
        let count = first.checked_sub(1).and_then(|before| language.count(&said[before].written));
        let one = (!mould.written.ends_with('s')).then_some(1.0);
        Some((each * count.map(|count| count as f64).or(one)?, said[first].span.start..mould.span.end))
    })
}

fn misfit(context: &Context<'_>, volume: f64, span: Span) -> Option<Finding> {
    let filled = (0..context.recipe.components.len())
        .filter(|component| context.said_in(*component).any(|said| said.tells(Sense::Mould)));
    let largest =
        filled.map(|component| (mass(context, component), component)).max_by(|one, other| one.0.total_cmp(&other.0))?;
    let (grams, component) = largest;
    let all: f64 = (0..context.recipe.components.len()).map(|component| mass(context, component)).sum();
    let name = &context.recipe.components[component].name;
    let message = if grams * ML_PER_GRAM.0 > volume {
        format!("{name} weighs {grams:.0} g and cannot fit {volume:.0} mL")
    } else if all > 0.0 && all * ML_PER_GRAM.1 < volume {
        format!("{all:.0} g in all cannot fill {volume:.0} mL")
    } else {
        return None;
    };
    Some(Finding::at(span, message).help("check the size and the number of moulds"))
}

/// All the millilitres of the moulds, and where they are said.
fn mould(context: &Context<'_>) -> Option<(f64, Span)> {
    let recipe = context.recipe;
    if let Some(volume) = recipe.makes.as_deref().and_then(|makes| volumes(makes, context.language())) {
        return Some((volume, recipe.root.key("makes").span.clone()));
    }
    let gear = recipe.links.iter().enumerate().filter(|(_, link)| link.kind == LinkKind::Gear);
    let sized: Vec<(f64, Span)> = gear
        .filter(|(_, link)| context.language().tells(Sense::Mould, &link.what))
        .filter_map(|(at, link)| {
            Some((geometry(&link.what)?, recipe.root.key("links").item(at).key("what").span.clone()))
        })
        .collect();
    <[_; 1]>::try_from(sized).ok().map(|[only]| only)
}

/// `6 moulds of 140 mL`, `four 250 ml jars`: all of them together.
fn volumes(text: &str, language: &Language) -> Option<f64> {
    let said = language.read(text);
    let at = said.iter().position(|word| word.stem == "ml" || word.written.ends_with("ml"))?;
    let number = |word: &Word| word.written.trim_end_matches("ml").parse::<f64>().ok();
    let (each, first) = match number(&said[at]) {
        Some(each) => (each, at),
        None => (number(&said[at.checked_sub(1)?])?, at - 1),
    };
    let count = said[..first].iter().find_map(|word| language.count(&word.written)).map_or(1.0, |count| count as f64);
    let is_mould = language.tells(Sense::Mould, text);
    (is_mould && count > 0.0 && !text.contains('–')).then_some(each * count)
}

/// `ring, 24 cm across, 3 cm deep`, `tin, 21 × 11 × 6 cm`; none where a measure is missing.
fn geometry(what: &str) -> Option<f64> {
    let plain = what.to_lowercase().replace('×', " x ");
    let centimetres = |text: &str| text.trim().trim_end_matches("cm").trim().parse::<f64>().ok();
    let sides: Vec<&str> = plain.split(" x ").collect();
    if let [first, second, third] = sides.as_slice() {
        let first = first.rsplit([' ', ',']).find(|part| !part.is_empty())?;
        let third = third.split("cm").next()?;
        return plain.contains("cm").then_some(centimetres(first)? * centimetres(second)? * centimetres(third)?);
    }
    let before = |mark: &str| {
        let head = plain.split(mark).next().filter(|head| head.len() < plain.len())?;
        centimetres(head.rsplit(',').next()?).or_else(|| centimetres(head.trim_end().rsplit(' ').nth(1)?))
    };
    let across = before(" across").or_else(|| before(" diameter"))?;
    let deep = before(" deep").or_else(|| before(" high")).or_else(|| before(" tall"))?;
    Some(PI * across * across / 4.0 * deep)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moulds_are_measured_as_they_are_said() {
        let case =
            |what: &str, millilitres: Option<f64>| assert_eq!(geometry(what).map(f64::round), millilitres, "{what}");
        case("fluted ring, 24 cm across, 3 cm deep", Some(1357.0));
        case("loaf tin, 21 × 11 × 6 cm", Some(1386.0));
        case("square tin, 20 cm", None);
        assert_eq!(volumes("6 moulds of 140 mL", &Language::default()), Some(840.0));
        assert_eq!(volumes("four 250ml ramekins", &Language::default()), Some(1000.0));
        assert_eq!(volumes("about 650 g", &Language::default()), None);
    }
}
