//! What it finds: glitter or dust for decoration that is not said to be edible, wire and thread without a word that they
//! come off, and flowers that are poisonous.
//!
//! Why it matters: much of what is sold for cakes is metal or plastic, and children were poisoned by copper and lead in
//! it; a wire is bitten on; lily of the valley harms by touch alone.
//!
//! Example: `1 tsp gold lustre dust`
//!
//! Instead: `1 tsp edible gold lustre dust`
//!
//! Source: FDA, decorative products in foods; CDC MMWR 70(43), 29 October 2021. Wires and thread: common practice. The
//! flowers are on the lists of poison centres (from memory); what is not named here is not safe for that.

use crate::facts::StepKey;
use crate::proof::Context;
use crate::source::{Finding, Span};

const DUSTS: [&str; 9] = [
    "glitter",
    "lustre dust",
    "luster dust",
    "disco dust",
    "petal dust",
    "highlighter dust",
    "pearl dust",
    "bronze powder",
    "metallic dust",
];

/// What holds a decoration together, and is bitten on.
const HARD: [&str; 8] = [
    "wired ",
    "floral wire",
    "florist wire",
    "florist's wire",
    "cotton thread",
    "sewing thread",
    "satin ribbon",
    "pearl-headed pin",
];

/// Words by which a reader knows that something is not eaten.
const COMES_OFF: [&str; 9] = [
    "remove",
    "take off",
    "take out",
    "pull out",
    "not edible",
    "inedible",
    "not to be eaten",
    "untie",
    "before serving",
];

/// Garden flowers that harm whoever eats them, or what they lay on.
const POISONOUS: [&str; 24] = [
    "lily of the valley",
    "foxglove",
    "oleander",
    "monkshood",
    "aconite",
    "delphinium",
    "larkspur",
    "hydrangea",
    "daffodil",
    "narcissus",
    "rhododendron",
    "azalea",
    "wisteria",
    "laburnum",
    "sweet pea flower",
    "buttercup flower",
    "hellebore",
    "autumn crocus",
    "snowdrop",
    "hyacinth",
    "mistletoe",
    "holly berr",
    "ivy leaves",
    "angel's trumpet",
];

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let source = &context.recipe.source;
    let lines = context.lines().map(|(_, line)| (source.slice(&line.span).to_lowercase(), line.span.clone()));
    let said = context.said().filter(|said| matches!(said.key, StepKey::Do | StepKey::Mind));
    let steps = said.map(|said| (said.text.to_lowercase(), said.span(0..said.text.len())));
    let texts: Vec<LoweredText> = lines.chain(steps).collect();
    [dust(&texts), hard(&texts), poisonous(&texts)].into_iter().flatten().collect()
}

/// A line or step in lower case, and its place.
type LoweredText = (String, Span);

/// The first text with one of some words, and the word.
fn first(texts: &[LoweredText], words: &[&'static str]) -> Option<(&'static str, Span)> {
    texts.iter().find_map(|(text, span)| Some((*words.iter().find(|word| text.contains(**word))?, span.clone())))
}

fn says(texts: &[LoweredText], words: &[&str]) -> bool {
    texts.iter().any(|(text, _)| words.iter().any(|word| text.contains(word)))
}

fn dust(texts: &[LoweredText]) -> Option<Finding> {
    let edible = ["edible", "food-safe", "food safe", "food-grade", "food grade", "e171", "e172"];
    let named: Vec<LoweredText> =
        texts.iter().filter(|(text, _)| DUSTS.iter().any(|dust| text.contains(dust))).cloned().collect();
    let (dust, span) = first(&named, &DUSTS).filter(|_| !says(&named, &edible))?;
    let found = Finding::at(span, format!("nothing says that the {dust} is edible"));
    Some(found.help(
        "use what is labelled edible with a list of ingredients, and say so: `edible ...`; `non-toxic` is not food",
    ))
}

fn hard(texts: &[LoweredText]) -> Option<Finding> {
    let (word, span) = first(texts, &HARD).filter(|_| !says(texts, &COMES_OFF))?;
    let what = if word.ends_with(' ') { "wire" } else { word };
    let found = Finding::at(span, format!("nothing says that the {what} comes off before eating"));
    Some(found.help("say that it is removed before serving, and how many pieces there are to count"))
}

fn poisonous(texts: &[LoweredText]) -> Option<Finding> {
    let (flower, span) = first(texts, &POISONOUS)?;
    let made = |text: &str| {
        ["sugar", "icing", "marzipan", "paper", "silk"].iter().any(|of| {
            let forms = [format!("{of} {flower}"), format!("{flower} in {of}"), format!("{flower} of {of}")];
            forms.iter().any(|form| text.contains(form))
        })
    };
    let real = texts.iter().any(|(text, _)| text.contains(flower) && !made(text));
    let found = Finding::at(span, format!("`{flower}` is poisonous: it must not lie on food"));
    real.then(|| found.help("take a flower that is grown and sold for eating"))
}
