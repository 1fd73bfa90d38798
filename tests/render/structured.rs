use levelcup::language::Language;
use levelcup::render::{Environment, json_ld, shown};
use levelcup::source::Gate;
use levelcup::workspace::Site;
use serde_json::{Value, json};

use crate::fixture::{site, tart};

/// The properties that we may write for each type. Source: schema.org, read through schema-dts 2.1.0.
const PROPERTIES: [(&str, &[&str]); 11] = [
    (
        "Recipe",
        &[
            "@context",
            "name",
            "description",
            "url",
            "image",
            "author",
            "datePublished",
            "dateModified",
            "inLanguage",
            "keywords",
            "recipeYield",
            "prepTime",
            "cookTime",
            "totalTime",
            "tool",
            "supply",
            "recipeIngredient",
            "recipeInstructions",
            "nutrition",
            "video",
        ],
    ),
    (
        "NutritionInformation",
        &[
            "servingSize",
            "calories",
            "fatContent",
            "saturatedFatContent",
            "carbohydrateContent",
            "sugarContent",
            "fiberContent",
            "proteinContent",
            "sodiumContent",
        ],
    ),
    ("Organization", &["name", "url"]),
    ("HowToTool", &["name"]),
    ("HowToSupply", &["name"]),
    ("HowToSection", &["position", "name", "itemListElement"]),
    ("HowToStep", &["position", "name", "text", "url", "itemListElement"]),
    ("HowToDirection", &["position", "text"]),
    ("HowToTip", &["position", "text"]),
    ("VideoObject", &["name", "description", "url", "thumbnailUrl", "uploadDate", "duration", "hasPart"]),
    ("Clip", &["name", "startOffset", "endOffset", "url"]),
];

fn made(site: &Site) -> Value {
    let environment = Environment::new(None, &Gate::anywhere(), &Language::default())
        .expect("the built-in templates are well formed");
    let sheet = tart();
    let shown = shown(&sheet).expect("a sheet can be written down");
    json!(json_ld(&environment, site, &sheet, &shown).expect("the templates are right"))
}

fn assert_known(value: &Value) {
    match value {
        Value::Object(map) => {
            let kind = map["@type"].as_str().expect("every object has a type");
            let (_, known) = PROPERTIES.iter().find(|(name, _)| *name == kind).expect("a known type");
            for (name, value) in map.iter().filter(|(name, _)| *name != "@type") {
                assert!(known.contains(&name.as_str()), "{kind} has no {name}");
                assert!(!value.is_null(), "{kind}.{name} is null");
                assert_known(value);
            }
        }
        Value::Array(elements) => elements.iter().for_each(assert_known),
        _ => {}
    }
}

#[test]
fn only_properties_of_the_vocabulary_are_written() {
    assert_known(&made(&site()));
}

#[test]
fn values_have_the_forms_that_readers_ask_for() {
    let recipe = made(&site());
    assert_eq!(recipe["recipeYield"], json!(["10 servings", "one 24 cm tart"]));
    assert_eq!(recipe["totalTime"], "PT4H10M");
    assert_eq!(recipe["recipeIngredient"][1], "110 g (1/2 cup) butter, cold, diced");
    let bake = &recipe["recipeInstructions"][0]["itemListElement"][2];
    assert_eq!(bake["position"], 3);
    assert_eq!(bake["url"], "https://tern-quay.example/pear-rye-tart/#rye-pastry--3");
    assert_eq!(
        bake["text"],
        "Line a 24 cm (9 1/2 in) ring and bake blind. Oven 180 °C (350 °F), 22–25 min, until dry and biscuit-coloured at the rim."
    );
    assert_eq!(recipe["video"]["hasPart"][1]["startOffset"], 155);
    assert_eq!(recipe["recipeInstructions"][2]["itemListElement"][0]["itemListElement"][1]["@type"], "HowToTip");
}

#[test]
fn a_site_without_an_address_leads_nowhere() {
    let recipe = made(&Site { url: String::new(), ..site() });
    assert_known(&recipe);
    assert!(recipe.get("url").is_none() && recipe.get("image").is_none());
    assert!(recipe["recipeInstructions"][0]["itemListElement"][0].get("url").is_none());
}
