use super::context::RecipeContext;
use super::environment::Environment;
use super::error::TemplateError;
use super::text::tidy_lines;
use crate::sheet::Sheet;
use crate::workspace::Site;

/// The Markdown that the typesetter sets as the card, by the template `card.md`.
///
/// # Errors
/// When the template names something that is not there.
pub fn card(environment: &Environment, site: &Site, recipe: &Sheet) -> Result<String, TemplateError> {
    let text = environment.render("card.md", &RecipeContext::new(site, recipe))?;
    Ok(tidy_lines(&text))
}
