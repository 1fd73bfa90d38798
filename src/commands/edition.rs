use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Mutex, OnceLock, PoisonError};

use rayon::prelude::*;

use super::CommandError;
use super::answers::Answers;
use super::desk::{Desk, Proofed, Purpose, bar};
use super::ledger::{self, Known, Ledger, album_bytes};
use crate::archive::{self, Change, Material, Pending, Ready, Recipes, Writing};
use crate::output::Output;
use crate::proof::Archive;
use crate::sheet::Sheet;
use crate::source::{Finding, Source, SourceError, guarded};
use crate::trace::Key;
use crate::workspace::{RecipeFile, Workspace};

/// A file's text and what was found in it.
pub(super) type FileFindings = (Source, Vec<Finding>);

/// What else is made of a recipe while it is at hand: its findings, and the address of its card in the archive.
pub(super) type RecipeExtras = (Vec<Finding>, Option<String>);

/// Makes more of some recipes than their pages.
pub(super) struct More<'a> {
    /// Of these, by slug; `None`: of all.
    pub(super) of: Option<BTreeSet<String>>,
    pub(super) make: &'a (dyn Fn(&Proofed, &Sheet) -> Result<RecipeExtras, CommandError> + Sync),
}

/// What reading a recipe gave: its text where it was not had before, what to write down of it, and what was found when
/// more was made of it.
struct ReadRecipe {
    source: Option<Source>,
    known: Known,
    more: Vec<Finding>,
}

/// What a build of the archive found.
pub(super) struct Built {
    /// In each recipe and page.
    pub(super) found: Vec<FileFindings>,
    /// What readers would find changed without being told.
    pub(super) changes: Vec<Change>,
}

/// Puts the archive, all of it, into an output.
pub(super) fn archive(desk: &Desk, output: &Output, more: Option<&More<'_>>) -> Result<Built, CommandError> {
    let (files, repeated) = distinct(desk.workspace().recipes(&[])?);
    let (ledger, texts) = rayon::join(
        || output.recall(ledger::ARCHIVE).map(Ledger::read),
        || files.par_iter().map(|file| desk.workspace().text(file)).collect::<Vec<_>>(),
    );
    let mut ledger = ledger?;
    let SitePages { writings, unread, mut faulty } = pages(desk.workspace())?;
    let around = neighbours(desk, files.iter().chain(&repeated));
    let edition = Edition {
        desk,
        output,
        answers: Answers::new(desk, &around, &ledger.questions),
        settings: Key::of([format!("{:?}", desk.site()).as_bytes()]),
        around: &around,
        more,
    };
    let pending: Vec<Pending> = files
        .par_iter()
        .zip(&texts)
        .map(|(file, text)| edition.pending(file, text.as_ref().ok(), ledger.recipes.get(&file.slug)))
        .collect::<Result<_, _>>()?;
    let material = Material {
        site: desk.site(),
        writings: &writings,
        unread: &unread,
        environment: &desk.environment,
        pantry: desk.kitchen().pantry(),
        photos: desk.photos(),
    };
    let texts: Vec<Mutex<Option<Result<Source, SourceError>>>> =
        texts.into_iter().map(|text| Mutex::new(Some(text))).collect();
    let read: Vec<OnceLock<ReadRecipe>> = files.iter().map(|_| OnceLock::new()).collect();
    let failed: Vec<Mutex<Vec<Finding>>> = files.iter().map(|_| Mutex::default()).collect();
    let bar = bar(files.len(), "composing");
    let ready = |at: usize| {
        let (ready, one) = edition.ready(&files[at], take(&texts[at]), &pending[at])?;
        // Each index is asked for once.
        let _ = read[at].set(one);
        bar.inc(1);
        Ok(ready)
    };
    let recipes: Recipes<'_, CommandError> = Recipes {
        pending: &pending,
        ready: &ready,
        failed: &|at, fault| failed[at].lock().unwrap_or_else(PoisonError::into_inner).push(fault),
    };
    let (memory, changes) =
        archive::build(&material, &recipes, (output, "archive"), std::mem::take(&mut ledger.memory))?;
    bar.finish_and_clear();
    output.remember(ledger::PHOTOS, album_bytes(&desk.photos().album()));
    let mut known = BTreeMap::new();
    let mut found = Vec::new();
    for (((file, text), read), failed) in files.iter().zip(&texts).zip(read).zip(failed) {
        let mut faults = failed.into_inner().unwrap_or_else(PoisonError::into_inner);
        let text = take(text).and_then(Result::ok);
        let (source, one) = match read.into_inner() {
            Some(ReadRecipe { source, known, more }) => {
                faults.extend(more);
                (source.or(text), Some(known))
            }
            None => (text, ledger.recipes.remove(&file.slug)),
        };
        let Some((source, one)) = source.zip(one) else { continue };
        found.push((file, source, faults));
        known.insert(file.slug.clone(), one);
    }
    let questions = edition.answers.list();
    let ledger = Ledger::new(known, questions, memory);
    let (mut found, bytes) = rayon::join(|| told(desk, around.clone(), found, &ledger.recipes), || ledger.bytes());
    found.extend(repeated.iter().map(|file| proofed(desk, file, &around)));
    found.append(&mut faulty);
    output.remember(ledger::ARCHIVE, bytes);
    // Its many small parts are dropped beside what is left to do.
    rayon::spawn(|| drop(ledger));
    Ok(Built { found, changes })
}

