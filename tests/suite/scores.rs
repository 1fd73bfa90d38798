//! How much the proof understands, on sets by people who had not seen the program: each rate may only rise.
//!
//! `tests/scores/sound/` are whole recipes in many hands in which nothing is wrong, `formulas.yaml` such of one
//! component; `collective.yaml` small ones whose steps name their ingredients together; `temperatures.yaml` steps that state temperatures, sound ones and slips. The
//! misses are printed: `cargo test --test suite scores -- --nocapture`.

use std::path::Path;
use std::sync::LazyLock;

use levelcup::facts::Facts;
use levelcup::kitchen::Kitchen;
use levelcup::language::Dictionary;
use levelcup::pantry::Pantry;
use levelcup::proof::{Archive, Levels, Surroundings, proof};
use levelcup::recipe::{LineReader, read};
use levelcup::source::{Finding, Level, Source};
use levelcup::trace::Trace;
use levelcup::workspace::Site;
use serde::Deserialize;

/// What is found in a recipe that stands alone: its warnings and errors.
fn found(text: &str) -> Vec<Finding> {
    found_in(text, "en-US")
}

/// The same of a recipe in a language.
pub(crate) fn found_in(text: &str, language: &str) -> Vec<Finding> {
    static ENGLISH: LazyLock<(Site, Kitchen)> = LazyLock::new(|| kitchen("en-US"));
    static FRENCH: LazyLock<(Site, Kitchen)> = LazyLock::new(|| kitchen("fr"));
    let (site, kitchen) = if language == "fr" { &*FRENCH } else { &*ENGLISH };
    let lines = LineReader::new(Dictionary::of(language).unwrap(), site.cups.into());
    let source = Source::new("score.yaml", text.to_owned());
    let (recipe, mut found) = read(source, "score", &lines);
    let mut archive = Archive::default();
    archive.add("score", "score.yaml", recipe.as_ref());
    let around =
        Surroundings { site, archive: &archive, photos: None, today: None, shortened: None, trace: &Trace::default() };
    let levels = Levels::of_site(site);
    found.extend(recipe.iter().flat_map(|recipe| proof(&Facts::of(recipe, kitchen), around, &levels)));
    found.retain(|finding| finding.level > Level::Note);
    found
}

fn kitchen(language: &str) -> (Site, Kitchen) {
    let site = Site { language: language.into(), ..Site::default() };
    let kitchen = Kitchen::new(Pantry::embedded(), &site).unwrap();
    (site, kitchen)
}

/// The language that a recipe of a set is in, by its folder.
pub(crate) fn language_of(path: &Path) -> &'static str {
    if path.parent().is_some_and(|folder| folder.ends_with("fr")) { "fr" } else { "en-US" }
}

fn shown(finding: &Finding) -> String {
    format!("{}: {}", finding.rule, finding.message)
}

/// False warnings on all sound recipes together; it may only fall.
const FALSE_ON_SOUND: usize = 0;

#[test]
fn sound_recipes_are_left_alone() {
    let mut paths: Vec<_> = ["tests/scores/sound", "tests/scores/sound-2", "tests/scores/sound-3"]
        .into_iter()
        .flat_map(walkdir::WalkDir::new)
        .map(|entry| entry.unwrap().into_path())
        .filter(|path| path.extension().is_some_and(|end| end == "yaml"))
        .collect();
    paths.sort();
    let told = |path: &Path| -> Vec<String> {
        let found = found_in(&std::fs::read_to_string(path).unwrap(), language_of(path));
        found.iter().map(|finding| format!("{}: {}", path.display(), shown(finding))).collect()
    };
    let wrong: Vec<String> = paths.iter().flat_map(|path| told(path)).collect();
    eprintln!("{}\n{} false warnings on {} sound recipes", wrong.join("\n"), wrong.len(), paths.len());
    assert!(paths.len() >= 109);
    assert_eq!(wrong.len(), FALSE_ON_SOUND);
}

#[derive(Deserialize)]
struct Formula {
    title: String,
    serves: Option<u32>,
    makes: Option<String>,
    name: String,
    ingredients: Vec<String>,
    steps: Vec<String>,
}

/// Sound formulas of which an amount is found odd; it may only fall.
const FALSE_ON_FORMULAS: usize = 0;

#[test]
fn sound_recipes_of_one_component_are_left_alone() {
    let text = std::fs::read_to_string("tests/scores/formulas.yaml").unwrap();
    let formulas: Vec<Formula> = serde_yaml::from_str(&text).unwrap();
    let mut wrong = 0;
    for formula in &formulas {
        let component =
            serde_json::json!({"name": formula.name, "ingredients": formula.ingredients, "steps": formula.steps});
        let mut recipe = serde_json::json!({"title": formula.title, "components": [component]});
        let serves = formula.serves.map(|serves| ("serves", serves.into()));
        let makes = formula.makes.as_deref().map(|makes| ("makes", makes.into()));
        for (key, value) in serves.into_iter().chain(makes) {
            recipe[key] = value;
        }
        let found = found(&recipe.to_string());
        for told in found.iter().filter(|found| found.rule.ends_with("-unusual") || found.rule == "part-missing") {
            wrong += 1;
            eprintln!("{}: {}", formula.title, shown(told));
        }
    }
    eprintln!("{wrong} false warnings on {} sound formulas", formulas.len());
    assert_eq!(wrong, FALSE_ON_FORMULAS);
}

