//! What each step takes and how long a recipe takes, on sets by a cook who had not seen the program: each rate may only
//! rise.
//!
//! `tests/scores/steps.yaml` says for each step how much of each line it takes; `times.yaml` works out the hands-on, oven
//! and waiting times of recipes and the shortest way through; `order.yaml` has steps in the wrong order. The misses are printed:
//! `cargo test --test suite method -- --nocapture`.

use std::collections::BTreeMap;

use levelcup::facts::{Facts, Portion, Share};
use levelcup::kitchen::Kitchen;
use levelcup::language::Dictionary;
use levelcup::measure::Number;
use levelcup::pantry::Pantry;
use levelcup::recipe::{LineReader, read};
use levelcup::source::Source;
use levelcup::workspace::Site;
use serde::Deserialize;

use super::scores::found_in;

#[derive(Deserialize)]
struct Steps {
    #[serde(default)]
    language: Option<String>,
    ingredients: Vec<String>,
    steps: Vec<String>,
    takes: Vec<BTreeMap<String, String>>,
}

/// A share in the words of the set: `all`, `half`, `50 g`, `rest`, `again`.
fn is_share(share: Option<Share>, wanted: &str) -> bool {
    let part = |over: i64, under: i64| Some(Share::Part(Portion::Of(Number::new(over, under))));
    match wanted {
        "all" => share == Some(Share::All),
        "rest" => share == Some(Share::Rest),
        "again" => matches!(share, Some(Share::Again) | None),
        "half" => share == part(1, 2),
        "third" => share == part(1, 3),
        "quarter" => share == part(1, 4),
        _ => matches!(share, Some(Share::Part(_))),
    }
}

/// Places where a step takes of a line, judged wrongly, of all that a cook marked; it may only fall.
const WRONG_TAKINGS: usize = 1;

#[test]
fn what_each_step_takes_is_understood() {
    let text = std::fs::read_to_string("tests/scores/steps.yaml").unwrap();
    let cases: Vec<Steps> = serde_yaml::from_str(&text).unwrap();
    let (mut wrong, mut all) = (0, 0);
    for case in &cases {
        let tag = case.language.as_deref().unwrap_or("en-US");
        let site = Site { language: tag.into(), ..Site::default() };
        let kitchen = Kitchen::new(Pantry::embedded(), &site).unwrap();
        let recipe = serde_json::json!({
            "title": "Quay test", "serves": 4,
            "components": [{"name": "All", "ingredients": case.ingredients, "steps": case.steps}],
        });
        let lines = LineReader::new(Dictionary::of(tag).unwrap(), site.cups.into());
        let recipe = read(Source::new("steps.yaml", recipe.to_string()), "steps", &lines).0.unwrap();
        let facts = Facts::of(&recipe, &kitchen);
        let taken = facts.taken[0].by_step();
        for (step, takes) in case.takes.iter().enumerate() {
            for (name, wanted) in takes {
                let line = facts.lines[0].iter().position(|line| line.ingredient.line.name.starts_with(name.as_str()));
                let here = taken.iter().find(|taking| taking.step == step && Some(taking.line) == line);
                all += 1;
                if line.is_none() || !is_share(here.map(|taking| taking.share), wanted) {
                    wrong += 1;
                    eprintln!("{name}: {:?}, not {wanted}: {}", here.map(|taking| taking.share), case.steps[step]);
                    eprintln!(
                        "   {:?}",
                        facts.taken[0].takings.iter().filter(|taking| Some(taking.line) == line).collect::<Vec<_>>()
                    );
                }
            }
        }
    }
    eprintln!("{wrong} of {all} takings judged wrongly");
    assert!(wrong <= WRONG_TAKINGS);
}

#[derive(Deserialize)]
struct Timed {
    recipe: String,
    expect: Times,
}

/// Minutes.
#[derive(Debug, PartialEq, Eq, Deserialize)]
struct Times {
    hands_on: u64,
    in_the_oven: u64,
    waiting: u64,
    start_to_finish: u64,
}

/// Recipes whose times are told wrongly, of those that a cook worked out; it may only fall.
const WRONG_TIMES: usize = 0;

#[test]
fn times_are_told_rightly() {
    let text = std::fs::read_to_string("tests/scores/times.yaml").unwrap();
    let cases: Vec<Timed> = serde_yaml::from_str(&text).unwrap();
    let site = Site::default();
    let kitchen = Kitchen::new(Pantry::embedded(), &site).unwrap();
    let lines = LineReader::new(Dictionary::of("en-US").unwrap(), site.cups.into());
    let mut wrong = 0;
    for case in &cases {
        let recipe = read(Source::new("times.yaml", case.recipe.clone()), "times", &lines).0.unwrap();
        let times = Facts::of(&recipe, &kitchen).times();
        let minutes = |time: Option<levelcup::measure::Duration>| time.map_or(0, |time| time.high / 60);
        let told = Times {
            hands_on: minutes(times.hands_on),
            in_the_oven: minutes(times.in_the_oven),
            waiting: minutes(times.waiting),
            start_to_finish: minutes(times.start_to_finish),
        };
        if told != case.expect {
            wrong += 1;
            eprintln!("{}: {told:?}, not {:?}", recipe.title, case.expect);
        }
    }
    eprintln!("{wrong} of {} recipes timed wrongly", cases.len());
    assert_eq!(wrong, WRONG_TIMES);
}

#[derive(Deserialize)]
struct Ordered {
    /// The words that stand too early.
    early: Option<String>,
    language: Option<String>,
    /// Components before.
    #[serde(default)]
    others: Vec<serde_json::Value>,
    ingredients: Vec<String>,
    steps: Vec<String>,
}

/// Steps in the wrong order that are missed, and sound ones that are not; both may only fall.
const WRONG_ORDERS: usize = 0;

#[test]
fn steps_in_the_wrong_order_are_found() {
    let text = std::fs::read_to_string("tests/scores/order.yaml").unwrap();
    let cases: Vec<Ordered> = serde_yaml::from_str(&text).unwrap();
    let mut wrong = 0;
    for case in &cases {
        let own = serde_json::json!({
            "name": "Own", "ingredients": case.ingredients, "steps": case.steps,
            "uses": case.others.iter().map(|other| &other["name"]).collect::<Vec<_>>(),
        });
        let components: Vec<_> = case.others.iter().chain([&own]).collect();
        let recipe = serde_json::json!({"title": "Quay test", "serves": 4, "components": components});
        let found = found_in(&recipe.to_string(), case.language.as_deref().unwrap_or("en-US"));
        let found: Vec<_> = found.iter().filter(|found| found.rule == "step-too-early").collect();
        let told = |wanted: &String| found.len() == 1 && found[0].message.starts_with(&format!("`{wanted}`"));
        if !case.early.as_ref().map_or(found.is_empty(), told) {
            wrong += 1;
            let found: Vec<_> = found.iter().map(|found| &found.message).collect();
            eprintln!("{:?}: {:?}\n   {found:?}", case.early, case.steps);
        }
    }
    eprintln!("{wrong} of {} orders judged wrongly", cases.len());
    assert_eq!(wrong, WRONG_ORDERS);
}
