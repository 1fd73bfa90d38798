//! What can hurt somebody is said, and what only looks like it is not.
//!
//! Each case of `tests/cautions/cases.yaml` is a recipe of a few lines with the topics that it must raise, in their
//! order; what it must not raise is everything else. A case named `near: ...` is one that a word alone would get wrong, and
//! says which hazards that would be.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use levelcup::facts::{Facts, Hazard};
use levelcup::kitchen::Kitchen;
use levelcup::language::{Dictionary, Language};
use levelcup::pantry::Pantry;
use levelcup::recipe::{LineReader, read};
use levelcup::sheet::{Sheet, sheet};
use levelcup::source::Source;
use levelcup::workspace::Site;
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    #[serde(default = "untitled")]
    title: String,
    lines: Vec<String>,
    steps: Vec<serde_yaml::Value>,
    raises: Vec<String>,
    /// What a near miss looks like.
    #[serde(default)]
    not: Vec<String>,
}

fn untitled() -> String {
    "Quay test".into()
}

/// The sheet of a recipe of one component, in American English, and the hazards by name.
fn sheet_of(title: &str, lines: &[String], steps: &[serde_yaml::Value]) -> (Sheet, Vec<String>) {
    sheet_in("en-US", title, lines, steps)
}

/// The same in a language.
fn sheet_in(language: &str, title: &str, lines: &[String], steps: &[serde_yaml::Value]) -> (Sheet, Vec<String>) {
    static PANTRY: LazyLock<Pantry> = LazyLock::new(Pantry::embedded);
    let site = Site { language: language.into(), ..Site::default() };
    let kitchen = Kitchen::new(PANTRY.clone(), &site).unwrap();
    let reader = LineReader::new(Dictionary::of(language).unwrap(), site.cups.into());
    let recipe = serde_json::json!({
        "title": title, "serves": 4, "components": [{"name": "The whole", "ingredients": lines, "steps": steps}],
    });
    let (recipe, findings) = read(Source::new("case.yaml", recipe.to_string()), "case", &reader);
    let recipe = recipe.unwrap_or_else(|| panic!("{title}: {findings:?}"));
    let facts = Facts::of(&recipe, &kitchen);
    let mut raised: Vec<String> = facts.hazards().iter().map(|found| found.hazard.name().into()).collect();
    let sheet = sheet(&facts);
    let own = sheet.cautions.len() - raised.len();
    raised.extend(vec!["the author's own".to_string(); own]);
    (sheet, raised)
}

/// Garlic kept under oil is no safer because a bread that it goes on is baked.
#[test]
fn what_becomes_of_a_jar_later_does_not_make_it_safe() {
    let raises = |garlic: &str| {
        let recipe = format!(
            "title: Focaccia\ncomponents:\n- name: Garlic\n  ingredients: [100 g garlic cloves, 250 g olive oil]\n  \
             steps: [{garlic}]\n- name: Dough\n  uses: [Garlic]\n  ingredients: [500 g bread flour, 380 g water, 10 g \
             fine salt, 20 g vinegar]\n  steps: [Mix everything and let it rise., {{do: Spread the garlic over and \
             bake., oven: 230 °C, time: 25 min}}]\n"
        );
        let site = Site::default();
        let kitchen = Kitchen::new(Pantry::embedded(), &site).unwrap();
        let reader = LineReader::new(Dictionary::of("en-US").unwrap(), site.cups.into());
        let recipe = read(Source::new("case.yaml", recipe), "case", &reader).0.unwrap();
        Facts::of(&recipe, &kitchen).hazards().iter().any(|found| found.hazard.name() == "garlic-in-oil")
    };
    assert!(raises("Cook the garlic softly and keep it under its oil in a jar in the fridge for up to a month."));
    assert!(!raises("Cook the garlic softly in the oil until it is soft."));
}

