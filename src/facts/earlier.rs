use super::{Facts, Said};
use crate::pantry::words;

/// Where a text names an earlier component: the place of the head of its name.
pub(super) fn component(facts: &Facts<'_>, said: &Said<'_>, earlier: usize) -> Option<usize> {
    let components = &facts.recipe.components;
    let name = words(&components[earlier].name);
    let place = |word: &String| said.words.iter().position(|said| said.stem == *word);
    let head = if said.language().is_head_first() { name.first() } else { name.last() }?;
    let at = place(head)?;
    let called_so = |text: &str| words(text).contains(head);
    let others = (0..=said.component).filter(|other| *other != earlier).any(|other| called_so(&components[other].name));
    let lines = components[said.component].ingredients.iter().any(|ingredient| called_so(&ingredient.line.name));
    (name.iter().all(|word| place(word).is_some()) || !(others || lines)).then_some(at)
}
