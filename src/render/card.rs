use serde::Serialize;

use super::context::RecipeContext;
use super::environment::Environment;
use super::error::TemplateError;
use super::plain::recipe_text;
use super::text::tidy_lines;
use crate::sheet::{Bench, Sheet};
use crate::workspace::Site;

/// The Markdown that the typesetter sets as the card, by the template `card.md`.
///
/// # Errors
/// When the template names something that is not there.
pub fn card(environment: &Environment, site: &Site, recipe: &Sheet) -> Result<String, TemplateError> {
    recipe_text(environment, "card.md", site, recipe)
}

/// The Markdown that the typesetter sets as the bench card, by the template `bench-card.md`.
///
/// # Errors
/// When the template names something that is not there.
pub fn bench_card(
    environment: &Environment,
    site: &Site,
    recipe: &Sheet,
    bench: &Bench,
) -> Result<String, TemplateError> {
    let context = BenchContext { bench, context: RecipeContext::new(site, recipe) };
    let text = environment.render("bench-card.md", &context)?;
    Ok(tidy_lines(&text))
}

#[derive(Serialize)]
struct BenchContext<'a> {
    /// The amounts at the batches asked for.
    bench: &'a Bench,
    #[serde(flatten)]
    context: RecipeContext<'a>,
}
