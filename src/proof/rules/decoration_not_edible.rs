//! What it finds: glitter or dust for decoration that is not said to be edible.
//!
//! Why it matters: much of what is sold for cakes is metal or plastic; children were poisoned by copper and lead in it.
//!
//! Example: `1 tsp gold lustre dust`
//!
//! Instead: `1 tsp edible gold lustre dust`
//!
//! Source: FDA, decorative products in foods; CDC MMWR 70(43), 29 October 2021.

use crate::proof::Context;
use crate::proof::said::Key;
use crate::source::Finding;

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

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let edible = |text: &str| {
        ["edible", "food-safe", "food safe", "food-grade", "food grade", "e171", "e172"]
            .iter()
            .any(|word| text.contains(word))
    };
    let named = |text: &str| DUSTS.iter().find(|dust| text.contains(**dust)).copied();
    let source = &context.recipe.source;
    let lines = context.lines().map(|(_, line)| (source.slice(&line.span).to_lowercase(), line.span.clone()));
    let steps = context
        .said
        .iter()
        .filter(|said| said.key == Key::Do)
        .map(|said| (said.text.to_lowercase(), said.span(0..said.text.len())));
    let all: Vec<_> = lines.chain(steps).collect();
    if all.iter().any(|(text, _)| named(text).is_some() && edible(text)) {
        return Vec::new();
    }
    let first = all.into_iter().find_map(|(text, span)| Some((named(&text)?, span)));
    let found = first.map(|(dust, span)| {
        let found = Finding::at(span, format!("nothing says that the {dust} is edible"));
        found.help(
            "use what is labelled edible with a list of ingredients, and say so: `edible ...`; `non-toxic` is not food",
        )
    });
    found.into_iter().collect()
}
