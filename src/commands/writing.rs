use std::io::Write;
use std::path::{Path, PathBuf};

use clap::Args;

use super::desk::{Desk, Proofed, bar, show};
use super::{CommandError, Outcome};
use crate::output::{Output, Written};
use crate::recipe::Recipe;
use crate::sheet::Sheet;
use crate::source::Finding;

/// Which recipes, and where their outputs go.
#[derive(Debug, Args)]
pub(super) struct Target {
    /// The folder for outputs instead of `out/` in the workspace
    #[arg(long, value_name = "DIR")]
    pub(super) out: Option<PathBuf>,
    /// Recipe files, or their names; none: every recipe of the workspace
    #[arg(value_name = "FILE")]
    pub(super) files: Vec<PathBuf>,
}

/// As [`Target`], with printing instead of writing.
#[derive(Debug, Args)]
pub(super) struct PrintableTarget {
    #[command(flatten)]
    pub(super) target: Target,
    /// Print the output of the one FILE instead of writing it
    #[arg(long, requires = "files")]
    pub(super) stdout: bool,
}

impl PrintableTarget {
    /// The recipes asked for, proofed; only one may be printed.
    pub(super) fn proofed(&self, desk: &Desk) -> Result<Vec<Proofed>, CommandError> {
        if self.stdout && self.target.files.len() != 1 {
            return Err(CommandError::OneFileForStdout);
        }
        desk.proofed(&self.target.files)
    }
}

/// Files by path.
pub(super) type Files = Vec<(String, Vec<u8>)>;

/// What one recipe gives: files, and what was found on the way.
pub(super) type Made = (Files, Vec<Finding>);

/// Makes files of each clean recipe and writes them, or prints the first file of the only recipe.
pub(super) fn run(
    desk: &Desk,
    target: &PrintableTarget,
    doing: &'static str,
    make: impl Fn(&Recipe, &Sheet) -> Result<Made, CommandError> + Sync,
) -> Result<Outcome, CommandError> {
    let proofed = target.proofed(desk)?;
    let (files, found) = make_all(&proofed, doing, &make)?;
    deliver(desk, target, &files)?;
    Ok(Outcome::found(found))
}

/// Writes files, or prints the first.
pub(super) fn deliver(desk: &Desk, target: &PrintableTarget, files: &Files) -> Result<(), CommandError> {
    if target.stdout {
        if let Some((_, bytes)) = files.first() {
            let mut out = std::io::stdout().lock();
            out.write_all(bytes)?;
            out.flush()?;
        }
        return Ok(());
    }
    let folder = desk.out(target.target.out.as_deref());
    let output = Output::open(&folder)?;
    for (path, bytes) in files {
        output.put(path, bytes)?;
    }
    say(output.finish_part()?, &folder)
}

/// What is made of all clean recipes in order, and whether anything was found; findings are drawn.
pub(super) fn make_all<T: Send>(
    proofed: &[Proofed],
    doing: &'static str,
    make: &(impl Fn(&Recipe, &Sheet) -> Result<(Vec<T>, Vec<Finding>), CommandError> + Sync),
) -> Result<(Vec<T>, bool), CommandError> {
    use rayon::prelude::*;
    let bar = bar(proofed.len(), doing);
    let made: Vec<(Vec<T>, Vec<Finding>)> = proofed
        .par_iter()
        .map(|one| {
            let made = one.recipe.as_ref().map(|(recipe, sheet)| make(recipe, sheet));
            bar.inc(1);
            made.unwrap_or_else(|| Ok((Vec::new(), Vec::new())))
        })
        .collect::<Result<_, _>>()?;
    bar.finish_and_clear();
    let mut found = false;
    let mut all = Vec::new();
    for (one, (made, findings)) in proofed.iter().zip(made) {
        found |= show(one.findings.iter().chain(&findings).map(|finding| (&one.source, finding)))?;
        all.extend(made);
    }
    Ok((all, found))
}

/// One line on what was written, on standard error so that it never mixes with output.
pub(super) fn say(written: Written, folder: &Path) -> Result<(), CommandError> {
    let shown = std::env::current_dir().ok().and_then(|here| folder.strip_prefix(here).ok()).unwrap_or(folder);
    let mut parts = vec![format!("{} written", written.written)];
    for (count, what) in [(written.unchanged, "unchanged"), (written.removed, "removed"), (written.kept, "kept")] {
        if count > 0 {
            parts.push(format!("{count} {what}"));
        }
    }
    writeln!(anstream::stderr(), "{}: {}", shown.display(), parts.join(", "))?;
    Ok(())
}
