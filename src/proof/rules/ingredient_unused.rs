//! What it finds: an ingredient that no step of its component names.
//!
//! Why it matters: the reader holds a bowl of it and does not know where it goes.
//!
//! Example: `60 g buckwheat flour` among the ingredients, and steps that speak of butter and sugar only
//!
//! Instead: `Rub the butter into both flours.`
//!
//! Source: rule of the house. A name, a part of one, its family (`the spices`), or words for all of them (`everything`,
//! `the dry ingredients`) are enough; garnishes, lines with a purpose (`for the tin`) and options are passed over.

use crate::facts::{LineFacts, Names, Said};
use crate::kitchen::Kitchen;
use crate::language::Word;
use crate::pantry::{Role, words};
use crate::proof::Context;
use crate::recipe::{Component, Ingredient};
use crate::source::Finding;

/// Words that mean all lines at once.
const ALL: [&str; 5] = ["ingredient", "everything", "lot", "remainder", "seasoning"];

/// Families of the pantry, and the words for all of one.
const FAMILIES: [(&str, &[&str]); 19] = [
    ("leavening", &["leavener", "leavening", "raiser"]),
    ("meat", &["meat", "mince", "patty", "burger", "joint", "bird", "sausage"]),
    ("fish", &["fish", "fillet"]),
    ("spice", &["spice", "season"]),
    ("salt", &["season", "salt"]),
    ("herb", &["herb"]),
    ("nut", &["nut"]),
    ("fruit", &["fruit", "berry"]),
    ("dried-fruit", &["fruit"]),
    ("vegetable", &["vegetable", "veg"]),
    ("flour", &["flour"]),
    ("sugar", &["sugar"]),
    ("syrup", &["syrup"]),
    ("chocolate", &["chocolate"]),
    ("cheese", &["cheese"]),
    ("oil", &["oil", "grease", "fry"]),
    ("fat", &["fat", "grease"]),
    ("egg", &["egg"]),
    ("liquid", &["liquid"]),
];

/// Steps that need no object.
const VERBS: [&str; 16] = [
    "rub", "pulse", "blitz", "melt", "boil", "heat", "mix", "combine", "blend", "whisk", "stir", "beat", "knead",
    "proces", "process", "assemble",
];

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let components = context.recipe.components.iter().enumerate();
    components.flat_map(|(at, component)| unused(context, at, component)).collect()
}

fn unused(context: &Context<'_>, at: usize, component: &Component) -> Vec<Finding> {
    if component.ingredients.len() < 2 || component.steps.is_empty() {
        return Vec::new();
    }
    let users = (at + 1..context.recipe.components.len()).filter(|later| context.uses(*later, at));
    let rooms: Vec<usize> = std::iter::once(at).chain(users).collect();
    let said: Vec<&Said<'_>> = context.said().filter(|said| rooms.contains(&said.component)).collect();
    if said.iter().any(|said| means_all(said)) {
        return Vec::new();
    }
    let lines = &context.facts.lines[at];
    let mut open = not_named(&context.facts.names[at], lines.len(), &said, context);
    if !open.is_empty() {
        let by_row = not_named(&Names::of_rows(lines), lines.len(), &said, context);
        open.retain(|line| by_row.contains(line));
    }
    open.into_iter()
        .map(|line| &lines[line])
        .filter(|line| {
            let ingredient = line.ingredient;
            !is_passed_over(ingredient)
                && !is_the_dish(component, ingredient)
                && !by_family(context.kitchen(), line, &said)
        })
        .map(|line| finding(component, line.ingredient))
        .collect()
}

/// The lines that no text names.
fn not_named(names: &Names, lines: usize, said: &[&Said<'_>], context: &Context<'_>) -> Vec<usize> {
    let mut named = vec![false; lines];
    for said in said {
        names.in_text(&said.words, context.language()).concat().into_iter().for_each(|found| named[found.line] = true);
    }
    (0..named.len()).filter(|line| !named[*line]).collect()
}

fn means_all(said: &Said<'_>) -> bool {
    let words = &said.words;
    let first = words.first().is_some_and(|first| VERBS.contains(&first.stem.as_str()));
    let verb = |at: usize| words.get(at).is_some_and(|word| VERBS.contains(&word.stem.as_str()));
    let together = words.get(1).is_some_and(|next| match next.stem.as_str() {
        "and" => verb(2),
        stem => next.before.contains(',') || matches!(stem, "together" | "well" | "until" | "to"),
    });
    let short = first && (words.len() <= 3 || together);
    let number = |word: &Word| matches!(word.stem.as_str(), "two" | "three" | "four" | "five" | "six");
    let all_of = words.windows(2).any(|two| {
        let rest = matches!(two[1].stem.as_str(), "the" | "of" | "together" | "but" | "except");
        two[0].stem == "all" && (rest || number(&two[1]))
    });
    let the_three =
        words.windows(3).any(|three| three[0].stem == "the" && number(&three[1]) && three[2].stem == "together");
    let dry = words.windows(2).any(|two| {
        let rest = said.text[two[1].span.end..].trim_start();
        let things = ["thing", "good", "stuff", "mix", "element", "one"];
        let named = rest.split(|c: char| !c.is_alphabetic()).next().unwrap_or_default();
        two[0].stem == "the"
            && matches!(two[1].stem.as_str(), "dry" | "wet")
            && (rest.is_empty()
                || rest.starts_with([',', '.', ';'])
                || things.contains(&named.trim_end_matches('s'))
                || matches!(named, "in" | "into" | "with" | "and" | "together" | "to"))
    });
    short || all_of || the_three || dry || said.has(&ALL)
}

/// What needs no step: a purpose is said in the line, or it may be left out.
fn is_passed_over(ingredient: &Ingredient) -> bool {
    let line = &ingredient.line;
    let purpose = |text: &Option<String>| {
        let text = text.as_deref().unwrap_or_default().to_lowercase();
        ["for ", "to ", "as ", "if "].iter().any(|start| text.starts_with(start))
            || text.contains(" for ")
            || text.contains(" to ")
    };
    line.optional || line.to_taste || purpose(&line.prep) || purpose(&line.note)
}

/// `2.5 kg turkey crown` in a component called `Turkey` is what every step is about.
fn is_the_dish(component: &Component, ingredient: &Ingredient) -> bool {
    let line = words(&ingredient.line.name);
    let dish = words(&component.name);
    !dish.is_empty() && dish.iter().all(|word| line.contains(word))
}

fn by_family(kitchen: &Kitchen, line: &LineFacts<'_>, said: &[&Said<'_>]) -> bool {
    // Of `salt and pepper` the one stands for both.
    let first = |name: &str| name.split(" and ").next().and_then(|first| kitchen.pantry().find(first));
    let row = line.row.or_else(|| first(&line.ingredient.line.name));
    let Some(row) = row else { return false };
    if row.is(Role::Water) {
        // Water is what things are soaked, boiled and let down with.
        let verbs =
            ["soak", "boil", "bloom", "simmer", "poach", "steep", "dilute", "rehydrate", "soften", "moisten", "wet"];
        return said.iter().any(|said| said.has(&verbs));
    }
    let words = FAMILIES.iter().find(|(family, _)| *family == row.family).map(|(_, words)| *words).unwrap_or_default();
    said.iter().any(|said| said.has(words))
}

fn finding(component: &Component, ingredient: &Ingredient) -> Finding {
    let name = &ingredient.line.name;
    let message = format!("no step of {} names `{name}`", component.name);
    Finding::at(ingredient.span.clone(), message)
        .label("where does it go?")
        .help(format!("name it in a step: `the {name}`"))
}
