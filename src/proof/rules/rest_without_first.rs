//! What it finds: `the rest` or `the remaining` of an ingredient of which no part was used before.
//!
//! Why it matters: the reader has used all of it, or asks how much should be left.
//!
//! Example: `Whisk the yolks with the sugar.` and later `Add the remaining sugar.`
//!
//! Instead: `Whisk the yolks with half of the sugar.`
//!
//! Source: rule of the house. A fraction, an amount, or a verb that takes only some (`dust`, `brush`) is a first part.

use crate::facts::{Said, StepKey};
use crate::language::Word;
use crate::pantry::is_droppable;
use crate::proof::Context;
use crate::recipe::Component;
use crate::source::{Finding, Span};

/// Words for what is left.
const REST: [&str; 3] = ["remaining", "rest", "remainder"];

/// Words that make a sentence one about a part.
const PARTS: [&str; 43] = [
    "half",
    "third",
    "quarter",
    "fifth",
    "two",
    "some",
    "part",
    "most",
    "little",
    "few",
    "handful",
    "spoonful",
    "tablespoon",
    "tbsp",
    "teaspoon",
    "tsp",
    "cup",
    "g",
    "gram",
    "ml",
    "portion",
    "reserve",
    "keep",
    "aside",
    "except",
    "first",
    "one",
    "dust",
    "brush",
    "sprinkle",
    "grease",
    "coat",
    "ladle",
    "splash",
    "batch",
    "all",
    "but",
    "layer",
    "scatter",
    "divide",
    "three",
    "oz",
    "drizzle",
];

/// Verbs that take a little, wherever they stand in the step.
const THIN: [&str; 5] = ["brush", "glaze", "drizzle", "dust", "sprinkle"];

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let components = context.recipe.components.iter().enumerate();
    components.flat_map(|(at, component)| in_component(context, at, component)).collect()
}

fn in_component(context: &Context<'_>, at: usize, component: &Component) -> Vec<Finding> {
    let said: Vec<&Said<'_>> = context.said_in(at).filter(|said| said.key == StepKey::Do).collect();
    if !said.iter().any(|said| said.has(&REST)) {
        return Vec::new();
    }
    let mut findings = Vec::new();
    // For each line: whether it was named before, and whether only in part.
    let mut seen = vec![(false, false); component.ingredients.len()];
    for said in said {
        for (word, lines) in said.named.iter().enumerate() {
            for line in lines.iter().map(|named| &named.line) {
                let rest =
                    rest_before(&said.words, word, |other| said.named[other].iter().any(|named| named.line == *line));
                if let Some(rest) = &rest
                    && seen[*line] != (true, true)
                    && !is_divided(component, *line)
                    && !twins(context, at, *line).any(|twin| seen[twin].0)
                {
                    findings.extend(once(&findings, finding(said, rest, word, component, *line, seen[*line].0)));
                }
                let partly = rest.is_some() || speaks_of_part(&said.words, word);
                seen[*line] = (true, seen[*line].1 || partly);
            }
        }
    }
    findings
}

/// Other lines of the same ingredient, of which that line may be the rest.
fn twins<'c>(context: &'c Context<'_>, component: usize, line: usize) -> impl Iterator<Item = usize> + 'c {
    let known = &context.facts.lines[component];
    let own = known[line].row.map(|row| &row.id);
    (0..known.len()).filter(move |at| *at != line && own.is_some() && known[*at].row.map(|row| &row.id) == own)
}

/// A finding whose place has none yet: a name of two words is one place.
fn once(findings: &[Finding], found: Finding) -> Option<Finding> {
    (!findings.iter().any(|earlier: &Finding| earlier.span.start == found.span.start)).then_some(found)
}

/// `the rest of the`, `the remaining`, `what is left of the` before a word.
fn rest_before(words: &[Word], at: usize, is_same: impl Fn(usize) -> bool) -> Option<Span> {
    let from = at.saturating_sub(4);
    let rest = (from..at).rev().find(|before| REST.contains(&words[*before].stem.as_str()))?;
    let links = |word: &Word| matches!(word.stem.as_str(), "of" | "the") || is_droppable(&word.stem);
    let mut between = (rest + 1..at).map(|at| (at, &words[at]));
    let between = between.all(|(at, word)| word.before.trim().is_empty() && (links(word) || is_same(at)));
    let of = words[rest].stem == "remaining" || words.get(rest + 1).is_some_and(|next| next.stem == "of");
    let same = words[rest].sentence == words[at].sentence && words[at].before.trim().is_empty();
    (between && of && same).then(|| words[rest].span.clone())
}

/// Whether the sentence of a word speaks of a part, or of a number of things.
fn speaks_of_part(words: &[Word], at: usize) -> bool {
    let sentence = words.iter().filter(|word| word.sentence == words[at].sentence);
    let is_part =
        |word: &Word| PARTS.contains(&word.stem.as_str()) || word.written.starts_with(|c: char| c.is_ascii_digit());
    let thin = |word: &Word| THIN.contains(&word.stem.as_str());
    sentence.clone().any(is_part) || words.iter().any(thin) || words[at].before.contains(['½', '⅓', '¼', '⅔', '¾'])
}

fn is_divided(component: &Component, line: usize) -> bool {
    let line = &component.ingredients[line].line;
    [&line.prep, &line.note]
        .into_iter()
        .flatten()
        .any(|text| text.to_lowercase().contains("divided") || text.contains("plus"))
}

fn finding(said: &Said<'_>, rest: &Span, word: usize, component: &Component, line: usize, seen: bool) -> Finding {
    let name = &component.ingredients[line].line.name;
    let span = said.span(rest.start..said.words[word].span.end);
    let message = if seen {
        format!("no step before takes only a part of the {name}")
    } else {
        format!("no step before takes any of the {name}")
    };
    Finding::at(span, message)
        .label("the rest of what?")
        .help(format!("say in the step before how much of the {name} it takes"))
}
