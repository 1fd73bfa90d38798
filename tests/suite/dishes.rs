//! Whole dishes that must raise a caution, and dishes that only sound as if they did: the rate may only rise.
//!
//! `tests/cautions/dishes.json` is by people who had not seen the program. Of each dish `expect` must be raised, `may`
//! is tolerated, and anything else is a false alarm. Cautions that go with an allergen or a diet are not counted where
//! a dish does not name them.

use levelcup::facts::Facts;
use levelcup::kitchen::Kitchen;
use levelcup::language::Dictionary;
use levelcup::pantry::Pantry;
use levelcup::recipe::{LineReader, read};
use levelcup::source::Source;
use levelcup::workspace::Site;
use serde::Deserialize;

/// Right dishes of all, in per cent; it may only rise.
const RIGHT: usize = 100;

#[derive(Deserialize)]
struct Dish {
    id: String,
    language: String,
    title: String,
    #[serde(default)]
    tags: Vec<String>,
    ingredients: Vec<String>,
    steps: Vec<serde_json::Value>,
    expect: Vec<String>,
    #[serde(default)]
    may: Vec<String>,
}

fn raised(dish: &Dish, pantry: &Pantry) -> Vec<&'static str> {
    let language = if dish.language == "fr" { "fr" } else { "en-US" };
    let site = Site { language: language.into(), ..Site::default() };
    let kitchen = Kitchen::new(pantry.clone(), &site).unwrap();
    let reader = LineReader::new(Dictionary::of(language).unwrap(), site.cups.into());
    let recipe = serde_json::json!({
        "title": dish.title, "tags": dish.tags,
        "components": [{"name": "The whole", "ingredients": dish.ingredients, "steps": dish.steps}],
    });
    let (recipe, findings) = read(Source::new("dish.yaml", recipe.to_string()), "dish", &reader);
    let recipe = recipe.unwrap_or_else(|| panic!("{}: {findings:?}", dish.id));
    Facts::of(&recipe, &kitchen).hazards().iter().map(|found| found.hazard.name()).collect()
}

#[test]
fn dishes_raise_what_they_must_and_nothing_else() {
    let text = std::fs::read_to_string("tests/cautions/dishes.json").unwrap();
    let dishes: Vec<Dish> = serde_json::from_str(&text).unwrap();
    let pantry = Pantry::embedded();
    let mut right = 0;
    for dish in &dishes {
        let raised = raised(dish, &pantry);
        let missed: Vec<&String> = dish.expect.iter().filter(|name| !raised.contains(&name.as_str())).collect();
        let wrong = raised.iter().filter(|name| !dish.expect.iter().chain(&dish.may).any(|known| known == **name));
        let wrong: Vec<_> = wrong.collect();
        if missed.is_empty() && wrong.is_empty() {
            right += 1;
        } else {
            eprintln!("{} {}: missed {missed:?}, false {wrong:?}", dish.id, dish.title);
        }
    }
    let rate = right * 100 / dishes.len();
    eprintln!("{right} of {} dishes are right", dishes.len());
    assert!(rate >= RIGHT, "{rate} % of the dishes are right, and were {RIGHT} %");
}
