use super::context::RecipeContext;
use super::environment::Environment;
use super::error::TemplateError;
use super::text::tidy_lines;
use crate::sheet::Sheet;
use crate::workspace::Site;

/// The text that a template makes of a recipe, of which it sees all that every recipe template does.
///
/// # Errors
/// When the template names something that is not there.
pub fn recipe_text(
    environment: &Environment,
    template: &str,
    site: &Site,
    recipe: &Sheet,
) -> Result<String, TemplateError> {
    Ok(tidy_lines(&environment.render(template, &RecipeContext::new(site, recipe))?))
}
