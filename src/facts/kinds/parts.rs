//! What part an ingredient plays in a formula, and how much of each there is.

use rustc_hash::FxHashMap;

use crate::facts::LineFacts;
use crate::language::{Language, Sense};
use crate::measure::{Dimension, Unit};
use crate::pantry::{Role, Row};

/// A line as a formula sees it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Share {
    /// Its place in the component.
    pub(super) line: usize,
    pub(super) grams: f64,
    pub(super) part: &'static str,
    /// Whether it is stated by weight, so that ounces may stand for grams.
    pub(super) by_weight: bool,
    water: f64,
    pub(super) fat: f64,
    sugar: f64,
    flour: f64,
}

/// Grams of each part, of the groups of parts, and of what composition gives.
pub(super) type Amounts = FxHashMap<&'static str, f64>;

/// Parts that go by one name together.
pub(super) const GROUPS: [(&str, &[&str]); 19] = [
    ("sugar", &["dry sugar", "syrup"]),
    ("fat", &["butter", "oil", "hard fat"]),
    ("egg", &["whole egg", "yolk", "white"]),
    ("liquid", &["water", "milk", "cream", "juice", "lemon juice", "coffee", "stock", "wine"]),
    ("dairy", &["milk", "cream", "condensed milk"]),
    ("chocolate", &["dark chocolate", "milk chocolate", "white chocolate"]),
    ("sour liquid", &["vinegar", "lemon juice"]),
    ("fruit and juice", &["fruit", "juice", "lemon juice"]),
    ("alcohol and wine", &["alcohol", "wine"]),
    ("any added fat", &["butter", "oil", "hard fat", "cocoa butter"]),
    ("wet part", &["cream", "milk", "fruit", "juice", "lemon juice", "coffee"]),
    ("vinegar and water", &["vinegar", "water"]),
    ("broth", &["water", "milk", "cream", "juice", "lemon juice", "coffee", "stock", "wine"]),
    ("vegetable", &["other vegetable", "potato"]),
    ("pulse", &["dried pulse", "cooked pulse"]),
    ("flavouring", &["mild flavouring", "strong extract"]),
    ("chocolate and cocoa", &["dark chocolate", "milk chocolate", "white chocolate", "cocoa"]),
    ("fruit and liquid", &["fruit", "water", "milk", "cream", "juice", "lemon juice", "coffee", "stock", "wine"]),
    ("raising agent", &["dry yeast", "fresh yeast", "starter", "baking powder", "baking soda", "hartshorn"]),
];

