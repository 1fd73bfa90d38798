//! What it finds: a date of publishing or of a correction that is still to come.
//!
//! Why it matters: feeds and search engines hide or distrust it, and most often it is the wrong year.
//!
//! Example: `published: 2062-07-04`
//!
//! Instead: `published: 2026-07-04`
//!
//! Source: rule of the house; a day is allowed for the time zone. A recipe in waiting may `allow` it.

use jiff::civil::Date;

use crate::proof::Context;
use crate::source::{Finding, Span};

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let root = &context.recipe.root;
    let published = context.recipe.published.map(|date| (date, root.key("published").span.clone()));
    // Corrections are sorted when they are read; their places are looked up by what is written.
    let corrections = root
        .get("corrections")
        .into_iter()
        .flat_map(|list| (0..context.recipe.corrections.len()).map(|at| list.item(at)));
    let corrections = corrections.filter_map(|node| {
        let span = node.key("on").span.clone();
        let written = context.recipe.source.slice(&span).trim_matches(['"', '\'']);
        Some((written.parse::<Date>().ok()?, span))
    });
    let dates: Vec<(Date, Span)> = published.into_iter().chain(corrections).collect();
    let later = dates.into_iter().filter_map(|(date, span)| Some((date, span, context.before(date)?)));
    later
        .map(|(date, span, today)| {
            let found = Finding::at(span, format!("{date} is in the future"));
            found
                .label(format!("today is {today}"))
                .help("check the year; a recipe in waiting may `allow` this with a reason")
        })
        .collect()
}
