//! What readers of the last build would find changed without being told.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use super::entry::{ListedRecipe, UsedIngredient};
use super::memory::Remembered;

/// A change to what was published that no reader is told of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Change {
    /// Amounts of a published recipe are others, and no correction was added.
    Amounts {
        /// Its slug.
        slug: String,
        /// What changed: the ingredient, the amount now and before.
        lines: Vec<(String, String, String)>,
    },
    /// A published recipe is called otherwise, at the same address.
    Title {
        /// Its slug.
        slug: String,
        /// What it is called.
        now: String,
        /// What it was called.
        before: String,
    },
    /// A page is gone, and no recipe says that it had its name.
    Gone {
        /// Its slug.
        slug: String,
        /// A new recipe of the same title.
        now: Option<String>,
    },
}

impl fmt::Display for Change {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Amounts { slug, lines } => {
                let line = |(name, now, before): &(String, String, String)| format!("{name} {now}, was {before}");
                let shown: Vec<String> = lines.iter().map(line).collect();
                write!(f, "{slug}: {}; no correction tells its readers: add one under `corrections`", shown.join("; "))
            }
            Self::Title { slug, now, before } => {
                write!(f, "{slug}: called `{now}`, was `{before}`; its address stays, and links to it still lead there")
            }
            Self::Gone { slug, now } => {
                write!(f, "{slug}: its page is gone, and its readers find nothing there; ")?;
                match now {
                    Some(now) => write!(f, "say `was: {slug}` in {now}, and they are led on"),
                    None => write!(f, "where the recipe has another name now, say `was: {slug}` in it"),
                }
            }
        }
    }
}

/// The amounts that a published recipe has changed between two builds, where no correction was added in between.
pub(super) fn amounts(before: &ListedRecipe, now: &ListedRecipe) -> Option<Change> {
    let told = now.corrections.len() > before.corrections.len();
    if told || before.published.is_none() || now.published.is_none() {
        return None;
    }
    let key = |entry: &ListedRecipe, one: &UsedIngredient| {
        let component = entry.components.get(one.component).map(|component| component.name.clone());
        (component, one.ingredient.clone())
    };
    let single = |entry: &ListedRecipe| -> BTreeMap<_, (usize, String)> {
        let mut all: BTreeMap<_, (usize, String)> = BTreeMap::new();
        for one in &entry.uses {
            let (count, amount) = all.entry(key(entry, one)).or_default();
            *count += 1;
            *amount = weight(&one.amount).to_string();
        }
        all
    };
    let (old, new) = (single(before), single(now));
    let changed = new.into_iter().filter_map(|((component, ingredient), (count, amount))| {
        let (_, was) = old.get(&(component, ingredient.clone())).filter(|(before, _)| *before == 1 && count == 1)?;
        (*was != amount).then(|| (ingredient.replace('-', " "), amount, was.clone()))
    });
    let lines: Vec<(String, String, String)> = changed.collect();
    (!lines.is_empty()).then(|| Change::Amounts { slug: now.slug.clone(), lines })
}

/// The title that a published recipe has changed between two builds.
pub(super) fn title(before: &ListedRecipe, now: &ListedRecipe) -> Option<Change> {
    let changed = before.published.is_some() && before.title != now.title;
    changed.then(|| Change::Title { slug: now.slug.clone(), now: now.title.clone(), before: before.title.clone() })
}

/// The weight of `60 g (1/2 cup)`: the cups of it depend on settings.
fn weight(amount: &str) -> &str {
    amount.split_once(" (").map_or(amount, |(weight, _)| weight)
}

/// Recipes that an earlier build had, that are no more and whose name no other says that it had.
pub(super) fn gone(
    left: &BTreeMap<String, Remembered>,
    next: &BTreeMap<String, Remembered>,
    unread: &[String],
) -> Vec<Change> {
    let moved: BTreeSet<&str> = next.values().flat_map(|known| &known.entry.was).map(String::as_str).collect();
    let published = left.iter().filter(|(_, known)| known.entry.published.is_some());
    let gone = published.filter(|(slug, _)| !moved.contains(slug.as_str()) && !unread.contains(slug));
    let of_title =
        |title: &str| next.values().find(|known| known.entry.title == title).map(|known| known.entry.slug.clone());
    gone.map(|(slug, known)| Change::Gone { slug: slug.clone(), now: of_title(&known.entry.title) }).collect()
}
