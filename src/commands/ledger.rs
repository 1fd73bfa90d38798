use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Mutex, OnceLock, PoisonError};
use std::time::UNIX_EPOCH;

use rustc_hash::FxHashMap;
use serde::{Deserialize, Serialize};

use super::desk::Desk;
use super::inspector::{Inspected, Inspector};
use crate::archive::{self, Draft, Key};
use crate::pantry::Pantry;
use crate::recipe::Recipe;
use crate::sheet::Sheet;
use crate::source::{Finding, Label, Level, Mend, Source, Span};
use crate::workspace::RecipeFile;

/// What an archive's build writes down for the next one, so that it need not read every recipe again.
#[derive(Debug, Default, Serialize, Deserialize)]
pub(super) struct Ledger {
    program: Key,
    pantry: Key,
    /// By slug.
    recipes: BTreeMap<String, Known>,
    pub(super) memory: archive::Memory,
}

/// A recipe as it was proofed.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct Known {
    /// Of its text.
    text: Key,
    /// Of the pantry's rows that its lines mean.
    rows: Key,
    /// Name and preparation of each line, with the id of the row that they mean.
    lines: Vec<(String, String, Option<String>)>,
    /// As written.
    pub(super) tags: Vec<String>,
    /// Name of the photograph, and how it was.
    photo: Option<(String, Option<Stamp>)>,
    /// Whether it was still to be published, so that another day may tell another thing of it.
    to_come: bool,
    findings: Vec<Noted>,
}

/// Length of a file and when it was written, in nanoseconds since 1970.
type Stamp = (u64, u128);

/// A finding, written down.
#[derive(Debug, Serialize, Deserialize)]
struct Noted {
    rule: String,
    level: Level,
    span: Span,
    message: String,
    label: String,
    help: Option<String>,
    others: Vec<(Span, String)>,
    mend: Option<(Span, String)>,
}

/// Compares recipes with what the ledger has of them.
pub(super) struct Clerk<'a> {
    desk: &'a Desk,
    site: Key,
    pantry: Key,
    rows: OnceLock<FxHashMap<&'a str, Key>>,
}

impl Ledger {
    /// What was written down, where it was by this very program; nothing otherwise.
    pub(super) fn read(bytes: Option<Vec<u8>>) -> Self {
        let ledger: Option<Self> = bytes.and_then(|bytes| postcard::from_bytes(&bytes).ok());
        ledger.filter(|ledger| ledger.program == program()).unwrap_or_default()
    }

    pub(super) fn known(&self, slug: &str) -> Option<&Known> {
        self.recipes.get(slug)
    }

    pub(super) fn new(clerk: &Clerk<'_>, recipes: BTreeMap<String, Known>, memory: archive::Memory) -> Self {
        Self { program: program(), pantry: clerk.pantry, recipes, memory }
    }

    pub(super) fn bytes(&self) -> Vec<u8> {
        postcard::to_allocvec(self).expect("texts, numbers and lists can always be written")
    }

    pub(super) fn recipes(&self) -> &BTreeMap<String, Known> {
        &self.recipes
    }

    pub(super) fn take(&mut self, slug: &str) -> Option<Known> {
        self.recipes.remove(slug)
    }
}

/// Of the running program: another version, or another build of it, may compose another archive.
fn program() -> Key {
    let file = std::env::current_exe().and_then(std::fs::metadata).ok();
    let changed = file.as_ref().and_then(|file| file.modified().ok()?.duration_since(UNIX_EPOCH).ok());
    let build = (file.map(|file| file.len()), changed.map(|time| time.as_nanos()));
    Key::of_value(&(env!("CARGO_PKG_VERSION"), build))
}

impl<'a> Clerk<'a> {
    pub(super) fn new(desk: &'a Desk) -> Self {
        let own = std::fs::read(desk.workspace().root().join("pantry.yaml")).unwrap_or_default();
        Self { desk, site: Key::of_value(desk.site()), pantry: Key::of([&own[..]]), rows: OnceLock::new() }
    }

    /// A recipe before it is read: its key is known where the ledger has this very text.
    pub(super) fn draft(&self, file: &RecipeFile, source: Option<&Source>, ledger: &Ledger) -> Draft {
        let known = ledger.known(&file.slug).zip(source).filter(|(known, source)| known.text == text_key(source));
        let key = known.and_then(|(known, _)| {
            let photo = known.photo.as_ref().is_none_or(|(file, stamp)| self.stamp(file) == *stamp);
            let rows = ledger.pantry == self.pantry || self.still_mean_the_same(known);
            (photo && rows && !known.to_come).then(|| self.key(file, known))
        });
        Draft { slug: file.slug.clone(), key }
    }

