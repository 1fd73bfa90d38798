use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use jiff::civil::Date;
use rayon::prelude::*;

use super::CommandError;
use super::settings::Settings;
use crate::kitchen::Kitchen;
use crate::proof::{Archive, Levels, Surroundings, proof};
use crate::recipe::{self, LineReader, Recipe};
use crate::render::{self, Environment};
use crate::sheet::sheet;
use crate::source::{Finding, Source};
use crate::workspace::{RecipeFile, Workspace};

/// A workspace opened for reading and proofing.
pub(super) struct Inspector {
    pub(super) workspace: Workspace,
    pub(super) kitchen: Kitchen,
    pub(super) environment: Arc<Environment>,
    lines: LineReader,
    levels: Levels,
}

/// A recipe file after reading and proof.
pub(super) struct Inspected {
    pub(super) file: RecipeFile,
    pub(super) source: Source,
    /// `None` where it could not be understood.
    pub(super) recipe: Option<Recipe>,
    pub(super) findings: Vec<Finding>,
}

impl Inspector {
    pub(super) fn open(settings: &Settings, files: &[PathBuf]) -> Result<Self, CommandError> {
        let workspace = settings.workspace(files)?;
        let levels = Levels::of_site(workspace.site())?;
        let environment = Arc::new(Environment::new(workspace.templates().as_deref())?);
        let (kitchen, lines) = (workspace.kitchen()?, workspace.lines()?);
        Ok(Self { workspace, kitchen, environment, lines, levels })
    }

    /// Reads and proofs the recipes named, or all of them; in their order, whatever the order of work.
    ///
    /// The other recipes of the workspace are read too, since a recipe has to agree with them.
    pub(super) fn inspected(&self, files: &[PathBuf]) -> Result<Vec<Inspected>, CommandError> {
        let mut inspected = self.read(self.workspace.recipes(files)?);
        let archive = self.archive(&inspected, files.is_empty());
        inspected.par_iter_mut().for_each(|one| self.proof(one, &archive));
        Ok(inspected)
    }

    /// Reads and proofs one recipe, of a text that was read before where there is one.
    pub(super) fn inspect(&self, file: &RecipeFile, source: Option<&Source>, archive: &Archive) -> Inspected {
        let mut inspected = match source {
            Some(source) => {
                let (recipe, findings) = recipe::read(source.clone(), &file.slug, &self.lines);
                Inspected { file: file.clone(), source: source.clone(), recipe, findings }
            }
            None => self.read_one(file.clone()),
        };
        self.proof(&mut inspected, archive);
        inspected
    }

    /// The day of the run, by which a recipe is published or not yet.
    pub(super) fn today() -> Date {
        jiff::tz::TimeZone::UTC.to_datetime(jiff::Timestamp::now()).date()
    }

    /// Where the photographs of the workspace lie.
    pub(super) fn photos(&self) -> PathBuf {
        self.workspace.root().join("site").join("photos")
    }

    fn proof(&self, inspected: &mut Inspected, archive: &Archive) {
        let photos = self.photos();
        let around = Surroundings {
            kitchen: &self.kitchen,
            site: self.workspace.site(),
            archive,
            photos: Some(photos.as_path()).filter(|_| self.workspace.root().join("recipes").is_dir()),
            today: Some(Self::today()),
            shortened: Some(&|recipe: &Recipe| self.shortened(recipe)),
        };
        let found = inspected.recipe.iter().flat_map(|recipe| proof(recipe, around, &self.levels));
        inspected.findings.extend(found);
    }

    /// What the description leaves out; nothing where a template is at fault, which is told when outputs are made.
    fn shortened(&self, recipe: &Recipe) -> Vec<&'static str> {
        let sheet = sheet(recipe, &self.kitchen);
        let described = render::description(&self.environment, self.workspace.site(), &sheet);
        described.map(|made| made.dropped.iter().map(|part| part.name()).collect()).unwrap_or_default()
    }

    fn read_one(&self, file: RecipeFile) -> Inspected {
        let (source, recipe, findings) = recipe::read_file(&file.path, &file.name, &file.slug, &self.lines);
        Inspected { file, source, recipe, findings }
    }

    fn read(&self, files: Vec<RecipeFile>) -> Vec<Inspected> {
        files.into_par_iter().map(|file| self.read_one(file)).collect()
    }

    /// Adds the pages that are no recipes; a folder of them that cannot be read is told when the archive is made.
    pub(super) fn add_pages(&self, archive: &mut Archive) {
        for page in self.workspace.pages().unwrap_or_default() {
            archive.add_page(&page.file_stem().unwrap_or_default().to_string_lossy());
        }
    }

    /// All recipes of the workspace; files from elsewhere are no part of it.
    fn archive(&self, inspected: &[Inspected], complete: bool) -> Archive {
        let real = |path: &Path| path.canonicalize().unwrap_or_else(|_| path.to_path_buf());
        let read: BTreeSet<PathBuf> = inspected.iter().map(|one| real(&one.file.path)).collect();
        // A name that cannot be a page's is the business of a run over the whole workspace.
        let all = if complete { Vec::new() } else { self.workspace.recipes(&[]).unwrap_or_default() };
        let inside: BTreeSet<PathBuf> = all.iter().map(|file| real(&file.path)).collect();
        let others = self.read(all.into_iter().filter(|file| !read.contains(&real(&file.path))).collect());
        let mut archive = Archive::default();
        for one in inspected.iter().filter(|one| complete || inside.contains(&real(&one.file.path))).chain(&others) {
            archive.add(&one.file.slug, &one.file.name, one.recipe.as_ref());
        }
        self.add_pages(&mut archive);
        archive
    }
}
