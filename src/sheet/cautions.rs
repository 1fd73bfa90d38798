use std::collections::BTreeSet;

use super::model::Caution;
use super::prose::without_marks;
use crate::facts::Facts;
use crate::measure::Number;
use crate::pantry::{Origin, Row};
use crate::recipe::prose::temperatures;
use crate::recipe::{Component, Recipe, Step};

/// What a recipe gives reason to mind, once each, in a fixed order; the author's own last.
///
/// Sources of the advice: FDA and CDC on raw flour and eggs (21 CFR 101.17(h)), FDA on inedible decorations, FSIS safe
/// minimum temperatures, USDA Complete Guide to Home Canning, public health services on honey; the handling of hot
/// sugar and of caramel with cream is common practice.
pub(super) fn cautions(facts: &Facts<'_>) -> Vec<Caution> {
    let reasons = Reasons::of(facts);
    let topics: [(&str, bool, &str); 11] = [
        ("hot sugar", reasons.hot_sugar, HOT_SUGAR),
        ("caramel and cream", reasons.caramel_with_liquid, CARAMEL),
        ("raw egg", reasons.raw_egg, RAW_EGG),
        ("raw flour", reasons.raw_flour, RAW_FLOUR),
        ("meat and fish", reasons.meat, MEAT),
        ("honey", reasons.honey, HONEY),
        ("preserving", reasons.preserve, PRESERVE),
        ("bloomed gelatine", reasons.gelatine, GELATINE),
        ("inedible decoration", reasons.inedible, INEDIBLE),
        ("dry ice and nitrogen", reasons.dry_ice, DRY_ICE),
        ("hot oil", reasons.hot_oil, HOT_OIL),
    ];
    let mut cautions: Vec<Caution> = Vec::new();
    for (topic, found, text) in topics {
        if found {
            cautions.push(Caution { topic: topic.into(), text: text.into() });
        }
    }
    cautions.extend(listed("alcohol", &reasons.alcohol, "Contains alcohol", ALCOHOL));
    cautions.extend(listed("nuts", &reasons.nuts, "Contains nuts", NUTS));
    for mind in facts.recipe.components.iter().flat_map(|c| &c.steps).filter_map(|step| step.mind.as_ref()) {
        if !cautions.iter().any(|caution| caution.text == *mind) {
            cautions.push(Caution { topic: "the author's own".into(), text: mind.clone() });
        }
    }
    cautions
}

const HOT_SUGAR: &str = "Boiling sugar sticks and goes on burning. Wear long sleeves, keep a bowl of cold water within \
reach and children and pets out of the kitchen. Cool a burn under running water for 10 to 20 minutes and see a doctor \
if it is large.";
const CARAMEL: &str = "Caramel boils up and spits when liquid meets it. Use a deep pan, take it off the heat, warm the \
liquid and pour it in slowly.";
const RAW_EGG: &str = "Some of the egg here is not cooked through. Use pasteurized egg for young children, older people, \
in pregnancy and wherever immunity is weak, and keep the dish refrigerated.";
const RAW_FLOUR: &str =
    "Flour is a raw food: do not taste dough or batter before it is cooked, and wash hands and tools.";
const MEAT: &str = "Check the core with a probe: 74 °C (165 °F) for poultry and stuffing, 71 °C (160 °F) for minced meat \
and egg dishes, 63 °C (145 °F) for fish. Chill what is left within two hours.";
const HONEY: &str = "Honey is not for children under one year, nor is food made with it.";
const PRESERVE: &str = "This is not a tested canning process: keep it refrigerated. For jars that stay on the shelf follow \
a tested procedure of your food authority, with the times for your altitude.";
const GELATINE: &str = "Gelatine comes from animals: the dish is neither vegetarian nor vegan.";
const INEDIBLE: &str = "Use leaf, dust and glitter only if they are labelled edible with a list of ingredients, and take \
out every wire, pick and dowel before serving.";
const DRY_ICE: &str = "Never touch, swallow or seal in dry ice or liquid nitrogen; air the room, and serve only when none \
of it is left.";
const HOT_OIL: &str = "Hot oil catches fire and water makes it spit: stay with it, fill the pan to a third, and smother a \
flame with a lid, never with water.";
const ALCOHOL: &str = "Cooking takes away only a part of it.";
const NUTS: &str = "Tell your guests.";

fn listed(topic: &str, names: &BTreeSet<String>, says: &str, advice: &str) -> Option<Caution> {
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    (!names.is_empty())
        .then(|| Caution { topic: topic.into(), text: format!("{says}: {}. {advice}", names.join(", ")) })
}

/// What there is to mind.
#[derive(Default)]
struct Reasons {
    hot_sugar: bool,
    caramel_with_liquid: bool,
    raw_egg: bool,
    raw_flour: bool,
    meat: bool,
    honey: bool,
    preserve: bool,
    gelatine: bool,
    inedible: bool,
    dry_ice: bool,
    hot_oil: bool,
    alcohol: BTreeSet<String>,
    nuts: BTreeSet<String>,
}

/// Syrup hotter than this burns badly; boiling water is not yet meant. Design, section 6.
const HOT_SUGAR_FROM: i64 = 100;

