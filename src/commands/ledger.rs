use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::{Mutex, PoisonError};
use std::time::UNIX_EPOCH;

use serde::{Deserialize, Serialize};

use crate::archive;
use crate::output;
use crate::photo::Album;
use crate::source::{Finding, Label, Level, Mend, Span};
use crate::trace::{Key, Question};

/// What is kept in the output folder under these names for the next run.
pub(super) const ARCHIVE: &str = "memory";
pub(super) const PHOTOS: &str = "photos";

/// What an archive's build writes down for the next one, so that it need not read every recipe again.
#[derive(Debug, Default, Serialize, Deserialize)]
pub(super) struct Ledger {
    program: Key,
    /// All that was asked, with the answers.
    pub(super) questions: Vec<(Question, Key)>,
    /// By slug.
    pub(super) recipes: BTreeMap<String, Known>,
    pub(super) memory: archive::Memory,
}

/// A recipe as it was proofed.
#[derive(Debug, Serialize, Deserialize)]
pub(super) struct Known {
    /// Of its text.
    pub(super) text: Key,
    /// Indexes into [`Ledger::questions`].
    pub(super) asked: Vec<u32>,
    /// As written.
    pub(super) tags: Vec<String>,
    findings: Vec<Noted>,
}

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

impl Ledger {
    /// What was written down, where it was by this very program; nothing otherwise.
    pub(super) fn read(bytes: Option<Vec<u8>>) -> Self {
        let ledger: Option<Self> = bytes.and_then(|bytes| postcard::from_bytes(&bytes).ok());
        ledger.filter(|ledger| ledger.program == program() && ledger.is_sound()).unwrap_or_default()
    }

    fn is_sound(&self) -> bool {
        let asked = |known: &Known| known.asked.iter().all(|question| (*question as usize) < self.questions.len());
        self.recipes.values().all(asked)
    }

    /// Of what this run knows; questions that no recipe asks any more are left out.
    pub(super) fn new(
        mut recipes: BTreeMap<String, Known>,
        questions: Vec<(Question, Key)>,
        memory: archive::Memory,
    ) -> Self {
        let used: BTreeSet<u32> = recipes.values().flat_map(|known| known.asked.iter().copied()).collect();
        let places: BTreeMap<u32, u32> = used.iter().copied().zip(0..).collect();
        for known in recipes.values_mut() {
            known.asked.iter_mut().for_each(|question| *question = places[question]);
        }
        let asked = questions.into_iter().zip(0_u32..).filter(|(_, place)| used.contains(place));
        Self { program: program(), questions: asked.map(|(question, _)| question).collect(), recipes, memory }
    }

    pub(super) fn bytes(&self) -> Vec<u8> {
        postcard::to_allocvec(self).expect("texts, numbers and lists can always be written")
    }
}

/// What the last run that published photographs into a folder knew of them.
pub(super) fn album(folder: &Path) -> Album {
    let bytes = output::recall(folder, PHOTOS).ok().flatten();
    let album: Option<(Key, Album)> = bytes.and_then(|bytes| postcard::from_bytes(&bytes).ok());
    album.filter(|(by, _)| *by == program()).map(|(_, album)| album).unwrap_or_default()
}

/// What the next run is to know of photographs.
pub(super) fn album_bytes(album: &Album) -> Vec<u8> {
    postcard::to_allocvec(&(program(), album)).expect("texts, numbers and lists can always be written")
}

/// Of the running program: another version, or another build of it, may compose another archive.
fn program() -> Key {
    let file = std::env::current_exe().and_then(std::fs::metadata).ok();
    let changed = file.as_ref().and_then(|file| file.modified().ok()?.duration_since(UNIX_EPOCH).ok());
    let build = (file.map(|file| file.len()), changed.map(|time| time.as_nanos()));
    Key::of_value(&(env!("CARGO_PKG_VERSION"), build))
}

impl Known {
    pub(super) fn new(text: Key, asked: Vec<u32>, tags: Vec<String>, findings: &[Finding]) -> Self {
        Self { text, asked, tags, findings: findings.iter().map(Noted::new).collect() }
    }

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