/// Parts whose water counts for hydration; that of fruit, vegetables, meat and hard cheese does not.
pub(super) const WET: [&str; 18] = [
    "water",
    "milk",
    "cream",
    "whole egg",
    "yolk",
    "white",
    "butter",
    "syrup",
    "juice",
    "lemon juice",
    "coffee",
    "stock",
    "wine",
    "starter",
    "fresh cheese",
    "fresh yeast",
    "condensed milk",
    "alcohol",
];

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
pub(super) fn shares(lines: &[LineFacts<'_>], fries: bool, language: &Language) -> Option<Vec<Share>> {
    let mut shares = Vec::with_capacity(lines.len());
    let mut unknown = 0.0;
    for (line, facts) in lines.iter().enumerate() {
        let stated = &facts.ingredient.line;
        let pinch = |unit: Option<Unit>| matches!(unit, Some(Unit::Pinch | Unit::Dash | Unit::Drop));
        let small = stated.optional || stated.to_taste || stated.amounts.iter().any(|amount| pinch(amount.unit));
        if small || stated.amounts.is_empty() {
            continue;
        }
        // A sprig and a leaf weigh nothing that matters.
        let light = facts.row.is_some_and(|row| matches!(part(row), "herb" | "spice" | "zest"));
        let grams = match facts.grams().filter(|grams| *grams > 0.0) {
            None if light => continue,
            grams => grams?,
        };
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
        shares.push(share(line, row, grams, by_weight));
    }
    // A little that is not known changes no share that matters.
    let known: f64 = shares.iter().map(|share: &Share| share.grams).sum();
    (unknown <= known * UNKNOWN).then_some(shares)
}

fn share(line: usize, row: &Row, grams: f64, by_weight: bool) -> Share {
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
    Share {
        line,
        grams,
        part,
        by_weight,
        water: if part == "starter" { 1.0 - IN_STARTER } else { water },
        fat: of(|nutrients| nutrients.fat),
        sugar: of(|nutrients| nutrients.sugars),
        flour,
    }
}

/// For how many a component is: `serving` where the dish is most of it, `plate` where a part is judged by its most alone.
#[derive(Clone, Copy, Debug)]
pub(super) struct Servings {
    pub(super) number: f64,
    pub(super) is_the_dish: bool,
}

/// The amounts of all parts; `grams` of each share may be others than its own.
pub(super) fn amounts(shares: &[Share], servings: Servings, grams: impl Fn(usize) -> f64) -> Amounts {
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
        if WET.contains(&share.part) {
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
    for (group, parts) in GROUPS {
        let sum = parts.iter().map(|part| of(&all, part)).sum();
        all.insert(group, sum);
    }
    all.insert("yeast", of(&all, "fresh yeast") + DRY_TO_FRESH * of(&all, "dry yeast"));
    all.insert("flour and grain", of(&all, "flour") + of(&all, "grain"));
    all
}

/// The part that an ingredient plays, by what the pantry knows of it.
pub(super) fn part(row: &Row) -> &'static str {
    let id = row.id.as_str();
    let has = |words: &[&str]| words.iter().any(|word| id.contains(word));
    match row.family.as_str() {
        "flour" if row.is(Role::SelfRaising) => "self-raising flour",
        "flour" => "flour",
        "starch" => "starch",
        "grain" if has(&["crumb", "panko"]) => "crumbs",
        "grain" if has(&["cornmeal", "polenta", "semolina", "bran", "grits"]) => "flour",
        "grain" => "grain",
        "baked" => "crumbs",
        "sugar" => "dry sugar",
        "syrup" => "syrup",
        "dairy" => dairy(id),
        "dairy-free" => {
            if has(&["cream"]) {
                "cream"
            } else {
                "milk"
            }
        }
        "cheese"
            if has(&[
                "cream-cheese",
                "mascarpone",
                "quark",
                "ricotta",
                "cottage",
                "fromage-frais",
                "skyr",
                "labneh",
            ]) =>
        {
            "fresh cheese"
        }
        "cheese" => "cheese",
        "fat" if has(&["butter", "ghee", "margarine"]) && !has(&["cocoa"]) => "butter",
        "fat" if has(&["cocoa-butter"]) => "cocoa butter",
        "fat" => "hard fat",
        "oil" => "oil",
        "egg" => egg(row),
        "yeast" => match () {
            () if row.is(Role::Starter) => "starter",
            () if row.is(Role::FreshYeast) => "fresh yeast",
            () => "dry yeast",
        },
        "leavening" => leavening(row),
        "salt" => "salt",
        "cocoa" => "cocoa",
        "chocolate" if has(&["white", "ruby"]) => "white chocolate",
        "chocolate" if has(&["milk"]) => "milk chocolate",
        "chocolate" => "dark chocolate",
        "nut" | "seed" | "coconut" | "peanut" if has(&["butter", "paste", "tahini"]) => "nut paste",
        "nut" | "seed" | "coconut" | "peanut" if has(&["coconut-milk", "coconut-cream"]) => "cream",
        "nut" | "seed" | "coconut" | "peanut" => "nuts",
        "gelling" => gelling(row),
        "acid" => "acid",
        "spice" => "spice",
        "herb" => "herb",
        // Vanilla is mild; a spoon too many of the others is tasted.
        "flavour" if has(&["-extract"]) && !has(&["vanilla", "coffee", "maple"]) => "strong extract",
        "flavour" => "mild flavouring",
        "fruit" if has(&["zest", "peel"]) => "zest",
        "fruit" if has(&["lemon-juice", "lime-juice", "yuzu"]) => "lemon juice",
        "fruit" if has(&["juice"]) => "juice",
        "fruit" => "fruit",
        "dried-fruit" => "dried fruit",
        "vegetable" if has(&["wakame", "kombu", "nori", "seaweed", "dulse"]) => "herb",
        "vegetable" if has(&["potato"]) => "potato",
        "vegetable" => "other vegetable",
        "pulse" if row.nutrients.as_ref().and_then(|of| of.water).is_some_and(|water| water > DRIED) => "cooked pulse",
        "pulse" if has(&["canned", "cooked", "undrained", "tofu", "paste"]) => "cooked pulse",
        "pulse" => "dried pulse",
        "pasta" => "pasta",
        "meat" | "fish" => "meat",
        "alcohol" if has(&["wine", "beer", "cider", "champagne", "prosecco", "stout", "lager", "ale"]) => "wine",
        "alcohol" => "alcohol",
        "coffee" if has(&["instant", "powder", "ground"]) => "coffee powder",
        "coffee" => "coffee",
        "tea" => "tea leaf",
        "preserve" => "jam",
        "condiment" => "condiment",
        "confectionery" if has(&["almond-paste", "marzipan"]) => "almond paste",
        "confectionery" if has(&["praline", "gianduja"]) => "nut paste",
        "liquid" => liquid(row),
        _ => "other",
    }
}

fn dairy(id: &str) -> &'static str {
    match id {
        _ if id.contains("condensed") => "condensed milk",
        _ if id.contains("powder") => "milk powder",
        _ if id.contains("cream") || id.contains("creme") || id == "half-and-half" => "cream",
        _ => "milk",
    }
}

fn egg(row: &Row) -> &'static str {
    match () {
        () if row.is(Role::EggYolk) || row.id.contains("yolk") => "yolk",
        () if row.id.contains("dried") || row.id.contains("powder") => "dried egg white",
        () if row.is(Role::EggWhite) || row.id.contains("white") || row.id == "aquafaba" => "white",
        () => "whole egg",
    }
}

fn leavening(row: &Row) -> &'static str {
    match () {
        () if row.is(Role::BakingPowder) => "baking powder",
        () if row.is(Role::BakingSoda) => "baking soda",
        () if row.is(Role::BakingAmmonia) => "hartshorn",
        () if row.id == "cream-of-tartar" => "cream of tartar",
        () => "other",
    }
}

fn gelling(row: &Row) -> &'static str {
    match () {
        () if row.is(Role::Gelatine) => "gelatine",
        () if row.is(Role::Agar) => "agar",
        () if row.is(Role::Pectin) => "pectin",
        () => "gum",
    }
}

fn liquid(row: &Row) -> &'static str {
    let has = |words: &[&str]| words.iter().any(|word| row.id.contains(word));
    match () {
        () if row.is(Role::Water) || has(&["sparkling-water"]) || row.id == "ice" => "water",
        () if has(&["vinegar"]) => "vinegar",
        () if has(&["stock", "broth", "dashi"]) => "stock",
        () if has(&["lemon-juice", "lime-juice"]) => "lemon juice",
        () if has(&["juice"]) => "juice",
        () if has(&["coconut-cream", "coconut-milk", "cream"]) => "cream",
        () if has(&["milk", "drink"]) => "milk",
        () if has(&["coffee", "tea"]) => "coffee",
        () => "condiment",
    }
}
