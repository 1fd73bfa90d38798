//! What part an ingredient plays in a formula, and how much of each there is.

use std::sync::LazyLock;

use rustc_hash::FxHashMap;

use super::groups;

use crate::facts::LineFacts;
use crate::facts::table::{self, list};
use crate::language::{Language, Sense};
use crate::measure::{Dimension, Unit};
use crate::pantry::{Role, Row};

/// A line as a formula sees it.
#[derive(Clone, Copy, Debug)]
pub(super) struct LineShare {
    /// Its place in the component.
    pub(super) line: usize,
    /// Whether that is another component, which goes into this one.
    pub(super) elsewhere: bool,
    pub(super) grams: f64,
    pub(super) part: &'static str,
    /// Whether it is stated by weight, so that ounces may stand for grams.
    pub(super) by_weight: bool,
    /// The factor to the other spoon, where it is stated by one.
    pub(super) spoon: Option<f64>,
    water: f64,
    pub(super) fat: f64,
    sugar: f64,
    flour: f64,
}

impl LineShare {
    /// The same, as of another component.
    pub(super) fn of_another(&self) -> Self {
        Self { elsewhere: true, ..*self }
    }
}

/// Grams of each part, of the groups of parts, and of what composition gives.
pub(super) type Amounts = FxHashMap<&'static str, f64>;

/// The share of what is not known that leaves the others as they are. Common practice.
const UNKNOWN: f64 = 0.1;

/// So much fat, in grams, is for frying in. Common practice.
const FRYING_FAT: f64 = 300.0;

/// A fresh-yeast gram does the work of 0.4 g dried. Common practice.
const DRY_TO_FRESH: f64 = 2.5;

/// Baking powder in self-raising flour, by weight. Common practice.
const IN_SELF_RAISING: f64 = 0.045;

/// A dried pulse holds less water, in per cent. USDA SR28: 8 to 14 dried, 57 to 80 cooked and canned.
const DRIED: f64 = 30.0;

/// Flour in a starter, by weight. Common practice.
const IN_STARTER: f64 = 0.5;

/// The lines of a component that are weighed; none where one of weight is not known at all. Fat that `fries` is left
/// out, and what is for the tin and the bench.
pub(super) fn shares(lines: &[LineFacts<'_>], fries: bool, language: &Language) -> Option<Vec<LineShare>> {
    let mut shares = Vec::with_capacity(lines.len());
    let mut unknown = 0.0;
    for (line, facts) in lines.iter().enumerate() {
        let stated = &facts.ingredient.line;
        // `1 bay leaf` is no share, and no digit of it is lost.
        let counted = stated
            .amounts
            .first()
            .is_some_and(|amount| amount.unit.is_none_or(|unit| unit.dimension() == Dimension::Count));
        if facts.is_slight() || counted && facts.row.is_some_and(super::is_slight) {
            continue;
        }
        let grams = facts.grams().filter(|grams| *grams > 0.0)?;
        let Some(row) = facts.row else {
            unknown += grams;
            continue;
        };
        let texts = [Some(&stated.name), stated.prep.as_ref(), stated.note.as_ref()];
        // `450 g flour, plus extra for dusting`: what is stated goes in.
        let told = |of: Sense, text: &str| language.tells(of, text) && !language.tells(Sense::Divided, text);
        let aside = |of: Sense| texts.into_iter().flatten().any(|text| told(of, text));
        let much = matches!(part(row), "oil" | "hard fat") && grams > FRYING_FAT;
        if aside(Sense::ForFrying) || aside(Sense::ForTheBench) || (fries && much) {
            continue;
        }
        let by_weight = stated.amounts[0].unit.is_some_and(|unit| unit.dimension() == Dimension::Weight);
        let spoon = match stated.amounts[0].unit {
            Some(Unit::Tbsp) => Some(1.0 / 3.0),
            Some(Unit::Tsp) => Some(3.0),
            _ => None,
        };
        shares.push(LineShare { by_weight, spoon, ..share(line, row, grams) });
    }
    // A little that is not known changes no share that matters.
    let known: f64 = shares.iter().map(|share: &LineShare| share.grams).sum();
    (unknown <= known * UNKNOWN).then_some(shares)
}

fn share(line: usize, row: &Row, grams: f64) -> LineShare {
    let of = |part: fn(&crate::pantry::Nutrients) -> Option<f64>| {
        row.nutrients.as_ref().and_then(part).unwrap_or_default() / 100.0
    };
    let part = part(row);
    let water = if row.is(Role::Water) { 1.0 } else { of(|nutrients| nutrients.water) };
    let flour = match part {
        "flour" | "starch" => 1.0,
        "starter" => IN_STARTER,
        _ => 0.0,
    };
    LineShare {
        line,
        elsewhere: false,
        grams,
        part,
        by_weight: false,
        spoon: None,
        water: if part == "starter" { 1.0 - IN_STARTER } else { water },
        fat: of(|nutrients| nutrients.fat),
        sugar: of(|nutrients| nutrients.sugars),
        flour,
    }
}

/// For how many a component is: `serving` where the dish is most of it, `plate` where a part is judged by its most alone.
#[derive(Clone, Copy, Debug)]
pub(super) struct Portions {
    pub(super) number: f64,
    pub(super) is_the_dish: bool,
}

/// The amounts of all parts; `grams` of each share may be others than its own.
pub(super) fn amounts(shares: &[LineShare], servings: Portions, grams: impl Fn(usize) -> f64) -> Amounts {
    let mut all = Amounts::default();
    // So that a share of them in per cent is grams for each.
    all.insert("plate", servings.number * 100.0);
    all.insert("serving", if servings.is_the_dish { servings.number * 100.0 } else { 0.0 });
    let mut add = |part: &'static str, grams: f64| *all.entry(part).or_default() += grams;
    for (at, share) in shares.iter().enumerate() {
        let grams = grams(at);
        add("total", grams);
        add("flour", grams * share.flour);
        add("all fat", grams * share.fat);
        add("all sugar", grams * share.sugar);
        if groups::covers("hydration", share.part) {
            add("hydration", grams * share.water);
        }
        match share.part {
            "flour" => add("wheat and other flour", grams),
            "self-raising flour" => {
                add("wheat and other flour", grams);
                add("flour", grams);
                add("baking powder", grams * IN_SELF_RAISING);
            }
            part => add(part, grams),
        }
    }
    let of = |all: &Amounts, part: &str| all.get(part).copied().unwrap_or_default();
    for (group, parts) in groups::sums() {
        let sum = parts.iter().map(|part| of(&all, part)).sum();
        all.insert(*group, sum);
    }
    all.insert("yeast", of(&all, "fresh yeast") + DRY_TO_FRESH * of(&all, "dry yeast"));
    all.insert("flour and grain", of(&all, "flour") + of(&all, "grain"));
    all
}

/// The part that an ingredient plays, by what the pantry knows of it.
pub(super) fn part(row: &Row) -> &'static str {
    let rules = RULES.get(row.family.as_str()).map_or(&[][..], Vec::as_slice);
    rules.iter().find(|rule| rule.fits(row)).map_or("other", |rule| rule.part)
}