    /// A recipe after it is read, and what to write down of it.
    pub(super) fn inspected(&self, file: &RecipeFile, inspected: Inspected) -> (archive::Proofed, Known) {
        let recipe = inspected.recipe.as_ref();
        let photo = recipe.and_then(|recipe| recipe.photo.as_ref()).map(|photo| photo.file.clone());
        let to_come = recipe.is_some_and(|recipe| recipe.published.is_some_and(|day| day > Inspector::today()));
        let mut known = Known {
            text: text_key(&inspected.source),
            rows: self.pantry,
            lines: Vec::new(),
            tags: recipe.map(|recipe| recipe.tags.clone()).unwrap_or_default(),
            photo: photo.map(|file| (self.stamp(&file), file)).map(|(stamp, file)| (file, stamp)),
            to_come,
            findings: inspected.findings.iter().map(Noted::new).collect(),
        };
        let sheet = self.desk.computed(inspected).recipe.map(|(recipe, sheet)| {
            known.lines = lines(&recipe, &sheet);
            known.rows = self.rows_key(known.lines.iter().map(|(_, _, id)| id.as_deref()));
            sheet
        });
        (archive::Proofed { key: self.key(file, &known), sheet }, known)
    }

    /// A photograph as it is now; `None` where it cannot be read.
    fn stamp(&self, file: &str) -> Option<Stamp> {
        let data = std::fs::metadata(self.desk.inspector().photos().join(file)).ok()?;
        Some((data.len(), data.modified().ok()?.duration_since(UNIX_EPOCH).ok()?.as_nanos()))
    }

    fn key(&self, file: &RecipeFile, known: &Known) -> Key {
        let photo = Key::of_value(&known.photo);
        Key::of([self.site.bytes(), file.name.as_bytes(), known.text.bytes(), known.rows.bytes(), photo.bytes()])
    }

    fn pantry(&self) -> &'a Pantry {
        self.desk.kitchen().pantry()
    }

    /// Whether every line means the row that it meant, and that row is the same.
    fn still_mean_the_same(&self, known: &Known) -> bool {
        let meant = |(name, prep, _): &'_ (String, String, Option<String>)| {
            self.pantry().find_with(name, prep).map(|row| row.id.as_str())
        };
        let same = known.lines.iter().all(|line| meant(line) == line.2.as_deref());
        same && self.rows_key(known.lines.iter().map(|(_, _, id)| id.as_deref())) == known.rows
    }

    /// Of rows by id; a line that means none may mean one of any other pantry.
    fn rows_key<'k>(&self, ids: impl Iterator<Item = Option<&'k str>>) -> Key {
        let rows = self
            .rows
            .get_or_init(|| self.pantry().rows().iter().map(|row| (row.id.as_str(), Key::of_value(row))).collect());
        let of = |id: Option<&str>| id.and_then(|id| rows.get(id)).unwrap_or(&self.pantry);
        let keys: Vec<&Key> = ids.map(of).collect();
        Key::of(keys.into_iter().map(Key::bytes))
    }
}

fn text_key(source: &Source) -> Key {
    Key::of([source.text().as_bytes()])
}

fn lines(recipe: &Recipe, sheet: &Sheet) -> Vec<(String, String, Option<String>)> {
    let written = recipe.components.iter().flat_map(|component| &component.ingredients);
    let computed = sheet.components.iter().flat_map(|component| &component.lines);
    let line = |(written, computed): (&crate::recipe::Ingredient, &crate::sheet::Line)| {
        let line = &written.line;
        (line.name.clone(), line.prep.clone().unwrap_or_default(), computed.ingredient.clone())
    };
    written.zip(computed).map(line).collect()
}

impl Known {
    pub(super) fn findings(&self) -> Vec<Finding> {
        self.findings.iter().map(Noted::finding).collect()
    }
}

impl Noted {
    fn new(finding: &Finding) -> Self {
        Self {
            rule: finding.rule.to_owned(),
            level: finding.level,
            span: finding.span.clone(),
            message: finding.message.clone(),
            label: finding.label.clone(),
            help: finding.help.clone(),
            others: finding.others.iter().map(|label| (label.span.clone(), label.text.clone())).collect(),
            mend: finding.mend.as_ref().map(|mend| (mend.span.clone(), mend.replacement.clone())),
        }
    }

    fn finding(&self) -> Finding {
        let label = |(span, text): &(Span, String)| Label { span: span.clone(), text: text.clone() };
        Finding {
            rule: rule_name(&self.rule),
            level: self.level,
            span: self.span.clone(),
            message: self.message.clone(),
            label: self.label.clone(),
            help: self.help.clone(),
            others: self.others.iter().map(label).collect(),
            mend: self.mend.clone().map(|(span, replacement)| Mend { span, replacement }),
        }
    }
}

/// The name of a rule, kept once for as long as the program runs.
fn rule_name(name: &str) -> &'static str {
    static NAMES: Mutex<BTreeSet<&'static str>> = Mutex::new(BTreeSet::new());
    let mut names = NAMES.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(known) = names.get(name) {
        return known;
    }
    let kept: &'static str = Box::leak(name.to_owned().into_boxed_str());
    names.insert(kept);
    kept
}