fn cases() -> Vec<Case> {
    serde_yaml::from_str(&std::fs::read_to_string("tests/cautions/cases.yaml").unwrap()).unwrap()
}

#[test]
fn each_case_raises_what_it_must_and_nothing_else() {
    let mut wrong = Vec::new();
    for case in &cases() {
        let (sheet, raised) = sheet_of(&case.title, &case.lines, &case.steps);
        if raised != case.raises {
            wrong.push(format!("{}\n  expected {:?}\n  got      {raised:?}", case.name, case.raises));
        }
        for caution in &sheet.cautions {
            assert!(!caution.text.is_empty() && !caution.text.contains(['{', '}']), "{}: {}", case.name, caution.text);
        }
    }
    assert!(wrong.is_empty(), "tests/cautions/cases.yaml:\n{}", wrong.join("\n"));
}

/// Every hazard has a case that raises it and one that only looks so, here or among the dishes.
#[test]
fn every_hazard_has_a_case_and_a_near_miss() {
    let dishes: Vec<serde_json::Value> =
        serde_json::from_str(&std::fs::read_to_string("tests/cautions/dishes.json").unwrap()).unwrap();
    let of_dishes = |key: &str| -> BTreeSet<String> {
        let lists = dishes.iter().filter_map(|dish| dish[key].as_array());
        lists.flatten().filter_map(|name| name.as_str().map(str::to_string)).collect()
    };
    let cases = cases();
    let raised: BTreeSet<String> =
        cases.iter().flat_map(|case| case.raises.clone()).chain(of_dishes("expect")).collect();
    let near: BTreeSet<String> = cases.iter().flat_map(|case| case.not.clone()).chain(of_dishes("refuse")).collect();
    let names = || Hazard::ALL.iter().map(|hazard| hazard.name());
    let lacking: Vec<_> = names().filter(|name| !raised.contains(*name)).collect();
    assert!(
        lacking.is_empty(),
        "tests/cautions/cases.yaml: expected `raises` of every hazard, got none of {lacking:?}"
    );
    let lacking: Vec<_> = names().filter(|name| !near.contains(*name)).collect();
    assert!(
        lacking.is_empty(),
        "tests/cautions/cases.yaml: expected a near miss (`not`) of every hazard, got none of {lacking:?}"
    );
    let unknown: Vec<_> = near.iter().filter(|name| !names().any(|known| known == *name)).collect();
    assert!(unknown.is_empty(), "tests/cautions: `not` and `refuse` name {unknown:?}, which no hazard is called");
    for case in &cases {
        assert_eq!(case.name.starts_with("near: "), !case.not.is_empty(), "{}: a near miss says `not`", case.name);
        let both: Vec<_> = case.not.iter().filter(|name| case.raises.contains(name)).collect();
        assert!(both.is_empty(), "{}: `raises` and `not` both have {both:?}", case.name);
    }
}

/// Whatever the language of the site, a recipe raises the same, and says it in that language.
#[test]
fn every_language_raises_the_same() {
    for case in &cases() {
        for language in Language::tags() {
            let (_, raised) = sheet_in(language, &case.title, &case.lines, &case.steps);
            assert_eq!(
                raised, case.raises,
                "tests/cautions/cases.yaml, {}, in {language}: got and expected",
                case.name
            );
        }
    }
}