/// Family, what a row is, what its id has and has not, and the part that it then plays.
const PARTS: &str = include_str!("parts.tsv");

/// The rules by family, in their order.
static RULES: LazyLock<FxHashMap<&'static str, Vec<PartRule>>> = LazyLock::new(|| {
    let mut rules: FxHashMap<&'static str, Vec<PartRule>> = FxHashMap::default();
    for line in table::rows(PARTS) {
        for (family, rule) in PartRule::read(line) {
            rules.entry(family).or_default().push(rule);
        }
    }
    rules
});

/// All parts that an ingredient may play.
#[cfg(test)]
pub(super) fn parts() -> impl Iterator<Item = &'static str> {
    RULES.values().flatten().map(|rule| rule.part).chain(["other"])
}

#[cfg(test)]
impl LineShare {
    /// A gram of a part.
    pub(super) fn some(part: &'static str) -> Self {
        Self {
            line: 0,
            elsewhere: false,
            grams: 1.0,
            part,
            by_weight: true,
            spoon: None,
            water: 0.0,
            fat: 0.0,
            sugar: 0.0,
            flour: 0.0,
        }
    }
}

/// What a row must be to play a part.
#[derive(Clone, Debug)]
struct PartRule {
    is: Option<Is>,
    has: Vec<&'static str>,
    has_not: Vec<&'static str>,
    part: &'static str,
}

#[derive(Clone, Copy, Debug)]
enum Is {
    Role(Role),
    /// Holds much water.
    Moist,
}

impl PartRule {
    /// The rule of a line, once for each of its families; none where the line is broken.
    fn read(line: &'static str) -> Vec<(&'static str, Self)> {
        let cells: Vec<&'static str> = line.split('\t').collect();
        let [families, is, has, has_not, part] = cells[..] else { return Vec::new() };
        let is = match is {
            "" => None,
            "moist" => Some(Is::Moist),
            role => match table::named(role) {
                Some(role) => Some(Is::Role(role)),
                None => return Vec::new(),
            },
        };
        let rule = Self { is, has: list(has).collect(), has_not: list(has_not).collect(), part };
        list(families).map(|family| (family, rule.clone())).collect()
    }

    fn fits(&self, row: &Row) -> bool {
        let id = row.id.as_str();
        let has = |word: &&'static str| word.strip_prefix('=').map_or_else(|| id.contains(word), |whole| id == whole);
        let is = match self.is {
            None => true,
            Some(Is::Role(role)) => row.is(role),
            Some(Is::Moist) => row.nutrients.as_ref().and_then(|of| of.water).is_some_and(|water| water > DRIED),
        };
        is && (self.has.is_empty() || self.has.iter().any(&has)) && !self.has_not.iter().any(has)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pantry::Pantry;

    #[test]
    fn every_rule_is_read() {
        for line in table::rows(PARTS) {
            assert!(!PartRule::read(line).is_empty(), "{line}");
        }
    }

    #[test]
    fn the_first_rule_that_fits_counts() {
        let pantry = Pantry::embedded();
        let case = |name: &str, wanted: &str| assert_eq!(pantry.find(name).map(part), Some(wanted), "{name}");
        case("self-raising flour", "self-raising flour");
        case("plain flour", "flour");
        case("cocoa butter", "cocoa butter");
        case("butter", "butter");
        case("peanut butter", "nut paste");
        case("egg yolks", "yolk");
        case("dried chickpeas", "dried pulse");
        case("canned chickpeas", "cooked pulse");
        case("vanilla extract", "mild flavouring");
        case("almond extract", "strong extract");
        case("ice", "water");
        case("vinegar", "vinegar");
    }
}
