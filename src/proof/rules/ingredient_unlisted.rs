//! What it finds: a step that adds something that no component lists.
//!
//! Why it matters: it is not shopped for, not weighed, and its allergens are not named.
//!
//! Example: `Fold in the walnuts.` in a recipe without walnuts
//!
//! Instead: `80 g walnuts, chopped` among the ingredients
//!
//! Source: rule of the house. Only plain names behind a word of adding are looked at; water, what greases a tin, and what
//! is made in the recipe are passed over.

use std::collections::BTreeSet;

use crate::facts::{LineFacts, Said, StepKey};
use crate::language::{Sense, Word};
use crate::pantry::{Role, words};
use crate::proof::Context;
use crate::source::{Finding, Span};

/// What is looked for, in the singular.
const NAMES: [&str; 65] = [
    "flour",
    "sugar",
    "butter",
    "egg",
    "yolk",
    "milk",
    "cream",
    "yeast",
    "honey",
    "chocolate",
    "cocoa",
    "vanilla",
    "cinnamon",
    "gelatin",
    "cornstarch",
    "cornflour",
    "yogurt",
    "buttermilk",
    "oil",
    "almond",
    "hazelnut",
    "walnut",
    "pecan",
    "pistachio",
    "peanut",
    "raisin",
    "sultana",
    "currant",
    "oat",
    "rum",
    "brandy",
    "coffee",
    "espresso",
    "cheese",
    "mascarpone",
    "ricotta",
    "cardamom",
    "ginger",
    "nutmeg",
    "clove",
    "saffron",
    "coconut",
    "cranberry",
    "blueberry",
    "raspberry",
    "strawberry",
    "cherry",
    "apple",
    "pear",
    "banana",
    "apricot",
    "date",
    "fig",
    "prune",
    "molasses",
    "treacle",
    "salt",
    "soda",
    "vinegar",
    "mustard",
    "onion",
    "garlic",
    "spinach",
    "bacon",
    // Of baking powder alone.
    "powder",
];

/// What is there as soon as something else is.
const PARTS: [(&str, &[&str]); 4] =
    [("egg", &["yolk"]), ("yolk", &["egg"]), ("creme", &["cream"]), ("garlic", &["clove"])];

/// Words that add.
const ADDING: [&str; 14] = [
    "add", "stir", "fold", "whisk", "beat", "mix", "sift", "rub", "toss", "combine", "cream", "blend", "pour",
    "scatter",
];

/// Words in front of which a name is part of another thing.
const COMPOUNDS: [&str; 30] = [
    "mixture", "mix", "wash", "batter", "bath", "cream", "syrup", "paste", "cake", "bread", "sauce", "glaze",
    "filling", "dough", "custard", "crumb", "curd", "caramel", "mass", "layer", "base", "foam", "and", "pastry", "pan",
    "bowl", "jelly", "puree", "compote", "pieces",
];

/// Words between a word of adding and a name.
const LINKS: [&str; 14] =
    ["the", "and", "in", "with", "all", "both", "of", "some", "a", "little", "remaining", "half", "rest", "into"];

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    if context.recipe.components.iter().any(|component| component.ingredients.is_empty() && component.uses.is_empty()) {
        // A component without a list leaves open what goes in.
        return Vec::new();
    }
    let known = known(context);
    let mut told = BTreeSet::new();
    let texts = context.said().filter(|said| said.key == StepKey::Do);
    let mut findings = Vec::new();
    for said in texts {
        for (at, word) in said.words.iter().enumerate() {
            if let Some(last) = spoken_of(context, said, at, &known)
                && told.insert(said.words[last].stem.clone())
            {
                findings.push(finding(said, word.span.start..said.words[last].span.end));
            }
            if is_added(said, at)
                && !known.contains(&word.stem)
                && told.insert(word.stem.clone())
                && !is_of_a_row(context, &word.stem)
            {
                let first = if word.stem == "powder" { &said.words[at - 1] } else { word };
                findings.push(finding(said, first.span.start..word.span.end));
            }
        }
    }
    findings
}