/// Egg is cooked from here. Source: FSIS safe minimum temperature of egg dishes, 160 °F.
const EGG_COOKED: i64 = 71;

impl Reasons {
    fn of(facts: &Facts<'_>) -> Self {
        let recipe = facts.recipe;
        let mut reasons = Self::default();
        for ((component, lines), cooked) in recipe.components.iter().zip(&facts.lines).zip(cooked(recipe)) {
            let rows: Vec<&Row> = lines.iter().filter_map(|line| line.row).collect();
            reasons.read_rows(&rows);
            let text = all_text(component);
            let sugar = rows.iter().any(|row| matches!(row.family.as_str(), "sugar" | "syrup"));
            let fry = has_any(&text, &["deep-fry", "deep fry", "fry in oil", "hot oil"]);
            let caramel = has_any(&text, &["caramel"]) && sugar;
            reasons.hot_sugar |=
                sugar && (caramel || component.steps.iter().any(|step| is_hot(step) && !is_baked(step)));
            reasons.caramel_with_liquid |= caramel && rows.iter().any(|row| is_wet(row));
            reasons.hot_oil |= fry;
            reasons.inedible |= has_any(
                &text,
                &[
                    "gold leaf",
                    "silver leaf",
                    "glitter",
                    "lustre dust",
                    "luster dust",
                    "onto skewers",
                    "dowel",
                    "wired ",
                    "floral wire",
                    "cotton thread",
                ],
            );
            reasons.dry_ice |= has_any(&text, &["dry ice", "liquid nitrogen"]);
            reasons.raw_egg |= !cooked && rows.iter().any(|row| row.family == "egg" && row.origin == Origin::Egg);
            reasons.raw_flour |= rows.iter().any(|row| row.family == "flour");
        }
        let title = format!("{} {}", recipe.title, recipe.tags.join(" ")).to_lowercase();
        reasons.preserve =
            has_any(&title, &["jam", "preserve", "marmalade", "chutney", "pickle", "conserve", "canning"]);
        reasons
    }

    fn read_rows(&mut self, rows: &[&Row]) {
        for row in rows {
            let drinks = row.alcohol.is_some_and(|percent| percent > 1.2) && row.family == "alcohol";
            if drinks {
                self.alcohol.insert(row.name().to_string());
            }
            if row
                .allergens
                .us
                .iter()
                .chain(&row.allergens.eu)
                .any(|a| matches!(a.as_str(), "tree-nut" | "nut" | "peanut"))
            {
                self.nuts.insert(row.kind.clone().unwrap_or_else(|| row.name().to_string()));
            }
            let gelatine = row.id.starts_with("gelatin");
            self.gelatine |= gelatine;
            let flesh = matches!(row.origin, Origin::Meat | Origin::Fish);
            self.meat |= flesh && !gelatine && row.family != "fat" && row.id != "lard";
            self.honey |= row.id.contains("honey");
        }
    }
}

fn all_text(component: &Component) -> String {
    let steps = component.steps.iter().map(|step| without_marks(&step.text));
    let lines = component.ingredients.iter().map(|line| line.line.name.clone());
    steps.chain(lines).collect::<Vec<_>>().join(" ").to_lowercase()
}

fn has_any(text: &str, words: &[&str]) -> bool {
    words.iter().any(|word| text.contains(word))
}

fn is_wet(row: &Row) -> bool {
    row.family == "dairy" || row.family == "fat" || row.id == "water"
}

/// The hottest temperature that a step names outside an oven, in °C.
fn hottest(step: &Step) -> Option<Number> {
    let in_text = temperatures(&step.text).into_iter().map(|mention| mention.temperature.celsius().1);
    step.heat.iter().map(|heat| heat.stated.celsius().1).chain(in_text).max()
}

fn is_hot(step: &Step) -> bool {
    hottest(step).is_some_and(|degrees| degrees > Number::from_integer(HOT_SUGAR_FROM))
}

fn is_baked(step: &Step) -> bool {
    let text = step.text.to_lowercase();
    step.oven.is_some() || has_any(&text, &["bake", "oven", "roast"])
}

fn is_cooked_step(step: &Step) -> bool {
    let text = step.text.to_lowercase();
    let hot = hottest(step).is_some_and(|degrees| degrees >= Number::from_integer(EGG_COOKED));
    is_baked(step) || hot || has_any(&text, &["boil", "simmer", "fry", "poach"])
}

/// Of each component, whether it is cooked in its own steps, or in those of one that takes it up.
fn cooked(recipe: &Recipe) -> Vec<bool> {
    let mut cooked = vec![false; recipe.components.len()];
    // What takes a component up stands behind it, so that the last is known first.
    for (at, component) in recipe.components.iter().enumerate().rev() {
        cooked[at] |= component.steps.iter().any(is_cooked_step);
        if cooked[at] {
            let in_steps = component.steps.iter().flat_map(|step| &step.uses);
            for used in component.uses.iter().chain(in_steps).filter(|used| used.component < at) {
                cooked[used.component] = true;
            }
        }
    }
    cooked
}
