//! Temperatures in ingredient lines, and those that stand alone in their scale.

use super::row::{Of, Row, rows};
use super::{Reading, words};
use crate::facts::{Facts, Stated, heat};
use crate::language::{Sense, Word};
use crate::measure::{Scale, Use};

/// So many others in the other scale make one that stands alone a likely slip.
const OTHERS: usize = 2;

/// A temperature that an ingredient line states.
#[derive(Clone, Debug)]
pub struct InLine {
    /// How it is stated, with its bytes in the recipe's text.
    pub stated: Stated,
    /// What it is of, where something tells it.
    pub reading: Option<Reading>,
}

/// Whether all other temperatures of a recipe are in the other scale; `step` is the component and the step that this one
/// stands in.
pub(super) fn is_lone(facts: &Facts<'_>, stated: &Stated, step: Option<(usize, usize)>) -> bool {
    let scale = stated.temperature.scale;
    let mut others = 0;
    for said in &facts.said {
        for way in said.settings.iter().filter(|set| set.to_use != Use::Difference).flat_map(|set| &set.ways) {
            let same = way.temperature.scale == scale;
            if same && step != Some((said.component, said.step)) && !way.gas {
                return false;
            }
            others += usize::from(!same && !way.gas);
        }
    }
    for (span, scales) in in_lines(facts) {
        if span != stated.span && scales == scale {
            return false;
        }
        others += usize::from(scales != scale);
    }
    others >= OTHERS
}

/// The scales of the temperatures in ingredient lines, and their places.
fn in_lines(facts: &Facts<'_>) -> Vec<(crate::source::Span, Scale)> {
    let lines = facts.recipe.components.iter().flat_map(|component| &component.ingredients);
    let of = |line: &crate::recipe::Ingredient| {
        let start = line.span.start;
        let found = crate::text::temperatures(facts.recipe.source.slice(&line.span));
        found.into_iter().map(move |one| (start + one.span.start..start + one.span.end, one.temperature.scale))
    };
    lines.flat_map(of).collect()
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
                let lone = is_lone(facts, &stated, None);
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
    let around = || row.around.is_empty() || row.around.iter().any(|of| words::around(facts, component, *of));
    all && !row.unless.iter().any(tells) && around()
}
