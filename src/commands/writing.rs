use std::io::Write;
use std::path::{Path, PathBuf};

use clap::Args;

use super::desk::{Desk, Proofed, Purpose, bar, show};
use super::screen::{stderr, stdout};
use super::strictness::Strictness;
use super::{CommandError, Outcome};
use crate::archive::Change;
use crate::output::{Held, Output, OutputError, Written};
use crate::sheet::Sheet;
use crate::source::{Finding, Level, guarded};

/// Where outputs go.
#[derive(Debug, Args)]
pub(super) struct Destination {
    /// The folder for outputs instead of `out/` in the workspace
    #[arg(long, value_name = "DIR")]
    out: Option<PathBuf>,
    /// Where another run writes into that folder, wait until it has ended instead of giving up
    #[arg(long)]
    wait: bool,
}

impl Destination {
    /// The folder: the one given, else `out/` in the workspace.
    pub(super) fn folder(&self, desk: &Desk) -> PathBuf {
        self.out.clone().unwrap_or_else(|| desk.workspace().root().join("out"))
    }

    /// Opens the folder for this run alone.
    pub(super) fn open(&self, desk: &Desk) -> Result<Output, CommandError> {
        let folder = self.folder(desk);
        match Output::open(&folder, Held::Refuse) {
            Err(OutputError::Held { by, .. }) if self.wait => {
                writeln!(stderr(), "waiting for {by}, which writes into {}", shown(&folder).display())?;
                Ok(Output::open(&folder, Held::Wait)?)
            }
            opened => Ok(opened?),
        }
    }
}

/// Which recipes, and where their outputs go.
#[derive(Debug, Args)]
pub(super) struct Target {
    #[command(flatten)]
    pub(super) destination: Destination,
    #[command(flatten)]
    pub(super) strictness: Strictness,
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
        desk.proofed(&self.target.files, Purpose::Outputs)
    }
}

/// Says what readers would find changed without being told.
pub(super) fn say_changes(changes: &[Change]) -> Result<(), CommandError> {
    let mut err = stderr();
    changes.iter().try_for_each(|change| writeln!(err, "since the last build: {change}"))?;
    Ok(())
}

/// Files by path.
pub(super) type Files = Vec<(String, Vec<u8>)>;

/// What one recipe gives: files, and what was found on the way.
pub(super) type RecipeOutput = (Files, Vec<Finding>);

/// Makes files of each clean recipe and writes them, or prints the first file of the only recipe.
pub(super) fn run(
    desk: &Desk,
    target: &PrintableTarget,
    doing: &'static str,
    make: impl Fn(&Proofed, &Sheet) -> Result<RecipeOutput, CommandError> + Sync,
) -> Result<Outcome, CommandError> {
    let mut proofed = target.proofed(desk)?;
    let (files, worst) = make_all(&mut proofed, doing, &make)?;
    deliver(desk, target, &files)?;
    Ok(target.target.strictness.outcome(worst))
}

/// Writes files, or prints the first.
pub(super) fn deliver(desk: &Desk, target: &PrintableTarget, files: &Files) -> Result<(), CommandError> {
    if target.stdout {
        if let Some((_, bytes)) = files.first() {
            let mut out = stdout();
            out.output(bytes)?;
            out.flush()?;
        }
        return Ok(());
    }
    let output = target.target.destination.open(desk)?;
    for (path, bytes) in files {
        output.put(path, bytes)?;
    }
    say(output.finish_part()?, &target.target.destination.folder(desk))
}

/// What is made of all clean recipes in order, and the level of the worst finding; findings are drawn.
pub(super) fn make_all<T: Send>(
    proofed: &mut [Proofed],
    doing: &'static str,
    make: &(impl Fn(&Proofed, &Sheet) -> Result<(Vec<T>, Vec<Finding>), CommandError> + Sync),
) -> Result<(Vec<T>, Option<Level>), CommandError> {
    use rayon::prelude::*;
    let bar = bar(proofed.len(), doing);
    let made: Vec<(Vec<T>, Vec<Finding>)> = proofed
        .par_iter_mut()
        .map(|one| {
            let sheet = one.sheet();
            let made = sheet.map(|sheet| guarded(|| make(one, &sheet)));
            bar.inc(1);
            match made {
                Some(Ok(made)) => made,
                Some(Err(fault)) => Ok((Vec::new(), vec![*fault])),
                None => Ok((Vec::new(), Vec::new())),
            }
        })
        .collect::<Result<_, _>>()?;
    bar.finish_and_clear();
    let mut worst = None;
    let mut all = Vec::new();
    for (one, (made, findings)) in proofed.iter().zip(made) {
        worst = worst.max(show(one.findings.iter().chain(&findings).map(|finding| (&one.source, finding)))?);
        all.extend(made);
    }
    Ok((all, worst))
}

/// One line on what was written, on standard error so that it never mixes with output.
pub(super) fn say(written: Written, folder: &Path) -> Result<(), CommandError> {
    let mut parts = vec![format!("{} written", written.written)];
    for (count, what) in [(written.unchanged, "unchanged"), (written.removed, "removed"), (written.kept, "kept")] {
        if count > 0 {
            parts.push(format!("{count} {what}"));
        }
    }
    writeln!(stderr(), "{}: {}", shown(folder).display(), parts.join(", "))?;
    Ok(())
}

/// A folder as seen from where the program was called.
pub(super) fn shown(folder: &Path) -> &Path {
    std::env::current_dir().ok().and_then(|here| folder.strip_prefix(here).ok()).unwrap_or(folder)
}