/// Whether a word is the head of another name of what is listed: `aubergine` for eggplant.
fn is_of_a_row(context: &Context<'_>, stem: &str) -> bool {
    let rows = context.facts.all_lines().flat_map(LineFacts::rows);
    let head = |name: &String| {
        let name = words(name);
        name.last().is_some_and(|last| last == stem) || name.first().is_some_and(|first| first == stem)
    };
    rows.flat_map(|row| &row.names).any(head)
}

/// Whether a word goes on a list of what is taken: `with the sugar, lemon juice and cinnamon`.
fn is_in_a_list(said: &Said<'_>, at: usize) -> bool {
    const REACH: usize = 4;
    let words = &said.words;
    let and = words[at - 1].stem == "and" && words[at].before == " ";
    let from = at.saturating_sub(REACH);
    let listed = (from..at).any(|before| {
        words[before].sentence == words[at].sentence && said.named[before].iter().any(|named| named.surely)
    });
    let verb_behind = words.get(at + 1).is_some_and(|next| {
        next.sentence == words[at].sentence && !next.before.contains([',', '.', ';', ')']) && !next.before.is_empty()
    });
    // `and season`, `and butter the tin` are orders: what is listed ends the clause.
    let ends = words
        .get(at + 1)
        .is_none_or(|next| next.sentence != words[at].sentence || next.before.contains([',', '.', ';']))
        || matches!(words[at + 1].stem.as_str(), "and" | "until" | "for" | "in" | "into" | "to" | "with" | "over");
    and && listed && (ends || !verb_behind)
}

/// Words of the longest name that is looked up.
const LONGEST: usize = 3;

/// The last word of an ingredient that a text speaks of as known, from a word on: `the maple syrup`, where no list has it.
fn spoken_of(context: &Context<'_>, said: &Said<'_>, at: usize, known: &BTreeSet<String>) -> Option<usize> {
    let words = &said.words;
    let before = at.checked_sub(1).filter(|before| words[*before].sentence == words[at].sentence)?;
    let together = |from: usize, to: usize| (from + 1..=to).all(|at| matches!(words[at].before.as_str(), " " | "-"));
    let the = context.language().lexicon(Sense::The).at(words, before) > 0 && together(before, at);
    let sentence = (0..at).rev().take_while(|other| words[*other].sentence == words[at].sentence);
    let put_in = !sentence.into_iter().any(|other| said.tells_at(Sense::NotAdding, other));
    if !put_in || (!the && !is_in_a_list(said, at)) {
        return None;
    }
    let ends = (at..words.len().min(at + LONGEST)).rev();
    let weak = context.language().lexicon(Sense::WeakEnd);
    let (last, row) = ends.into_iter().find_map(|last| {
        let same = words[last].sentence == words[at].sentence && together(at, last);
        let name: Vec<&str> = words[at..=last].iter().map(|word| word.written.as_str()).collect();
        let whole = same && !words[at..=last].iter().any(|word| weak.has(&word.stem));
        let row = whole.then(|| context.kitchen().pantry().find(&name.join(" "))).flatten();
        let plain = whole && at == last && NAMES.contains(&words[at].stem.as_str());
        (row.is_some() || plain).then_some((last, row))
    })?;
    let made = context.language().lexicon(Sense::MadeThing);
    let part_of = words.get(last + 1).is_some_and(|next| {
        next.sentence == words[at].sentence && matches!(next.before.as_str(), " " | "-") && made.at(words, last + 1) > 0
    });
    let listed =
        context.facts.all_lines().flat_map(LineFacts::rows).any(|other| row.is_some_and(|row| other.id == row.id));
    let spoken = words[at..=last].iter().any(|word| known.contains(&word.stem));
    let single = at == last;
    let made_here = made.has(&words[last].stem)
        && (single
            || !matches!(
                words[last].stem.as_str(),
                "syrup" | "powder" | "oil" | "juice" | "cream" | "seed" | "leaf" | "zest" | "peel"
            ));
    let eaten = row.is_none_or(|row| {
        let made = ["baked", "preserve", "frozen", "decoration", "condiment", "confectionery", "pasta"];
        !row.is(Role::Water) && !made.contains(&row.family.as_str())
    });
    let family =
        single && context.facts.all_lines().flat_map(LineFacts::rows).any(|other| other.family == words[last].stem);
    (eaten
        && !part_of
        && !listed
        && !spoken
        && !made_here
        && !family
        && !(single && is_of_a_row(context, &words[last].stem)))
    .then_some(last)
}

