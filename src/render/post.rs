use serde::Serialize;

use super::address::{page_url, photo_url};
use super::context::RecipeContext;
use super::environment::{Environment, shown};
use super::error::TemplateError;
use super::jsonld::json_ld;
use super::script::script_json;
use super::text::{clean_text, tidy_lines};
use crate::sheet::Sheet;
use crate::workspace::Site;

/// The post as YAML front matter and Markdown, by the template `post.md`.
///
/// # Errors
/// When the template names something that is not there.
pub fn markdown_post(environment: &Environment, site: &Site, recipe: &Sheet) -> Result<String, TemplateError> {
    let context = RecipeContext::new(site, recipe);
    let front_matter = front_matter(site, recipe)?;
    let text = environment.render("post.md", &MarkdownPost { front_matter, context })?;
    Ok(tidy_lines(&text))
}

/// The post as one `<article>` to paste into a page, with its own style and JSON-LD, by the template `post.html`.
///
/// # Errors
/// When the template names something that is not there.
pub fn html_post(environment: &Environment, site: &Site, recipe: &Sheet) -> Result<String, TemplateError> {
    let context = RecipeContext::new(site, recipe);
    let shown = shown(recipe)?;
    let json_ld = script_json(&json_ld(environment, site, recipe, &shown)?)
        .map_err(|error| TemplateError::whole("JSON-LD", error.to_string(), None))?;
    let text = environment.render("post.html", &HtmlPost { json_ld, context })?;
    Ok(tidy_lines(&text))
}

#[derive(Serialize)]
struct MarkdownPost<'a> {
    /// YAML, without the rules above and below.
    front_matter: String,
    #[serde(flatten)]
    context: RecipeContext<'a>,
}

#[derive(Serialize)]
struct HtmlPost<'a> {
    /// JSON, safe inside a `<script>`.
    json_ld: String,
    #[serde(flatten)]
    context: RecipeContext<'a>,
}

/// The keys that site generators commonly read.
#[derive(Serialize)]
struct FrontMatter<'a> {
    title: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    date: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    updated: Option<&'a str>,
    slug: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    description: Option<String>,
    author: String,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    tags: Vec<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    image: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    canonical: Option<String>,
}

fn front_matter(site: &Site, recipe: &Sheet) -> Result<String, TemplateError> {
    let matter = FrontMatter {
        title: clean_text(&recipe.title),
        date: recipe.published.as_deref(),
        updated: recipe.updated.as_deref().filter(|updated| recipe.published.as_deref() != Some(updated)),
        slug: &recipe.slug,
        description: recipe.summary.as_deref().map(clean_text),
        author: clean_text(&site.author),
        tags: recipe.tags.iter().map(|tag| clean_text(&tag.name)).collect(),
        image: recipe.photo.as_ref().and_then(|photo| photo_url(site, photo)),
        canonical: page_url(site, recipe),
    };
    serde_yaml::to_string(&matter).map_err(|error| TemplateError::whole("front matter", error.to_string(), None))
}