#[derive(Deserialize)]
struct Collective {
    ingredients: Vec<String>,
    steps: Vec<String>,
    unused: Vec<String>,
    unlisted: Vec<String>,
}

/// Small recipes judged wrongly in each set; it may only fall.
#[test]
fn collective_words_are_understood() {
    collective("tests/scores/collective.yaml", 1);
    collective("tests/scores/collective-2.yaml", 0);
}

fn collective(file: &str, allowed: usize) {
    let text = std::fs::read_to_string(file).unwrap();
    let cases: Vec<Collective> = serde_yaml::from_str(&text).unwrap();
    let mut wrong = 0;
    for case in &cases {
        let recipe = serde_json::json!({
            "title": "Quay test", "serves": 4,
            "components": [{"name": "All", "ingredients": case.ingredients, "steps": case.steps}],
        });
        let findings = found(&recipe.to_string());
        let of = |rule: &str| -> Vec<&Finding> { findings.iter().filter(|found| found.rule == rule).collect() };
        let (unused, unlisted) = (of("ingredient-unused"), of("ingredient-unlisted"));
        let tells = |found: &[&Finding], wanted: &[String]| {
            let last = |name: &String| name.rsplit(' ').next().unwrap_or_default().trim_end_matches('s').to_lowercase();
            let told = |name: &String| found.iter().any(|one| one.message.to_lowercase().contains(&last(name)));
            found.len() == wanted.len() && wanted.iter().all(told)
        };
        if !tells(&unused, &case.unused) || !tells(&unlisted, &case.unlisted) {
            wrong += 1;
            let told: Vec<String> = unused.iter().chain(&unlisted).map(|found| shown(found)).collect();
            eprintln!(
                "{:?} {:?}\n   {told:?}, not {:?} {:?}",
                case.ingredients, case.steps, case.unused, case.unlisted
            );
        }
    }
    eprintln!("{wrong} of {} judged wrongly in {file}", cases.len());
    assert!(wrong <= allowed);
}

/// Whether a finding is about a temperature.
pub(crate) fn about_heat(found: &Finding) -> bool {
    ["temperature", "oven-too", "core-", "sugar-stage", "heat-"].iter().any(|start| found.rule.starts_with(start))
}

/// A step, alone or with what it stands in, and whether its temperatures are sound.
#[derive(Deserialize)]
struct Temperature {
    text: String,
    sound: bool,
    why: String,
    name: Option<String>,
    ingredients: Option<Vec<String>>,
    /// The other keys of the step.
    #[serde(flatten)]
    keys: std::collections::BTreeMap<String, String>,
}

/// False warnings on sound phrases, and slips that are missed; both may only fall.
#[test]
fn temperatures_are_judged_by_kind_and_range() {
    temperatures("tests/scores/temperatures.yaml", (1, 2));
    temperatures("tests/scores/temperatures-2.yaml", (0, 0));
    temperatures("tests/scores/temperatures-3.yaml", (0, 0));
}

fn temperatures(file: &str, allowed: (usize, usize)) {
    let text = std::fs::read_to_string(file).unwrap();
    let cases: Vec<Temperature> = serde_yaml::from_str(&text).unwrap();
    let (mut false_alarms, mut missed) = (0, 0);
    for case in &cases {
        let mut step = serde_json::json!({"do": case.text});
        let is_key = |key: &&String| ["oven", "heat", "until", "time", "wait"].contains(&key.as_str());
        for key in case.keys.keys().filter(is_key) {
            step[key] = case.keys[key].clone().into();
        }
        let water = vec!["500 g water".to_string()];
        let component = serde_json::json!({
            "name": case.name.as_deref().unwrap_or("All"),
            "ingredients": case.ingredients.as_ref().unwrap_or(&water),
            "steps": [step],
        });
        let recipe = serde_json::json!({"title": "Quay test", "serves": 4, "components": [component]});
        let language = case.keys.get("language").map_or("en-US", String::as_str);
        let findings = found_in(&recipe.to_string(), language);
        let told: Vec<String> = findings.iter().filter(|found| about_heat(found)).map(shown).collect();
        if case.sound == told.is_empty() {
            continue;
        }
        if case.sound {
            false_alarms += 1
        } else {
            missed += 1
        }
        eprintln!("{} [{}]\n   {told:?}", case.text, case.why);
    }
    eprintln!("{false_alarms} false, {missed} missed of {} in {file}", cases.len());
    assert!(false_alarms <= allowed.0 && missed <= allowed.1);
}