/// Every word of what is listed and made: names of lines, families, component names and the title.
fn known(context: &Context<'_>) -> BTreeSet<String> {
    let mut known = BTreeSet::new();
    for (row, ingredient) in context.lines() {
        let line = &ingredient.line;
        let texts = [Some(&line.name), line.prep.as_ref(), line.note.as_ref()];
        texts.into_iter().flatten().for_each(|text| known.extend(words(text)));
        if let Some(row) = row {
            known.extend(words(&row.family));
            known.extend(row.kind.iter().flat_map(|kind| words(kind)));
        }
    }
    for (listed, parts) in PARTS {
        if known.contains(listed) {
            known.extend(parts.iter().map(|part| (*part).to_string()));
        }
    }
    let made = context.recipe.components.iter().map(|component| component.name.as_str());
    made.chain([context.recipe.title.as_str()]).for_each(|name| known.extend(words(name)));
    known
}

/// Whether a word is a name that its sentence adds: `stir in the walnuts`, `the flour, sugar and walnuts`.
fn is_added(said: &Said<'_>, at: usize) -> bool {
    let words = &said.words;
    let word = &words[at];
    let baking = word.stem == "powder";
    let first = at.saturating_sub(usize::from(baking));
    if baking && words[first].stem != "baking" {
        return false;
    }
    if !NAMES.contains(&word.stem.as_str()) {
        return false;
    }
    let next = words.get(at + 1).filter(|next| next.sentence == word.sentence && next.before.trim().is_empty());
    let compound = next
        .is_some_and(|next| next.before.is_empty() || COMPOUNDS.contains(&next.stem.as_str()) && next.stem != "and")
        || words.get(at + 1).is_some_and(|next| next.before.starts_with('-'));
    let verb = next.is_some_and(|next| matches!(next.stem.as_str(), "the" | "a" | "your" | "them" | "it" | "until"));
    let before = first.checked_sub(1).map(|at| &words[at]);
    let word = &words[first];
    let linked = before.is_some_and(|before| {
        // `Add sugar`; other verbs take an article before what they add.
        let list = word.before.contains(',') || matches!(before.stem.as_str(), "the" | "and" | "remaining" | "add");
        list && before.sentence == word.sentence && !word.before.ends_with('-')
    });
    !compound && !verb && linked && adds(words, at)
}

/// Whether a word of adding stands before a name in its sentence, and no other order between.
fn adds(words: &[Word], at: usize) -> bool {
    let sentence = words[at].sentence;
    let before = words[..at].iter().rev().take_while(|word| word.sentence == sentence).take(10);
    for word in before {
        let stem = word.stem.as_str();
        if ADDING.contains(&stem) {
            return true;
        }
        if !LINKS.contains(&stem) && !NAMES.contains(&stem) && !crate::pantry::is_droppable(stem) && word.stem.len() < 3
        {
            return false;
        }
        if matches!(
            stem,
            "grease" | "line" | "dust" | "serve" | "from" | "like" | "without" | "until" | "as" | "butter" | "brush"
        ) {
            return false;
        }
    }
    false
}

fn finding(said: &Said<'_>, span: Span) -> Finding {
    let written = &said.text[span.clone()];
    let found = Finding::at(said.span(span.clone()), format!("`{written}` is not among the ingredients"));
    found.help("list it with its weight, or name what is listed")
}