fn take<T>(place: &Mutex<Option<T>>) -> Option<T> {
    place.lock().unwrap_or_else(PoisonError::into_inner).take()
}

/// One build of the archive.
struct Edition<'a> {
    desk: &'a Desk,
    output: &'a Output,
    answers: Answers<'a>,
    /// Of the workspace's settings, all of them.
    settings: Key,
    around: &'a Archive,
    more: Option<&'a More<'a>>,
}

impl Edition<'_> {
    /// A recipe before it is read: its key is known where its very text was read before, and all that was asked then
    /// would be answered alike.
    fn pending(
        &self,
        file: &RecipeFile,
        text: Option<&Source>,
        known: Option<&Known>,
    ) -> Result<Pending, CommandError> {
        let card = format!("cards/{}.pdf", file.slug);
        if self.makes_more_of(file) {
            return Ok(Pending { slug: file.slug.clone(), key: None, card: None });
        }
        let known = known.zip(text).filter(|(known, text)| known.text == text_key(text));
        let key = known.map(|(known, _)| self.key(file, known.text, &self.answers.at(&known.asked)));
        let card = self.output.keep(&format!("archive/{card}"), None)?.then_some(card);
        Ok(Pending { slug: file.slug.clone(), key, card })
    }

    /// A recipe after it is read, and what to write down of it.
    fn ready(
        &self,
        file: &RecipeFile,
        text: Option<Result<Source, SourceError>>,
        pending: &Pending,
    ) -> Result<(Ready, ReadRecipe), CommandError> {
        let text = text.unwrap_or_else(|| self.desk.workspace().text(file));
        let mut proofed = self.desk.read(file, text);
        self.desk.proof(&mut proofed, self.around, Purpose::Outputs);
        let sheet = proofed.sheet();
        let (more, mut card) = match (&sheet, self.more) {
            (Some(sheet), Some(more)) if self.makes_more_of(file) => {
                guarded(|| (more.make)(&proofed, sheet)).unwrap_or_else(|fault| Ok((vec![*fault], None)))?
            }
            _ => (Vec::new(), None),
        };
        if card.is_none() {
            card.clone_from(&pending.card);
        }
        if card.is_none() && self.makes_more_of(file) {
            // What an earlier run made of it stays.
            let earlier = format!("cards/{}.pdf", file.slug);
            card = self.output.keep(&format!("archive/{earlier}"), None)?.then_some(earlier);
        }
        let text = text_key(&proofed.source);
        let (asked, answers) = self.answers.to(proofed.trace.asked());
        let tags = proofed.recipe.as_ref().map(|recipe| recipe.tags.clone()).unwrap_or_default();
        let known = Known::new(text, asked, tags, &proofed.findings);
        let ready = Ready { key: self.key(file, text, &answers), card, sheet };
        Ok((ready, ReadRecipe { source: Some(proofed.source), known, more }))
    }

    fn makes_more_of(&self, file: &RecipeFile) -> bool {
        let wanted = |more: &More<'_>| more.of.as_ref().is_none_or(|of| of.contains(&file.slug));
        self.more.is_some_and(wanted)
    }

    /// Of all that a recipe's page and findings depend on.
    fn key(&self, file: &RecipeFile, text: Key, answers: &[Key]) -> Key {
        let own = [self.settings.bytes(), file.name.as_bytes(), text.bytes()];
        Key::of(own.into_iter().chain(answers.iter().map(Key::bytes)))
    }
}