#[test]
fn french_recipes_raise_what_english_ones_do() {
    let raises = |title: &str, lines: &[&str], step: &str| -> Vec<String> {
        let lines: Vec<String> = lines.iter().map(|line| (*line).to_string()).collect();
        sheet_in("fr", title, &lines, &[step.into()]).1
    };
    let none: [&str; 0] = [];
    assert_eq!(raises("Confiture d’abricots", &["1 kg d'abricots"], "Mettre en pots."), ["jars-altitude"]);
    assert_eq!(raises("Tarte aux abricots", &["1 kg d'abricots"], "Enfourner."), none);
    assert_eq!(raises("Mousse", &["4 œufs", "200 g de chocolat noir"], "Incorporer les blancs."), ["raw-egg"]);
    assert_eq!(raises("Flan", &["4 œufs", "500 g de lait entier"], "Cuire au four."), none);
    assert_eq!(
        raises("Sauce", &["200 g de sucre", "100 g de crème"], "Cuire le sucre en caramel, ajouter la crème."),
        ["hot-sugar", "caramel-liquid"]
    );
    assert_eq!(raises("Beignets", &["500 g de pommes"], "Plonger dans l’huile chaude."), ["hot-oil"]);
    assert_eq!(raises("Pain d’épices", &["200 g de miel"], "Mélanger."), ["honey-infant"]);
    assert_eq!(raises("Tartare", &["400 g d’entrecôte"], "Tailler l’entrecôte en dés."), ["raw-beef"]);
    assert_eq!(raises("Fraises", &["300 g de crème crue de la ferme"], "Napper les fraises."), ["raw-milk"]);
    assert_eq!(raises("Fraises", &["300 g de crème glacée de la ferme"], "Servir."), none);
    assert_eq!(raises("Poêlée", &["300 g de champignons de ma cueillette"], "Faire revenir."), ["wild-mushrooms"]);
    assert_eq!(raises("Riz sauté", &["500 g de riz basmati cuit la veille"], "Faire sauter."), ["rice-kept"]);
    assert_eq!(
        raises("Soupe", &["1 kg de courge"], "Courges ressemées sur le compost. Faire mijoter."),
        ["bitter-squash"]
    );
    assert_eq!(
        raises("Bananes", &["4 bananes", "60 g de rhum"], "Approchez une allumette."),
        ["flambe", "alcohol-stays"]
    );
    assert_eq!(
        raises("Courgettes", &["500 g de courgettes"], "Installer le barbecue dans le garage et griller."),
        ["indoor-charcoal"]
    );
    assert_eq!(
        raises("Caramel", &["200 g de sucre", "100 g d'eau"], "Chauffer le sucre et l’eau jusqu’à une couleur acajou."),
        ["hot-sugar"]
    );
    assert_eq!(
        raises("Oignons", &["800 g d'oignons", "15 g de sucre"], "Cuire les oignons avec le sucre, couleur acajou."),
        none
    );
    assert_eq!(raises("Sorbet", &["200 g de framboises"], "Refroidir avec de la neige carbonique."), ["dry-ice"]);
}

#[test]
fn what_brings_a_hazard_in_is_named() {
    let said = |lines: &[&str]| {
        let lines: Vec<String> = lines.iter().map(|line| (*line).to_string()).collect();
        let (sheet, _) = sheet_of("Quay test", &lines, &["Mix it.".into()]);
        sheet.cautions.iter().map(|caution| caution.text.clone()).collect::<Vec<_>>().join("\n")
    };
    assert!(said(&["50 g chopped hazelnuts", "50 g flaked almonds"]).contains("Contains almond, hazelnut: tell"));
    assert!(said(&["50 g peanut butter"]).contains("Contains peanut butter: tell"));
    assert!(said(&["20 g dark rum"]).contains("Contains alcohol: rum."));
}