#[derive(Deserialize)]
struct Slip {
    title: String,
    recipe: String,
    slip: String,
    kind: String,
    #[serde(default = "english")]
    language: String,
}

fn english() -> String {
    "en-US".into()
}

/// Planted slips of all that are found in each set; it may only rise.
#[test]
fn planted_slips_are_found() {
    slips("tests/scores/slips.yaml", 65);
    slips("tests/scores/slips-2.yaml", 49);
    slips("tests/scores/slips-3.yaml", 43);
}

fn slips(file: &str, least: usize) {
    let text = std::fs::read_to_string(file).unwrap();
    let slips: Vec<Slip> = serde_yaml::from_str(&text).unwrap();
    let mut caught = 0;
    for slip in &slips {
        let findings = found_in(&slip.recipe, &slip.language);
        // What a recipe lacks besides is no slip of this kind.
        let told: Vec<String> = findings
            .iter()
            .filter(|found| !matches!(found.rule, "yield-missing" | "times-missing" | "unknown-ingredient"))
            .map(shown)
            .collect();
        if told.is_empty() {
            eprintln!("missed {} [{}]: {}", slip.title, slip.kind, slip.slip);
        } else {
            caught += 1;
            eprintln!("found {} [{}]: {}\n    {told:?}", slip.title, slip.kind, slip.slip);
        }
    }
    eprintln!("{caught} of {} planted slips found in {file}", slips.len());
    assert!(caught >= least);
}

#[derive(Deserialize)]
struct RiskyDish {
    dish: String,
    recipe: String,
    #[serde(default = "english")]
    language: String,
    must_raise: Vec<String>,
    must_not: Vec<String>,
}

/// The hazards that a short name of a dish's list stands for.
fn hazards_of(name: &str) -> Vec<&str> {
    let hazards: &[&str] = match name {
        "raw egg" => &["raw-egg", "soft-egg"],
        "hot oil" => &["hot-oil"],
        "botulism in garlic oil" => &["garlic-in-oil"],
        "alcohol" => &["alcohol-stays", "alcohol-faith"],
        "hot sugar" => &["hot-sugar"],
        "honey for infants" => &["honey-infant"],
        "raw flour" => &["raw-flour", "raw-dough"],
        "undercooked poultry" => &["poultry"],
        "rice cooling" => &["rice-kept"],
        "kidney beans" => &["kidney-beans"],
        "pressure" => &["pressure-cooker", "cream-whipper", "bottle-pressure"],
        "home canning acidity" => &["low-acid-preserving", "pickle-acidity"],
        "flowers inedible" => &["flowers"],
        "choking nuts" => &["choking-nuts"],
        "cassava" => &["cassava-bamboo"],
        "rhubarb leaves" => &["rhubarb-leaves"],
        "elderberries raw" => &["raw-elderberry"],
        hazard => return vec![hazard],
    };
    hazards.to_vec()
}

/// Dishes whose hazards are not all raised, or that raise one that only sounds so; it may only fall.
#[test]
fn dishes_of_a_stranger_are_cautioned() {
    risky("tests/scores/dishes.yaml", 2);
    risky("tests/scores/dishes-2.yaml", 0);
    risky("tests/scores/dishes-3.yaml", 0);
    risky("tests/scores/dishes-4.yaml", 0);
}

fn risky(file: &str, allowed: usize) {
    let text = std::fs::read_to_string(file).unwrap();
    let dishes: Vec<RiskyDish> = serde_yaml::from_str(&text).unwrap();
    let kitchens = ["en-US", "fr"].map(kitchen);
    let mut wrong = 0;
    for dish in &dishes {
        let (site, kitchen) = &kitchens[usize::from(dish.language == "fr")];
        let lines = LineReader::new(Dictionary::of(&dish.language).unwrap(), site.cups.into());
        let (recipe, findings) = read(Source::new("dish.yaml", dish.recipe.clone()), "dish", &lines);
        let recipe = recipe.unwrap_or_else(|| panic!("{}: {findings:?}", dish.dish));
        let found = Facts::of(&recipe, kitchen).hazards();
        // Flowers that may be eaten are cautioned in other words than those that poison.
        let poisons = |found: &&levelcup::facts::Found| found.hazard.name() != "flowers" || !found.more.is_empty();
        let raised: Vec<&str> = found.iter().filter(poisons).map(|found| found.hazard.name()).collect();
        let told = |name: &&String| hazards_of(name).iter().any(|hazard| raised.contains(hazard));
        let missed: Vec<&String> = dish.must_raise.iter().filter(|name| !told(name)).collect();
        let said: Vec<&String> = dish.must_not.iter().filter(told).collect();
        if !missed.is_empty() || !said.is_empty() {
            wrong += 1;
            eprintln!("{}: missed {missed:?}, false {said:?}; raised {raised:?}", dish.dish);
        }
    }
    eprintln!("{wrong} of {} dishes wrong in {file}", dishes.len());
    assert!(wrong <= allowed);
}
