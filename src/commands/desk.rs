use std::cell::OnceCell;
use std::collections::BTreeSet;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use indicatif::{ProgressBar, ProgressStyle};
use jiff::civil::Date;
use rayon::prelude::*;

use super::CommandError;
use super::ledger::album;
use super::screen::stderr;
use super::settings::Settings;
use crate::facts::Facts;
use crate::kitchen::Kitchen;
use crate::photo::{Album, Photos};
use crate::proof::{Archive, Levels, Surroundings, proof, report};
use crate::recipe::{self, LineReader, Recipe};
use crate::render::{self, Environment};
use crate::sheet::{Bench, Factor, Sheet, bench, sheet};
use crate::source::{Finding, Level, Source, SourceError, guarded};
use crate::trace::Trace;
use crate::workspace::{RecipeFile, Site, Workspace};

/// A workspace opened for work.
pub(super) struct Desk {
    pub(super) environment: Arc<Environment>,
    workspace: Workspace,
    kitchen: Kitchen,
    lines: LineReader,
    levels: Levels,
    photos: Photos,
    /// The day of the run, by which a recipe is published or not yet.
    today: Date,
}

/// What recipes are proofed for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Purpose {
    /// To tell what is found.
    Findings,
    /// To make something of them.
    Outputs,
}

/// A recipe file after reading and proof.
pub(super) struct Proofed {
    pub(super) file: RecipeFile,
    pub(super) source: Source,
    /// `None` where it could not be understood.
    pub(super) recipe: Option<Recipe>,
    pub(super) findings: Vec<Finding>,
    /// What was asked on the way.
    pub(super) trace: Arc<Trace>,
    /// The desk's, which notes what it is asked in the trace.
    kitchen: Kitchen,
    /// Everything computed, where proof asked for it already.
    sheet: Option<Sheet>,
}

impl Desk {
    pub(super) fn open(settings: &Settings, files: &[PathBuf]) -> Result<Self, CommandError> {
        let workspace = settings.workspace(files)?;
        let levels = Levels::of_site(workspace.site());
        let (kitchen, lines) = (Kitchen::of(&workspace)?, workspace.lines()?);
        let environment =
            Arc::new(Environment::new(workspace.templates().as_deref(), workspace.gate(), kitchen.language())?);
        let known = album(&workspace.root().join("out"));
        let photos = Photos::new(workspace.photos(), workspace.gate().clone(), known);
        let today = jiff::tz::TimeZone::UTC.to_datetime(jiff::Timestamp::now()).date();
        Ok(Self { environment, workspace, kitchen, lines, levels, photos, today })
    }

    /// The same for a run that publishes photographs; `known` is what an earlier such run knew of them.
    pub(super) fn printing(&mut self, known: Album) {
        self.photos = Photos::new(self.workspace.photos(), self.workspace.gate().clone(), known).printing();
    }

    pub(super) fn workspace(&self) -> &Workspace {
        &self.workspace
    }

    pub(super) fn site(&self) -> &Site {
        self.workspace.site()
    }

    pub(super) fn kitchen(&self) -> &Kitchen {
        &self.kitchen
    }

    pub(super) fn photos(&self) -> &Photos {
        &self.photos
    }

    pub(super) fn today(&self) -> Date {
        self.today
    }

    /// Reads and proofs the recipes named, or all of them; in their order, whatever the order of work.
    ///
    /// The other recipes of the workspace are read too, since a recipe has to agree with them.
    pub(super) fn proofed(&self, files: &[PathBuf], purpose: Purpose) -> Result<Vec<Proofed>, CommandError> {
        let mut proofed = self.read_all(self.workspace.recipes(files)?);
        let archive = self.archive(&proofed, files.is_empty());
        proofed.par_iter_mut().for_each(|one| self.proof(one, &archive, purpose));
        Ok(proofed)
    }

    /// A recipe of a text that was had before, or could not be had.
    pub(super) fn read(&self, file: &RecipeFile, text: Result<Source, SourceError>) -> Proofed {
        let trace = Arc::new(Trace::default());
        let kitchen = self.kitchen.noted_in(&trace);
        let (source, read) = match text {
            Ok(source) => {
                let read = guarded(|| recipe::read(source.clone(), &file.slug, &self.lines));
                (source, read.unwrap_or_else(|fault| (None, vec![*fault])))
            }
            Err(error) => {
                let (source, finding) = error.drawn(&file.name);
                (source, (None, vec![finding]))
            }
        };
        let (recipe, findings) = read;
        Proofed { file: file.clone(), source, recipe, findings, trace, kitchen, sheet: None }
    }

