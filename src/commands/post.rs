use clap::{Args, ValueEnum};

use super::desk::Desk;
use super::outputs::{self, Making};
use super::settings::Settings;
use super::writing::{self, PrintableTarget};
use super::{CommandError, Outcome};
use crate::typeset::CardSize;

/// Write the blog post, as Markdown and as an HTML fragment
///
/// To `out/posts/NAME.md` and `out/posts/NAME.html`.
#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  levelcup post\n  levelcup post quay-loaf --stdout --form html")]
pub(super) struct PostArguments {
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

pub(super) fn run(command: &PostArguments, settings: &Settings) -> Result<Outcome, CommandError> {
    let desk = Desk::open(settings, &command.target.target.files)?;
    writing::run(&desk, &command.target, "writing posts", |one, sheet| {
        let of = Making { desk: &desk, one, sheet, size: CardSize::default() };
        let (mut files, found) = (outputs::POST.make)(&of)?;
        if command.form == Form::Html {
            files.reverse();
        }
        Ok((files, found))
    })
}
