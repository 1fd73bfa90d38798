use std::io::Write;
use std::path::{Path, PathBuf};

use indicatif::{ProgressBar, ProgressStyle};
use rayon::prelude::*;

use super::CommandError;
use crate::kitchen::Kitchen;
use crate::proof::{proof, report};
use crate::recipe::{self, LineReader, Recipe};
use crate::render::Environment;
use crate::sheet::{Sheet, sheet};
use crate::source::{Finding, Level, Source};
use crate::workspace::{RecipeFile, Site, Workspace};

/// A workspace opened for work: its kitchen and its templates.
pub(super) struct Desk {
    pub(super) workspace: Workspace,
    pub(super) environment: Environment,
    kitchen: Kitchen,
    lines: LineReader,
}

/// A recipe file after reading, proof and computing.
pub(super) struct Proofed {
    pub(super) source: Source,
    pub(super) findings: Vec<Finding>,
    /// `None` where a finding is an error.
    pub(super) recipe: Option<(Recipe, Sheet)>,
}

impl Proofed {
    pub(super) fn sheet(&self) -> Option<&Sheet> {
        self.recipe.as_ref().map(|(_, sheet)| sheet)
    }
}

impl Desk {
    pub(super) fn open(folder: &Path, files: &[PathBuf]) -> Result<Self, CommandError> {
        let workspace = Workspace::of(folder, files)?;
        let environment = Environment::new(workspace.templates().as_deref())?;
        let (kitchen, lines) = (workspace.kitchen()?, workspace.lines()?);
        Ok(Self { workspace, environment, kitchen, lines })
    }

    pub(super) fn site(&self) -> &Site {
        self.workspace.site()
    }

    /// Reads, proofs and computes the recipes named, or all of them; in their order, whatever the order of work.
    pub(super) fn proofed(&self, files: &[PathBuf]) -> Result<Vec<Proofed>, CommandError> {
        let files = self.workspace.recipes(files)?;
        Ok(files.par_iter().map(|file| self.proof(file)).collect())
    }

    fn proof(&self, file: &RecipeFile) -> Proofed {
        let (source, recipe, mut findings) = recipe::read_file(&file.path, &file.name, &file.slug, &self.lines);
        findings.extend(recipe.iter().flat_map(|recipe| proof(recipe, &self.kitchen)));
        let clean = findings.iter().all(|finding| finding.level < Level::Error);
        let recipe = recipe.filter(|_| clean).map(|recipe| {
            let sheet = sheet(&recipe, &self.kitchen);
            (recipe, sheet)
        });
        Proofed { source, findings, recipe }
    }

    /// The output folder: the one given, else `out/` in the workspace.
    pub(super) fn out(&self, given: Option<&Path>) -> PathBuf {
        given.map_or_else(|| self.workspace.root().join("out"), Path::to_path_buf)
    }
}

/// Draws findings on standard error; whether there were any.
pub(super) fn show<'a>(found: impl IntoIterator<Item = (&'a Source, &'a Finding)>) -> Result<bool, CommandError> {
    let colour = anstream::stderr().current_choice() != anstream::ColorChoice::Never;
    let mut err = anstream::stderr().lock();
    let mut any = false;
    for (source, finding) in found {
        writeln!(err, "{}\n", report::terminal(source, finding, colour))?;
        any = true;
    }
    Ok(any)
}

/// A bar for long work on a terminal; hidden elsewhere, and for a few recipes.
pub(super) fn bar(count: usize, doing: &'static str) -> ProgressBar {
    /// Fewer recipes than this are done before a bar could be read.
    const WORTH_A_BAR: usize = 30;
    if count < WORTH_A_BAR {
        return ProgressBar::hidden();
    }
    let style =
        ProgressStyle::with_template("{msg} {wide_bar} {pos}/{len}").unwrap_or_else(|_| ProgressStyle::default_bar());
    ProgressBar::new(count as u64).with_style(style).with_message(doing)
}
