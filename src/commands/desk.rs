use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use indicatif::{ProgressBar, ProgressStyle};
use rayon::prelude::*;

use super::CommandError;
use super::inspector::{Inspected, Inspector};
use super::settings::Settings;
use crate::kitchen::Kitchen;
use crate::proof::report;
use crate::recipe::Recipe;
use crate::render::Environment;
use crate::sheet::{Bench, Factor, Sheet, bench, sheet};
use crate::source::{Finding, Level, Source};
use crate::workspace::{Site, Workspace};

/// A workspace opened for work: its recipes and its templates.
pub(super) struct Desk {
    pub(super) environment: Arc<Environment>,
    inspector: Inspector,
}

/// A recipe file after reading, proof and computing.
pub(super) struct Proofed {
    pub(super) source: Source,
    pub(super) findings: Vec<Finding>,
    /// `None` where a finding is an error.
    pub(super) recipe: Option<(Recipe, Sheet)>,
}

impl Desk {
    pub(super) fn open(settings: &Settings, files: &[PathBuf]) -> Result<Self, CommandError> {
        let inspector = Inspector::open(settings, files)?;
        let environment = inspector.environment.clone();
        Ok(Self { inspector, environment })
    }

    pub(super) fn workspace(&self) -> &Workspace {
        &self.inspector.workspace
    }

    pub(super) fn site(&self) -> &Site {
        self.workspace().site()
    }

    /// Reads, proofs and computes the recipes named, or all of them; in their order, whatever the order of work.
    pub(super) fn proofed(&self, files: &[PathBuf]) -> Result<Vec<Proofed>, CommandError> {
        let inspected = self.inspector.inspected(files)?;
        Ok(inspected.into_par_iter().map(|one| self.computed(one)).collect())
    }

    /// Its kitchen.
    pub(super) fn kitchen(&self) -> &Kitchen {
        &self.inspector.kitchen
    }

    /// For reading and proofing recipes one by one.
    pub(super) fn inspector(&self) -> &Inspector {
        &self.inspector
    }

    /// Computes a recipe that was inspected.
    pub(super) fn computed(&self, inspected: Inspected) -> Proofed {
        let Inspected { source, recipe, findings, .. } = inspected;
        let clean = findings.iter().all(|finding| finding.level < Level::Error);
        let recipe = recipe.filter(|_| clean).map(|recipe| {
            let sheet = sheet(&recipe, &self.inspector.kitchen);
            (recipe, sheet)
        });
        Proofed { source, findings, recipe }
    }

    /// A recipe's amounts at some batches.
    pub(super) fn bench(&self, recipe: &Recipe, factors: &[Factor]) -> Bench {
        bench(recipe, &self.inspector.kitchen, factors)
    }

    /// The output folder: the one given, else `out/` in the workspace.
    pub(super) fn out(&self, given: Option<&Path>) -> PathBuf {
        given.map_or_else(|| self.workspace().root().join("out"), Path::to_path_buf)
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
