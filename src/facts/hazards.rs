//! What in a recipe can hurt whoever cooks or eats it.

use std::collections::BTreeSet;

use super::{Facts, LineFacts, Said, StepKey};
use crate::language::{Language, Sense};
use crate::measure::{Number, Use};
use crate::pantry::{Role, Row};
use crate::recipe::Component;

/// Something to mind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hazard {
    /// Sugar hot enough to burn.
    HotSugar,
    /// Liquid poured into caramel.
    CaramelAndCream,
    /// Egg that is not cooked through.
    RawEgg,
    /// Flour that may be tasted raw.
    RawFlour,
    /// Raw meat, poultry or fish.
    MeatAndFish,
    /// Honey, for infants.
    Honey,
    /// Jars that look as if they kept on a shelf.
    Preserving,
    /// Something of an animal where none is expected.
    Gelatine,
    /// Decoration that is not eaten.
    InedibleDecoration,
    /// Dry ice or liquid nitrogen.
    DryIce,
    /// A pan of hot oil.
    HotOil,
    /// Alcohol that stays in the dish.
    Alcohol,
    /// Nuts and peanuts.
    Nuts,
}

/// A hazard of a recipe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// What it is.
    pub hazard: Hazard,
    /// What brings it in, by name, where that is said: the nuts, the drinks.
    pub of: Vec<String>,
}

/// Syrup hotter than this burns badly; boiling water is not yet meant, in °C. Common practice.
const HOT_SUGAR_FROM: i64 = 100;

/// Egg is cooked from here, in °C. Source: FSIS safe minimum temperature of egg dishes, 160 °F.
const EGG_COOKED_FROM: i64 = 71;

/// Everything of a recipe that can hurt, each once, in a fixed order.
pub(super) fn hazards(facts: &Facts<'_>) -> Vec<Found> {
    let language = facts.kitchen.language();
    let mut hazards: BTreeSet<Hazard> = BTreeSet::new();
    let cooked = cooked(facts);
    for (at, component) in facts.recipe.components.iter().enumerate() {
        let lines = &facts.lines[at];
        of_lines(lines, language, cooked[at], &mut hazards);
        of_steps(facts, at, &text(facts, at, component), &mut hazards);
    }
    let recipe = facts.recipe;
    let named = format!("{} {}", recipe.title, recipe.tags.join(" ")).to_lowercase();
    if language.tells(Sense::Preserving, &named) {
        hazards.insert(Hazard::Preserving);
    }
    let named = [(Hazard::Alcohol, drinks(facts)), (Hazard::Nuts, nuts(facts))];
    let named = named.into_iter().filter(|(_, of)| !of.is_empty());
    let plain = hazards.into_iter().map(|hazard| Found { hazard, of: Vec::new() });
    plain.chain(named.map(|(hazard, of)| Found { hazard, of: of.into_iter().collect() })).collect()
}

