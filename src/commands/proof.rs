use std::io::Write;
use std::path::{Path, PathBuf};

use clap::Args;

use super::{CommandError, Outcome};
use crate::proof::{self, report};
use crate::recipe;
use crate::source::Level;
use crate::workspace::Workspace;

/// Read recipes as a sharp colleague would, and point at what is wrong
///
/// Exit code 1 when there is any finding.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  levelcup proof\n  levelcup proof apricot-and-thyme-tart\n  levelcup proof --json recipes/quay-loaf.yaml"
)]
pub(super) struct Proof {
    /// One finding a line as JSON
    #[arg(long)]
    json: bool,
    /// Recipe files, or their names; none: every recipe of the workspace
    #[arg(value_name = "FILE")]
    files: Vec<PathBuf>,
}

pub(super) fn run(command: &Proof, folder: &Path) -> Result<Outcome, CommandError> {
    let workspace = Workspace::of(folder, &command.files)?;
    let (kitchen, lines) = (workspace.kitchen()?, workspace.lines()?);
    let colour = anstream::stdout().current_choice() != anstream::ColorChoice::Never;
    let mut out = std::io::BufWriter::new(anstream::stdout().lock());
    let (mut counts, mut recipes) = ([0_usize; 3], 0);
    for file in workspace.recipes(&command.files)? {
        recipes += 1;
        let (source, understood, mut findings) = recipe::read_file(&file.path, &file.name, &file.slug, &lines);
        findings.extend(understood.iter().flat_map(|recipe| proof::proof(recipe, &kitchen)));
        for finding in &findings {
            counts[finding.level as usize] += 1;
            let drawn = if command.json {
                report::json(&source, finding)
            } else {
                format!("{}\n", report::terminal(&source, finding, colour))
            };
            writeln!(out, "{drawn}")?;
        }
    }
    if !command.json {
        writeln!(out, "{}", summary(recipes, counts))?;
    }
    out.flush()?;
    Ok(Outcome::found(counts.iter().sum::<usize>() > 0))
}

/// `16 recipes: 1 error, 2 warnings`.
fn summary(recipes: usize, counts: [usize; 3]) -> String {
    let counted = |count: usize, noun: &str| match count {
        0 => None,
        1 => Some(format!("1 {noun}")),
        _ => Some(format!("{count} {noun}s")),
    };
    let levels = [Level::Error, Level::Warning, Level::Note];
    let said: Vec<String> =
        levels.iter().filter_map(|level| counted(counts[*level as usize], &level.to_string())).collect();
    let said = if said.is_empty() { "nothing to mend".to_string() } else { said.join(", ") };
    format!("{}: {said}", counted(recipes, "recipe").unwrap_or_else(|| "no recipes".into()))
}