fn text_key(source: &Source) -> Key {
    Key::of([source.text().as_bytes()])
}

/// Recipes of which each has a name of its own, and those whose name another one has, which have an error.
fn distinct(files: Vec<RecipeFile>) -> (Vec<RecipeFile>, Vec<RecipeFile>) {
    let mut seen = BTreeSet::new();
    files.into_iter().partition(|file| seen.insert(file.slug.clone()))
}

/// The recipes as far as their files' names tell of them, and the pages.
fn neighbours<'f>(desk: &Desk, files: impl Iterator<Item = &'f RecipeFile>) -> Archive {
    let mut archive = Archive::default();
    for file in files {
        archive.add(&file.slug, &file.name, None);
    }
    desk.add_pages(&mut archive);
    archive
}

/// A recipe that has no page, and what was found in it.
fn proofed(desk: &Desk, file: &RecipeFile, around: &Archive) -> FileFindings {
    let mut proofed = desk.read(file, desk.workspace().text(file));
    desk.proof(&mut proofed, around, Purpose::Findings);
    (proofed.source, proofed.findings)
}

/// What was found in each recipe. Those whose tags are not spelled as in most recipes are proofed once more, now that
/// the tags of all are known.
fn told(
    desk: &Desk,
    mut around: Archive,
    recipes: Vec<(&RecipeFile, Source, Vec<Finding>)>,
    known: &BTreeMap<String, Known>,
) -> Vec<FileFindings> {
    for known in known.values() {
        around.add_tags(&known.tags);
    }
    let usual = |tag: &String| around.usual_spelling(tag).is_none_or(|(spelling, _)| spelling == tag);
    let tell = |(file, source, more): (&RecipeFile, Source, Vec<Finding>)| {
        let known = &known[&file.slug];
        let mut findings = if known.tags.iter().all(usual) {
            known.findings()
        } else {
            let mut again = desk.read(file, Ok(source.clone()));
            desk.proof(&mut again, &around, Purpose::Findings);
            again.findings
        };
        findings.extend(more);
        (source, findings)
    };
    recipes.into_par_iter().map(tell).collect()
}

/// The pages in `site/pages/`, in the order of their names.
#[derive(Default)]
struct SitePages {
    writings: Vec<Writing>,
    /// Names of those that cannot be read.
    unread: Vec<String>,
    /// Why.
    faulty: Vec<FileFindings>,
}

fn pages(workspace: &Workspace) -> Result<SitePages, CommandError> {
    let mut pages = SitePages::default();
    for path in workspace.pages()? {
        let slug = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let name = format!("site/pages/{slug}.md");
        match workspace.gate().source(&path, name.as_str()) {
            Ok(source) => pages.writings.push(Writing { slug, markdown: source.text().to_string() }),
            Err(error) => {
                let (source, finding) = error.drawn(&name);
                pages.faulty.push((source, vec![finding]));
                pages.unread.push(slug);
            }
        }
    }
    Ok(pages)
}
