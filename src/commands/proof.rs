use std::io::{BufRead, Write};
use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::desk::{Desk, Proofed, Purpose};
use super::screen::{Screen, stdout};
use super::settings::Settings;
use super::{CommandError, Outcome};
use crate::output;
use crate::proof::{self, Mended, report};
use crate::source::{Level, Source};

/// Read recipes as a sharp colleague would, and point at what is wrong
///
/// Exit code 1 when there is an error or a warning.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  levelcup proof\n  levelcup proof apricot-and-thyme-tart\n  levelcup proof --explain ratio-disagrees\n  levelcup proof --mend\n  levelcup proof --json recipes/quay-loaf.yaml"
)]
pub(super) struct ProofArguments {
    /// How findings are written: drawn, one JSON object a line, or SARIF 2.1.0
    #[arg(long, value_name = "FORMAT", default_value = "terminal")]
    format: ReportFormat,
    /// The same as --format json
    #[arg(long, conflicts_with = "format")]
    json: bool,
    /// Put right what is known for certain, after showing the difference and asking
    #[arg(long, conflicts_with_all = ["format", "json"])]
    mend: bool,
    /// With --mend: do not ask
    #[arg(long, requires = "mend")]
    yes: bool,
    /// Exit with 1 for a note too
    #[arg(long)]
    strict: bool,
    /// Explain a rule, or list all of them
    #[arg(long, value_name = "RULE", num_args = 0..=1, default_missing_value = "", conflicts_with_all = ["mend", "files"])]
    explain: Option<String>,
    /// Recipe files, or their names; none: every recipe of the workspace
    #[arg(value_name = "FILE")]
    files: Vec<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum ReportFormat {
    Terminal,
    Json,
    Sarif,
}

pub(super) fn run(command: &ProofArguments, settings: &Settings) -> Result<Outcome, CommandError> {
    if let Some(rule) = &command.explain {
        return explain(rule);
    }
    let proofed = Desk::open(settings, &command.files)?.proofed(&command.files, Purpose::Findings)?;
    let least = if command.strict { Level::Note } else { Level::Warning };
    if command.mend {
        return mend(&proofed, command.yes, least);
    }
    let format = if command.json { ReportFormat::Json } else { command.format };
    let mut out = stdout();
    match format {
        ReportFormat::Terminal => draw(&mut out, &proofed)?,
        ReportFormat::Json => {
            for (source, finding) in findings(&proofed) {
                out.json(&report::json(source, finding))?;
            }
        }
        ReportFormat::Sarif => out.json(&report::sarif(findings(&proofed)))?,
    }
    out.flush()?;
    let worst = findings(&proofed).map(|(_, finding)| finding.level).max();
    Ok(Outcome::of(worst, least))
}

fn findings(proofed: &[Proofed]) -> impl Iterator<Item = (&Source, &crate::source::Finding)> {
    proofed.iter().flat_map(|one| one.findings.iter().map(|finding| (&one.source, finding)))
}

fn draw(out: &mut Screen<impl Write>, proofed: &[Proofed]) -> Result<(), CommandError> {
    let colour = out.has_colour();
    let mut counts = [0_usize; 3];
    for (source, finding) in findings(proofed) {
        counts[finding.level as usize] += 1;
        out.drawn(&report::terminal(source, finding, colour))?;
        writeln!(out)?;
    }
    writeln!(out, "{}", summary(proofed.len(), counts))?;
    Ok(())
}

/// `16 recipes: 1 error, 2 warnings`.
fn summary(recipes: usize, counts: [usize; 3]) -> String {
    let levels = [Level::Error, Level::Warning, Level::Note];
    let said: Vec<String> =
        levels.iter().filter_map(|level| counted(counts[*level as usize], &level.to_string())).collect();
    let said = if said.is_empty() { "nothing to mend".to_string() } else { said.join(", ") };
    format!("{}: {said}", counted(recipes, "recipe").unwrap_or_else(|| "no recipes".into()))
}

fn counted(count: usize, noun: &str) -> Option<String> {
    match count {
        0 => None,
        1 => Some(format!("1 {noun}")),
        _ => Some(format!("{count} {noun}s")),
    }
}

fn explain(rule: &str) -> Result<Outcome, CommandError> {
    let mut out = stdout();
    if rule.is_empty() {
        for rule in proof::explained() {
            let finds = rule.parts.first().and_then(|part| part.strip_prefix("What it finds: ")).unwrap_or_default();
            writeln!(out, "{:<28} {finds}", rule.name)?;
        }
        return Ok(Outcome::Done);
    }
    let explained = proof::explain(rule).ok_or_else(|| CommandError::NoSuchRule(rule.into()))?;
    write!(out, "{explained}")?;
    Ok(Outcome::Done)
}

/// Shows what would change, asks, and writes; clean when every finding was mended.
fn mend(proofed: &[Proofed], yes: bool, least: Level) -> Result<Outcome, CommandError> {
    let mut out = stdout();
    let mended: Vec<(&Proofed, Mended)> = proofed
        .iter()
        .map(|one| (one, proof::mended(&one.source, &one.findings)))
        .filter(|(_, mended)| mended.count > 0)
        .collect();
    let total: usize = mended.iter().map(|(_, mended)| mended.count).sum();
    let left = findings(proofed).count() - total;
    let worst = |mendable: bool| {
        let of_kind = findings(proofed).filter(|(_, finding)| mendable || finding.mend.is_none());
        Outcome::of(of_kind.map(|(_, finding)| finding.level).max(), least)
    };
    for (one, mended) in &mended {
        for change in &mended.changes {
            writeln!(out, "{}:{}", one.source.name(), change.line)?;
            change.old.lines().try_for_each(|line| writeln!(out, "-{line}"))?;
            change.new.lines().try_for_each(|line| writeln!(out, "+{line}"))?;
        }
    }
    let Some(changes) = counted(total, "change") else {
        writeln!(out, "nothing can be mended for certain; {} left", counted(left, "finding").unwrap_or("none".into()))?;
        return Ok(worst(true));
    };
    if !yes && !agreed(&mut out, &changes)? {
        writeln!(out, "nothing was changed")?;
        return Ok(worst(true));
    }
    for (one, mended) in &mended {
        output::replace(&one.file.path, one.source.text(), &mended.text)?;
    }
    writeln!(out, "{changes} written; {} left", counted(left, "finding").unwrap_or("none".into()))?;
    Ok(worst(false))
}

fn agreed(out: &mut impl Write, changes: &str) -> Result<bool, CommandError> {
    write!(out, "Write {changes}? [y/N] ")?;
    out.flush()?;
    let mut answer = String::new();
    std::io::stdin().lock().read_line(&mut answer)?;
    Ok(matches!(answer.trim().to_lowercase().as_str(), "y" | "yes"))
}
