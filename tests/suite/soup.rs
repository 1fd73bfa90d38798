//! Recipes of words thrown together: whatever they say, they are read, proofed and computed.

use std::sync::LazyLock;

use levelcup::facts::Facts;
use levelcup::kitchen::Kitchen;
use levelcup::language::{Dictionary, Language};
use levelcup::pantry::Pantry;
use levelcup::proof::{Archive, Levels, Surroundings, proof};
use levelcup::recipe::{LineReader, read};
use levelcup::render::{Environment, html_post};
use levelcup::sheet::sheet;
use levelcup::source::{Gate, Source};
use levelcup::trace::Trace;
use levelcup::workspace::Site;
use proptest::prelude::*;

/// What texts on temperatures, times, amounts and pieces are made of.
const WORDS: [&str; 84] = [
    "gas",
    "gas mark",
    "Gas",
    "oven",
    "fan",
    "bake",
    "to",
    "or",
    "at",
    "of",
    "the",
    "and",
    "then",
    "about",
    "each",
    "half",
    "rest",
    "a third",
    "all",
    "it",
    "cup",
    "cups",
    "tbsp",
    "g",
    "kg",
    "oz",
    "lb",
    "ml",
    "min",
    "h",
    "overnight",
    "°C",
    "°F",
    "C",
    "F",
    "°",
    "degrees",
    "cm",
    "inch",
    "mm",
    "\"",
    "″",
    "x",
    "×",
    "-",
    "–",
    "−",
    "/",
    ",",
    ".",
    ";",
    ":",
    "(",
    ")",
    "+",
    "~",
    "½",
    "¾",
    "1/2",
    "2 1/2",
    "0",
    "1",
    "4",
    "24",
    "180",
    "350",
    "1000000",
    "99999999999999999999",
    "0.5",
    "1,5",
    "½½",
    "1/0",
    "egg",
    "eggs",
    "butter",
    "flour",
    "sugar",
    "syrup",
    "caramel",
    "it reaches",
    "core",
    "\u{a0}",
    "é",
    "\u{301}",
];

/// Words with or without a space between them.
pub(crate) fn words() -> impl Strategy<Value = String> {
    let word = prop::sample::select(&WORDS[..]);
    prop::collection::vec((word, prop::bool::weighted(0.7)), 1..14).prop_map(|words| {
        let spaced = |(word, space): (&str, bool)| format!("{word}{}", if space { " " } else { "" });
        words.into_iter().map(spaced).collect()
    })
}

/// Takes a recipe through all that is done with it; whether it was understood.
pub(crate) fn recipe(line: &str, step: &str, until: &str, makes: &str) -> bool {
    static ENVIRONMENT: LazyLock<Environment> =
        LazyLock::new(|| Environment::new(None, &Gate::anywhere(), &Language::default()).unwrap());
    static KITCHEN: LazyLock<Kitchen> = LazyLock::new(|| Kitchen::new(Pantry::embedded(), &Site::default()).unwrap());
    static LINES: LazyLock<LineReader> =
        LazyLock::new(|| LineReader::new(Dictionary::of("en-US").unwrap(), Site::default().cups.into()));
    let [line, step, until, makes] = [line, step, until, makes].map(|text| serde_json::to_string(text).unwrap());
    let text = format!(
        "title: Soup\nmakes: {makes}\ncomponents:\n  - name: Soup\n    ingredients: [{line}, 100 g butter, 2 eggs]\n    \
         steps: [{{do: {step}, until: {until}}}, {step}]\n"
    );
    let (recipe, _) = read(Source::new("soup.yaml", text), "soup", &LINES);
    let Some(recipe) = recipe else { return false };
    let (site, archive) = (Site::default(), Archive::default());
    let facts = Facts::of(&recipe, &KITCHEN);
    let around = Surroundings {
        site: &site,
        archive: &archive,
        photos: None,
        today: None,
        shortened: None,
        trace: &Trace::default(),
    };
    proof(&facts, around, &Levels::default());
    html_post(&ENVIRONMENT, &site, &sheet(&facts)).unwrap();
    true
}
