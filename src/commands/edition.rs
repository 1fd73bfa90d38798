use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::OnceLock;

use rayon::prelude::*;

use super::CommandError;
use super::desk::{Desk, bar};
use super::ledger::{Clerk, Known, Ledger};
use crate::archive::{self, Draft, Material, Writing};
use crate::output::Output;
use crate::proof;
use crate::source::{Finding, Source};
use crate::workspace::{RecipeFile, Workspace, WorkspaceError};

/// A recipe's text and what was found in it.
pub(super) type Found = (Source, Vec<Finding>);

/// What reading a recipe gave: its text where it was not had before, and what to write down of it.
type Read = (Option<Source>, Known);

/// Puts the archive, all of it, into an output; returns what was found in each recipe.
///
/// `cards` are the slugs of recipes whose cards this run puts; a card of an earlier run stays and is linked too.
pub(super) fn archive(desk: &Desk, output: &Output, cards: &BTreeSet<String>) -> Result<Vec<Found>, CommandError> {
    let files = desk.workspace().recipes(&[])?;
    let (ledger, sources) = rayon::join(
        || output.recall().map(Ledger::read),
        || files.par_iter().map(|file| Source::read(&file.path, file.name.clone()).ok()).collect::<Vec<_>>(),
    );
    let mut ledger = ledger?;
    let clerk = Clerk::new(desk);
    let drafts: Vec<Draft> =
        files.par_iter().zip(&sources).map(|(file, source)| clerk.draft(file, source.as_ref(), &ledger)).collect();
    let writings = writings(desk.workspace())?;
    let material = Material {
        site: desk.site(),
        writings: &writings,
        environment: &desk.environment,
        pantry: desk.kitchen().pantry(),
        photos: &desk.inspector().photos(),
        cards: &linked_cards(output, &drafts, cards)?,
    };
    let mut around = neighbours(&files);
    desk.inspector().add_pages(&mut around);
    let read: Vec<OnceLock<Read>> = files.iter().map(|_| OnceLock::new()).collect();
    let bar = bar(files.len(), "composing");
    let proofed = |at: usize| {
        let inspected = desk.inspector().inspect(&files[at], sources[at].as_ref(), &around);
        // Kept only where it is not had already: for a file that is no text.
        let source = sources[at].is_none().then(|| inspected.source.clone());
        let (proofed, known) = clerk.inspected(&files[at], inspected);
        // Each index is asked for once.
        let _ = read[at].set((source, known));
        bar.inc(1);
        proofed
    };
    let memory = archive::build(&material, &drafts, &proofed, (output, "archive"), std::mem::take(&mut ledger.memory))?;
    bar.finish_and_clear();
    let mut recipes = BTreeMap::new();
    let mut texts = Vec::new();
    for ((file, source), read) in files.iter().zip(sources).zip(read) {
        let (own, known) = match read.into_inner() {
            Some((own, known)) => (own, Some(known)),
            None => (None, ledger.take(&file.slug)),
        };
        let Some((source, known)) = source.or(own).zip(known) else { continue };
        recipes.insert(file.slug.clone(), known);
        texts.push((file, source));
    }
    let ledger = Ledger::new(&clerk, recipes, memory);
    let (found, bytes) = rayon::join(|| found(desk, around, texts, ledger.recipes()), || ledger.bytes());
    output.remember(bytes);
    // Its many small parts are dropped beside what is left to do.
    rayon::spawn(|| drop(ledger));
    Ok(found)
}

/// The recipes as far as their files' names tell of them.
fn neighbours(files: &[RecipeFile]) -> proof::Archive {
    let mut archive = proof::Archive::default();
    for file in files {
        archive.add(&file.slug, &file.name, None);
    }
    archive
}

/// What was found in each recipe. Those whose tags are not spelled as in most recipes are proofed once more, now that
/// the tags of all are known.
fn found(
    desk: &Desk,
    mut around: proof::Archive,
    texts: Vec<(&RecipeFile, Source)>,
    recipes: &BTreeMap<String, Known>,
) -> Vec<Found> {
    for known in recipes.values() {
        around.add_tags(&known.tags);
    }
    let usual = |tag: &String| around.usual_spelling(tag).is_none_or(|(spelling, _)| spelling == tag);
    let find = |(file, source): (&RecipeFile, Source)| {
        let known = &recipes[&file.slug];
        let findings = match known.tags.iter().all(usual) {
            true => known.findings(),
            false => desk.inspector().inspect(file, Some(&source), &around).findings,
        };
        (source, findings)
    };
    texts.into_par_iter().map(find).collect()
}

/// Addresses of cards relative to the archive's root.
fn linked_cards(
    output: &Output,
    drafts: &[Draft],
    made: &BTreeSet<String>,
) -> Result<BTreeMap<String, String>, CommandError> {
    let mut cards = BTreeMap::new();
    for draft in drafts {
        let card = format!("cards/{}.pdf", draft.slug);
        if made.contains(&draft.slug) || output.keep(&format!("archive/{card}"), None)? {
            cards.insert(draft.slug.clone(), card);
        }
    }
    Ok(cards)
}

/// The pages in `site/pages/`, in the order of their names.
fn writings(workspace: &Workspace) -> Result<Vec<Writing>, CommandError> {
    let read = |path: PathBuf| {
        let slug = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let source = Source::read(&path, slug.clone()).map_err(WorkspaceError::from)?;
        Ok(Writing { slug, markdown: source.text().to_string() })
    };
    workspace.pages()?.into_iter().map(read).collect()
}
