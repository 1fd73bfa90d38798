use clap::{Args, ValueEnum};

use super::desk::Desk;
use super::settings::Settings;
use super::writing::{self, PrintableTarget};
use super::{CommandError, Outcome};
use crate::render;

/// Write the blog post, as Markdown and as an HTML fragment
///
/// To `out/posts/NAME.md` and `out/posts/NAME.html`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  levelcup post\n  levelcup post quay-loaf --stdout --form html")]
pub(super) struct Post {
    #[command(flatten)]
    target: PrintableTarget,
    /// With --stdout: which form is printed
    #[arg(long, value_enum, default_value = "markdown", requires = "stdout")]
    form: Form,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Form {
    Markdown,
    Html,
}

pub(super) fn run(command: &Post, settings: &Settings) -> Result<Outcome, CommandError> {
    let desk = Desk::open(settings, &command.target.target.files)?;
    writing::run(&desk, &command.target, "writing posts", |_, sheet| {
        let mut files = posts(&desk, sheet)?;
        if command.form == Form::Html {
            files.reverse();
        }
        Ok((files, Vec::new()))
    })
}

/// Both forms of a post, Markdown first.
pub(super) fn posts(desk: &Desk, sheet: &crate::sheet::Sheet) -> Result<writing::Files, CommandError> {
    let markdown = render::markdown_post(&desk.environment, desk.site(), sheet)?;
    let html = render::html_post(&desk.environment, desk.site(), sheet)?;
    let path = |end: &str| format!("posts/{}.{end}", sheet.slug);
    Ok(vec![(path("md"), markdown.into_bytes()), (path("html"), html.into_bytes())])
}