fn of_lines(lines: &[LineFacts<'_>], language: &Language, cooked: bool, hazards: &mut BTreeSet<Hazard>) {
    let has = |roles: &[Role]| lines.iter().any(|line| line.row.is_some_and(|row| row.is_any(roles)));
    let raw_egg =
        lines.iter().any(|line| line.row.is_some_and(|row| row.is(Role::RawEgg)) && !is_pasteurized(line, language));
    let flesh = [Role::Poultry, Role::MincedMeat, Role::RawMeat, Role::RawFish, Role::Shellfish];
    let reasons = [
        (Hazard::RawEgg, !cooked && raw_egg),
        (Hazard::RawFlour, has(&[Role::RawFlour])),
        (Hazard::MeatAndFish, has(&flesh)),
        (Hazard::Honey, has(&[Role::Honey])),
        (Hazard::Gelatine, has(&[Role::Gelatine])),
    ];
    hazards.extend(reasons.into_iter().filter(|(_, found)| *found).map(|(hazard, _)| hazard));
}

fn of_steps(facts: &Facts<'_>, component: usize, text: &str, hazards: &mut BTreeSet<Hazard>) {
    let rows = || facts.lines[component].iter().filter_map(|line| line.row);
    let tells = |of| facts.kitchen.language().tells(of, text);
    let sugar = rows().any(|row| row.is(Role::Sugar));
    let caramel = sugar && tells(Sense::Caramel);
    let hot = || (0..facts.recipe.components[component].steps.len()).any(|step| is_hot_sugar(facts, component, step));
    let wet = || rows().any(|row| row.is(Role::Water) || row.family == "dairy" || row.family == "fat");
    let reasons = [
        (Hazard::HotSugar, caramel || (sugar && hot())),
        (Hazard::CaramelAndCream, caramel && wet()),
        (Hazard::HotOil, tells(Sense::Frying)),
        (Hazard::InedibleDecoration, tells(Sense::Inedible)),
        (Hazard::DryIce, tells(Sense::DryIce)),
    ];
    hazards.extend(reasons.into_iter().filter(|(_, found)| *found).map(|(hazard, _)| hazard));
}

/// `2 pasteurized egg whites`: no heat is needed. `pasteurized if children eat` leaves them raw for the others.
fn is_pasteurized(line: &LineFacts<'_>, language: &Language) -> bool {
    let line = &line.ingredient.line;
    let texts = [Some(&line.name), line.prep.as_ref(), line.note.as_ref()];
    let tells = |of, text: &str| language.tells(of, &text.to_lowercase());
    let says = |text: &String| tells(Sense::Pasteurized, text) && !tells(Sense::Condition, text);
    texts.into_iter().flatten().any(says)
}

/// Drinks, by name.
fn drinks(facts: &Facts<'_>) -> BTreeSet<String> {
    let rows = facts.all_lines().filter_map(|line| Some((line.row?, line)));
    rows.filter(|(row, _)| row.is(Role::Alcohol)).map(|(row, line)| name(facts, row, line)).collect()
}

/// Nuts and peanuts, by their kinds.
fn nuts(facts: &Facts<'_>) -> BTreeSet<String> {
    let is_nut = |allergen: &String| matches!(allergen.as_str(), "tree-nut" | "nut" | "peanut");
    let rows = facts.all_lines().filter_map(|line| Some((line.row?, line)));
    rows.filter(|(row, _)| row.allergens.us.iter().chain(&row.allergens.eu).any(is_nut))
        .map(|(row, line)| row.kind.clone().unwrap_or_else(|| name(facts, row, line)))
        .collect()
}

fn name(facts: &Facts<'_>, row: &Row, line: &LineFacts<'_>) -> String {
    facts.kitchen.language().name(row.name(), &line.ingredient.line.name).to_string()
}

/// What a component says to do, and the names of its lines, in lower case.
fn text(facts: &Facts<'_>, at: usize, component: &Component) -> String {
    let steps = facts.said_in(at).filter(|said| said.key == StepKey::Do).map(|said| said.text);
    let lines = component.ingredients.iter().map(|line| line.line.name.as_str());
    steps.chain(lines).collect::<Vec<_>>().join(" ").to_lowercase()
}

/// What a step brings anything but an oven to, in °C; of a range the upper end.
fn reached(facts: &Facts<'_>, component: usize, step: usize) -> impl Iterator<Item = Number> {
    let said = facts.said_in(component).filter(move |said| said.step == step);
    let said = said.filter(|said| matches!(said.key, StepKey::Do | StepKey::Heat));
    let settings = said.flat_map(|said: &Said<'_>| &said.settings).filter(|setting| setting.to_use == Use::Thermometer);
    settings.flat_map(|setting| &setting.ways).map(|stated| stated.temperature.celsius().1)
}

fn is_hot_sugar(facts: &Facts<'_>, component: usize, step: usize) -> bool {
    reached(facts, component, step).any(|degrees| degrees > Number::from_integer(HOT_SUGAR_FROM))
}

fn is_cooked_by(facts: &Facts<'_>, component: usize, step: usize) -> bool {
    let language = facts.kitchen.language();
    let said = facts.said_under(component, step, StepKey::Do).map(|said| said.text.to_lowercase()).unwrap_or_default();
    // What is hotter than boiling is the syrup that is poured on, and the egg under it stays below 60 °C.
    let egg = Number::from_integer(EGG_COOKED_FROM)..=Number::from_integer(HOT_SUGAR_FROM);
    let hot = reached(facts, component, step).any(|degrees| egg.contains(&degrees));
    let oven = facts.recipe.components[component].steps[step].oven.is_some() || language.tells(Sense::Baked, &said);
    oven || hot || language.tells(Sense::Boiled, &said)
}

/// Of each component, whether it is cooked in its own steps, or in those of one that takes it up.
fn cooked(facts: &Facts<'_>) -> Vec<bool> {
    let components = &facts.recipe.components;
    let mut cooked = vec![false; components.len()];
    // What takes a component up stands behind it, so that the last is known first.
    for (at, component) in components.iter().enumerate().rev() {
        cooked[at] |= (0..component.steps.len()).any(|step| is_cooked_by(facts, at, step));
        if cooked[at] {
            for earlier in (0..at).filter(|earlier| facts.uses(at, *earlier)) {
                cooked[earlier] = true;
            }
        }
    }
    cooked
}
