//! Temperatures in ingredient lines.

use super::Reading;
use super::row::{Of, Row, rows};
use crate::facts::{Facts, Stated, heat};
use crate::language::{Sense, Word};

/// A temperature that an ingredient line states.
#[derive(Clone, Debug)]
pub struct InLine {
    /// How it is stated, with its bytes in the recipe's text.
    pub stated: Stated,
    /// What it is of, where something tells it.
    pub reading: Option<Reading>,
}

/// The temperatures that ingredient lines state in one way alone.
pub(in crate::facts) fn lines(facts: &Facts<'_>) -> Vec<InLine> {
    let language = facts.kitchen.language();
    let mut found = Vec::new();
    for (component, entry) in facts.recipe.components.iter().enumerate() {
        for line in &entry.ingredients {
            let text = facts.recipe.source.slice(&line.span);
            if crate::text::temperatures(text).len() != 1 {
                continue;
            }
            let words = language.read(text);
            for setting in heat::settings_of_line(text, &words, language) {
                let [stated] = setting.ways.as_slice() else { continue };
                let (start, end) = (line.span.start + stated.span.start, line.span.start + stated.span.end);
                let stated = Stated { span: start..end, ..stated.clone() };
                let lone = facts.around().is_lone(stated.temperature.scale, None);
                let row = rows().iter().find(|row| row.of == Of::Line && is(facts, component, &words, row));
                found.push(InLine { reading: row.map(|row| Reading::of(row, lone)), stated });
            }
        }
    }
    found
}

fn is(facts: &Facts<'_>, component: usize, words: &[Word], row: &Row) -> bool {
    let tells = |of: &Sense| facts.kitchen.language().lexicon(*of).find(words).is_some();
    let all = row.told.iter().chain(&row.near).all(|one_of| one_of.iter().any(tells));
    let around = || row.around.is_empty() || row.around.iter().any(|of| facts.around().tells(component, *of));
    all && !row.unless.iter().any(tells) && around()
}
