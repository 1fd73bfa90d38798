use crate::kitchen::Kitchen;
use crate::recipe::{Ingredient, Recipe};
use crate::source::Finding;

const RULE: &str = "unknown-ingredient";

/// What it finds: a line whose ingredient the pantry does not know.
///
/// Why it matters: nothing is guessed, so the line shows its weight alone, and allergens cannot be named.
///
/// Example: `200 g glurp`
///
/// Instead: a name that the pantry knows, or a row for it in `pantry.yaml`.
///
/// Source: rule of the house.
pub(in crate::proof) fn check(recipe: &Recipe, kitchen: &Kitchen) -> Vec<Finding> {
    let lines = recipe.components.iter().flat_map(|component| &component.ingredients);
    lines.filter(|line| kitchen.ingredient(&line.line).is_none()).map(|line| finding(line, kitchen)).collect()
}

fn finding(ingredient: &Ingredient, kitchen: &Kitchen) -> Finding {
    let name = &ingredient.line.name;
    let message = format!("the pantry does not know `{name}`");
    let nearest = kitchen.pantry().nearest(name, 3);
    let near = match nearest.as_slice() {
        [] => String::new(),
        names => format!("the nearest are {}; ", names.iter().map(|n| format!("`{n}`")).collect::<Vec<_>>().join(", ")),
    };
    Finding::warning(RULE, ingredient.span.clone(), message)
        .label("shown by its stated amount alone")
        .help(format!("{near}add a row to `pantry.yaml` for an ingredient of your own"))
}