/// Lines that bring an allergen of each list in. Sources of the lists: FALCPA 2004 with the FASTER Act 2021; Regulation
/// (EU) 1169/2011, Annex II.
#[test]
fn allergens_come_from_the_rows() {
    let of = |line: &str| {
        let (sheet, _) = sheet_of("Quay test", &[line.to_string()], &["Mix it.".into()]);
        (sheet.allergens.us.join("; "), sheet.allergens.eu.join("; "))
    };
    let case = |line: &str, us: &str, eu: &str| assert_eq!(of(line), (us.to_string(), eu.to_string()), "{line}");
    case("100 g whole milk", "milk", "milk");
    case("2 eggs", "eggs", "eggs");
    case("100 g salmon", "fish (salmon)", "fish (salmon)");
    case("100 g shrimp", "crustacean shellfish (shrimp)", "crustaceans (shrimp)");
    case("100 g walnuts", "tree nuts (walnut)", "nuts (walnut)");
    case("100 g peanuts", "peanuts", "peanuts");
    case("100 g plain flour", "wheat", "cereals containing gluten (wheat)");
    case("100 g rye flour", "", "cereals containing gluten (rye)");
    case("500 g beer", "", "cereals containing gluten (barley)");
    case("50 g rolled oats", "", "cereals containing gluten (oats)");
    case("3 malt biscuits", "wheat", "cereals containing gluten (barley, wheat)");
    case("100 g soy flour", "soybeans", "soybeans");
    case("10 g sesame seeds", "sesame", "sesame");
    case("100 g celery", "", "celery");
    case("10 g Dijon mustard", "", "mustard; sulphur dioxide and sulphites");
    case("100 g dried apricots", "", "sulphur dioxide and sulphites");
    case("100 g lupin flour", "", "lupin");
    case("100 g squid", "", "molluscs");
    case("100 g caster sugar", "", "");
    case("100 g coconut", "", "");
    case("100 g buckwheat flour", "", "");
}

/// Every allergen that a row carries is one of its list: a misspelt one would never be printed.
#[test]
fn rows_carry_allergens_of_the_lists_alone() {
    const US: [&str; 9] = ["milk", "egg", "fish", "crustacean", "tree-nut", "peanut", "wheat", "soybean", "sesame"];
    const EU: [&str; 14] = [
        "gluten",
        "crustacean",
        "egg",
        "fish",
        "peanut",
        "soybean",
        "milk",
        "nut",
        "celery",
        "mustard",
        "sesame",
        "sulphite",
        "lupin",
        "mollusc",
    ];
    let (mut us, mut eu) = (BTreeSet::new(), BTreeSet::new());
    for row in Pantry::embedded().rows() {
        us.extend(row.allergens.us.iter().cloned());
        eu.extend(row.allergens.eu.iter().cloned());
    }
    assert_eq!(us.iter().map(String::as_str).collect::<BTreeSet<_>>(), US.into_iter().collect());
    assert_eq!(eu.iter().map(String::as_str).collect::<BTreeSet<_>>(), EU.into_iter().collect());
}

/// What may be left out is in no sum; what cannot be weighed makes the sum unknown.
#[test]
fn nutrition_counts_what_is_eaten() {
    let kcal = |lines: &[&str]| {
        let lines: Vec<String> = lines.iter().map(|line| (*line).to_string()).collect();
        sheet_of("Quay test", &lines, &["Mix it.".into()]).0.nutrition.map(|nutrition| nutrition.kcal)
    };
    // 100 g butter is 717 kcal (USDA SR28 01001), a quarter of it 179.
    assert_eq!(kcal(&["100 g butter"]).as_deref(), Some("180"));
    assert_eq!(kcal(&["100 g butter", "100 g caster sugar (optional)"]).as_deref(), Some("180"));
    assert_ne!(kcal(&["100 g butter", "100 g caster sugar"]).as_deref(), Some("180"));
    assert_eq!(kcal(&["100 g butter", "100 g quayside dust"]), None);
}

/// A spoon that would be too far off is not offered alone.
#[test]
fn what_no_spoon_measures_is_better_weighed() {
    let line = |line: &str| {
        let (sheet, _) = sheet_of("Quay test", &[line.to_string()], &["Mix it.".into()]);
        let line = &sheet.components[0].lines[0];
        (line.weigh, line.measure.clone().unwrap_or_default())
    };
    assert!(line("0.3 g gelatin powder").0);
    assert_eq!(line("9 g gelatin powder"), (false, "1 tbsp".to_string()));
    assert_eq!(line("244 g whole milk"), (false, "1 cup".to_string()));
}