    /// Adds what proof finds in a recipe among the others; for outputs of a sound one its sheet is computed too, from the
    /// same facts.
    pub(super) fn proof(&self, one: &mut Proofed, archive: &Archive, purpose: Purpose) {
        let Some(recipe) = &one.recipe else { return };
        let computed = OnceCell::new();
        let around = Surroundings {
            site: self.site(),
            archive,
            photos: Some(&self.photos).filter(|_| !one.file.elsewhere),
            today: Some(self.today),
            shortened: Some(&|facts: &Facts<'_>| self.shortened(computed.get_or_init(|| sheet(facts)))),
            trace: &one.trace,
        };
        let found = guarded(|| {
            let facts = Facts::of(recipe, &one.kitchen);
            let found = proof(&facts, around, &self.levels);
            if purpose == Purpose::Outputs && is_sound(one.findings.iter().chain(&found)) {
                computed.get_or_init(|| sheet(&facts));
            }
            found
        });
        match found {
            Ok(found) => one.findings.extend(found),
            Err(fault) => one.findings.push(*fault),
        }
        one.sheet = computed.into_inner();
    }

    /// What the description leaves out; nothing where a template is at fault, which is told when outputs are made.
    fn shortened(&self, sheet: &Sheet) -> Vec<&'static str> {
        let described = render::description(&self.environment, self.site(), sheet);
        described.map(|made| made.dropped.iter().map(|part| part.name()).collect()).unwrap_or_default()
    }

    fn read_all(&self, files: Vec<RecipeFile>) -> Vec<Proofed> {
        files.into_par_iter().map(|file| self.read(&file, self.workspace.text(&file))).collect()
    }

    /// Adds the pages that are no recipes, the program's own too; a folder of them that cannot be read is told when the archive is made.
    pub(super) fn add_pages(&self, archive: &mut Archive) {
        archive.reserve(crate::archive::reserved());
        for page in self.workspace.pages().unwrap_or_default() {
            archive.add_page(&page.file_stem().unwrap_or_default().to_string_lossy());
        }
    }

    /// All recipes of the workspace; files from elsewhere are no part of it.
    fn archive(&self, read: &[Proofed], complete: bool) -> Archive {
        let real = |path: &Path| path.canonicalize().unwrap_or_else(|_| path.to_path_buf());
        let known: BTreeSet<PathBuf> = read.iter().map(|one| real(&one.file.path)).collect();
        // A folder that cannot be looked into is the business of a run over the whole workspace.
        let all = if complete { Vec::new() } else { self.workspace.recipes(&[]).unwrap_or_default() };
        let inside: BTreeSet<PathBuf> = all.iter().map(|file| real(&file.path)).collect();
        let others = self.read_all(all.into_iter().filter(|file| !known.contains(&real(&file.path))).collect());
        let mut archive = Archive::default();
        for one in read.iter().filter(|one| complete || inside.contains(&real(&one.file.path))).chain(&others) {
            archive.add(&one.file.slug, &one.file.name, one.recipe.as_ref());
        }
        self.add_pages(&mut archive);
        archive
    }
}

impl Proofed {
    /// Everything computed; `None` where a finding is an error.
    pub(super) fn sheet(&mut self) -> Option<Sheet> {
        let recipe = self.recipe.as_ref().filter(|_| is_sound(&self.findings))?;
        if let Some(sheet) = self.sheet.take() {
            return Some(sheet);
        }
        let computed = guarded(|| sheet(&Facts::of(recipe, &self.kitchen)));
        computed.map_err(|fault| self.findings.push(*fault)).ok()
    }

    /// Its amounts at some batches.
    pub(super) fn bench(&self, factors: &[Factor]) -> Option<Bench> {
        self.recipe.as_ref().map(|recipe| bench(&Facts::of(recipe, &self.kitchen), factors))
    }
}

/// Whether no finding is an error.
fn is_sound<'a>(findings: impl IntoIterator<Item = &'a Finding>) -> bool {
    findings.into_iter().all(|found| found.level < Level::Error)
}

/// Draws findings on standard error; the level of the worst.
pub(super) fn show<'a>(
    found: impl IntoIterator<Item = (&'a Source, &'a Finding)>,
) -> Result<Option<Level>, CommandError> {
    let mut err = stderr();
    let colour = err.has_colour();
    let mut worst = None;
    for (source, finding) in found {
        err.drawn(&report::terminal(source, finding, colour))?;
        writeln!(err)?;
        worst = worst.max(Some(finding.level));
    }
    Ok(worst)
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
