use super::super::CommandError;
use super::super::writing::RecipeOutput;
use super::{Making, OutputRow};
use crate::render;

/// The blog post, as Markdown first and as HTML.
pub(super) const OUTPUT: OutputRow =
    OutputRow { folder: "posts", holds: "a post each, as Markdown and as HTML", in_archive: false, make };

fn make(of: &Making<'_>) -> Result<RecipeOutput, CommandError> {
    let (environment, site) = (&of.desk.environment, of.desk.site());
    let markdown = render::markdown_post(environment, site, of.sheet)?;
    let html = render::html_post(environment, site, of.sheet)?;
    let path = |end: &str| format!("posts/{}.{end}", of.sheet.slug);
    Ok((vec![(path("md"), markdown.into_bytes()), (path("html"), html.into_bytes())], Vec::new()))
}
