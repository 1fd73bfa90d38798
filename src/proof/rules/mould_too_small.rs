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
use crate::language::{Language, Sense};
use crate::measure::{Number, Standard};
use crate::proof::Context;
use crate::proof::shares::{mass, with_used};
use crate::recipe::LinkKind;
use crate::source::{Finding, Span};
use crate::text::{LengthMention, Quantity, lengths, quantities};

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
    let (volume, part) = mould_of_step(said, context.language())?;
    let grams: f64 = with_used(context, said.component).iter().map(|room| mass(context, *room)).sum();
    let name = &context.recipe.components[said.component].name;
    let too_much = grams * ML_PER_GRAM.0 > volume && context.lines().all(|(row, _)| row.is_some());
    let found = || Finding::at(said.span(part), format!("{name} weighs {grams:.0} g and cannot fit {volume:.0} mL"));
    too_much.then(|| found().help("check the size and the number of moulds"))
}

/// `a 500 ml pudding basin`, `six 150 ml ramekins`: all of them together, and their words; none for `150 ml ramekins`.
fn mould_of_step(said: &Said<'_>, language: &Language) -> Option<(f64, Span)> {
    const REACH: usize = 3;
    quantities(said.text, &said.words, language).into_iter().find_map(|quantity| {
        let each = millilitres(&quantity)?;
        let after = said.words.partition_point(|word| word.span.start < quantity.span.end);
        let sentence = said.words.get(after)?.sentence;
        let behind = said.words[after..].iter().take(REACH);
        let same =
            behind.take_while(|next| next.before.trim_matches('-').trim().is_empty() && next.sentence == sentence);
        let mould = same.into_iter().find(|next| language.lexicon(Sense::Mould).has(next))?;
        let before = said.words.iter().rfind(|word| word.span.end <= quantity.span.start);
        let count = before.and_then(|word| language.count(&word.written)).map(|count| count as f64);
        let one = (!mould.written.ends_with('s')).then_some(1.0);
        Some((each * count.or(one)?, quantity.span.start..mould.span.end))
    })
}

/// What holds a single metric volume, in millilitres; cups and spoons say what goes in.
fn millilitres(quantity: &Quantity) -> Option<f64> {
    let unit = quantity.unit.is_metric().then(|| quantity.unit.millilitres(Standard::Metric)).flatten()?;
    (quantity.low == quantity.high).then(|| float(quantity.high * unit))
}

fn float(number: Number) -> f64 {
    *number.numer() as f64 / *number.denom() as f64
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
            Some((geometry(&link.what, context.language())?, recipe.root.key("links").item(at).key("what").span.clone()))
        })
        .collect();
    <[_; 1]>::try_from(sized).ok().map(|[only]| only)
}

/// `6 moulds of 140 mL`, `four 250 ml jars`: all of them together.
fn volumes(text: &str, language: &Language) -> Option<f64> {
    let said = language.read(text);
    let (each, start) =
        quantities(text, &said, language).iter().find_map(|one| Some((millilitres(one)?, one.span.start)))?;
    let before = said.iter().take_while(|word| word.span.end <= start);
    let count = before.into_iter().find_map(|word| language.count(&word.written)).map_or(1.0, |count| count as f64);
    let is_mould = language.tells(Sense::Mould, text);
    (is_mould && count > 0.0).then_some(each * count)
}

/// `ring, 24 cm across, 3 cm deep`, `tin, 21 × 11 × 6 cm`; none where a measure is missing.
fn geometry(what: &str, language: &Language) -> Option<f64> {
    let (lengths, said) = (lengths(what), language.read(what));
    let centimetres =
        |mention: &LengthMention| mention.numbers.iter().map(|number| float(mention.unit.centimetres(*number))).collect();
    let sides: Vec<Vec<f64>> = lengths.iter().map(centimetres).collect();
    if let Some(sides) = sides.iter().find(|sides| sides.len() == 3) {
        return Some(sides.iter().product());
    }
    let told = |of: Sense| {
        let is_told = |mention: &LengthMention| {
            let behind = said.partition_point(|word| word.span.start < mention.span.end);
            language.lexicon(of).at(&said, behind) > 0
        };
        let at = lengths.iter().position(is_told)?;
        <[f64; 1]>::try_from(sides[at].clone()).ok().map(|[side]| side)
    };
    let (across, deep) = (told(Sense::Across)?, told(Sense::Deep)?);
    Some(PI * across * across / 4.0 * deep)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moulds_are_measured_as_they_are_said() {
        let of = |tag: &str, what: &str| geometry(what, &Language::of(tag).unwrap()).map(f64::round);
        let case = |what: &str, millilitres: Option<f64>| assert_eq!(of("en-US", what), millilitres, "{what}");
        case("fluted ring, 24 cm across, 3 cm deep", Some(1357.0));
        case("loaf tin, 21 × 11 × 6 cm", Some(1386.0));
        case("loaf tin, 210 x 110 x 60 mm", Some(1386.0));
        case("square tin, 20 cm", None);
        case("ring, 22–24 cm across, 3 cm deep", None);
        assert_eq!(of("fr", "cercle, 24 cm de diamètre, 3 cm de haut"), Some(1357.0));
        assert_eq!(volumes("6 moulds of 140 mL", &Language::default()), Some(840.0));
        assert_eq!(volumes("four 250ml ramekins", &Language::default()), Some(1000.0));
        assert_eq!(volumes("2 tins of 1 litre", &Language::default()), Some(2000.0));
        for none in ["about 650 g", "6 moulds of 140–150 mL", "4 ramekins of 1 cup"] {
            assert_eq!(volumes(none, &Language::default()), None, "{none}");
        }
    }
}
