//! CONVERT: a pantry under one cup standard, one size of egg and one grade of gelatine sheet.
//!
//! What a line weighs, and how a weight is measured, is decided here and nowhere else.

mod instead;
mod measured;
mod weighed;

use std::sync::{Arc, RwLock};

use rustc_hash::FxHashMap;

use crate::language::{Language, LanguageError, Sense, Word, Words};
use crate::measure::{Class, Dimension, Fill, Ladder, Number, Standard, Unit};
use crate::pantry::{EggSize, Measure, Pantry, Row};
use crate::recipe::{Amount, Line};
use crate::trace::Trace;
use crate::workspace::{Authority, GRADES, Site, Workspace};

pub use instead::{Instead, bloom, by_square_root, instead_of};
pub use measured::{Counted, Measured};
pub(crate) use weighed::wide;
pub use weighed::{Problem, Weighed};

/// A pantry and the settings of a workspace.
/// Clones share all that is large.
#[derive(Clone, Debug)]
pub struct Kitchen {
    pantry: Pantry,
    standard: Standard,
    language: Arc<Language>,
    eggs: EggSize,
    /// Grade of gelatine sheet: `silver`.
    gelatin: String,
    authority: Authority,
    ladders: Arc<Ladders>,
}

/// Ladders that were asked for.
type Ladders = RwLock<FxHashMap<(Fill, Class), Arc<Ladder>>>;

/// Settings that are no settings.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum KitchenError {
    /// No such language.
    #[error(transparent)]
    Words(#[from] LanguageError),
    /// No such egg.
    #[error("`{region} {size}` is not a size of egg; regions are US, EU and UK; sizes small to jumbo")]
    UnknownEgg {
        /// The region given.
        region: String,
        /// The size given.
        size: String,
    },
    /// No such grade.
    #[error("`{0}` is not a grade of gelatine sheet; there are bronze, silver, gold, platinum and titanium")]
    UnknownGrade(String),
}

impl Kitchen {
    /// The kitchen of a workspace.
    ///
    /// # Errors
    /// [`KitchenError`] for settings that were changed to something that does not exist.
    pub fn of(workspace: &Workspace) -> Result<Self, KitchenError> {
        Self::new(workspace.pantry(), workspace.site())
    }

    /// A kitchen with the settings of a site.
    ///
    /// # Errors
    /// [`KitchenError`] for a language, egg or grade that does not exist.
    pub fn new(pantry: Pantry, site: &Site) -> Result<Self, KitchenError> {
        if !GRADES.contains(&site.gelatin.as_str()) {
            return Err(KitchenError::UnknownGrade(site.gelatin.clone()));
        }
        let unknown = || KitchenError::UnknownEgg { region: site.eggs.region.clone(), size: site.eggs.size.clone() };
        Ok(Self {
            pantry,
            standard: site.cups.into(),
            language: Arc::new(Language::of(&site.language)?.with(&site.words)?),
            eggs: EggSize::of(&site.eggs.region, &site.eggs.size).ok_or_else(unknown)?,
            gelatin: site.gelatin.clone(),
            authority: site.authority,
            ladders: Arc::default(),
        })
    }

    /// The same kitchen, with every question to its pantry noted in a trace.
    #[must_use]
    pub fn noted_in(&self, trace: &Arc<Trace>) -> Self {
        Self { pantry: self.pantry.noted_in(trace), ..self.clone() }
    }

    /// Its pantry.
    pub fn pantry(&self) -> &Pantry {
        &self.pantry
    }

    /// Its language.
    pub fn language(&self) -> &Language {
        &self.language
    }

    /// Its words for amounts.
    pub fn words(&self) -> &Words {
        self.language.words()
    }

    /// Its cup standard.
    pub fn standard(&self) -> Standard {
        self.standard
    }

    /// The row that a line means.
    pub fn ingredient(&self, line: &Line) -> Option<&Row> {
        // `2 eggs, whites and yolks separated` are whole eggs.
        let more = line.prep.as_deref().filter(|prep| !self.language.tells(Sense::Apart, prep)).unwrap_or_default();
        let whole = || {
            self.named_with_container(line)
                .or_else(|| self.named_in_plural(line))
                .or_else(|| self.pantry.find_with(&line.name, more))
        };
        let known = self.piece_of(line).or_else(|| self.part_taken(line)).or_else(whole);
        let row = known.or_else(|| self.yeast_by_spoon(line))?;
        let sheets = line.amounts.iter().any(|amount| amount.unit == Some(Unit::Sheet));
        if row.id == "gelatin-sheet" || (row.id == "gelatin-powder" && sheets) {
            let name = line.name.to_lowercase();
            let grade = GRADES.into_iter().find(|grade| name.contains(grade)).unwrap_or(&self.gelatin);
            return self.pantry.by_id(&format!("gelatin-sheet-{grade}")).or(Some(row));
        }
        Some(row)
    }

    /// The row of a piece where the pantry has one of its own: `2 slices lemon`, `1 bâton de cannelle`.
    fn piece_of(&self, line: &Line) -> Option<&Row> {
        let unit = line.amounts.first()?.unit.filter(|unit| unit.dimension() == Dimension::Count)?;
        let pieces = !unit.is_container() && !unit.is_vague() && !unit.is_pinched();
        let word = self.words().unit(unit, Number::from_integer(1));
        let find = |name: String| self.pantry.find(&name).filter(|_| pieces);
        find(format!("{} {word}", line.name)).or_else(|| find(format!("{word} {}", line.name)))
    }

    /// The row whose name begins like what a thing is sold in: `500 g bottle gourd`, `200 g head cheese`.
    fn named_with_container(&self, line: &Line) -> Option<&Row> {
        let sold_in = line.note.as_deref().filter(|note| self.language.unit(note).is_some())?;
        self.pantry.find(&format!("{sold_in} {}", line.name))
    }

    /// `1 kg peppers` and `2 peppers` are vegetables; the spice has no plural.
    fn named_in_plural(&self, line: &Line) -> Option<&Row> {
        let means = self.language.names().in_plural.get(line.name.to_lowercase().as_str())?;
        self.pantry.find(means)
    }

    /// The first word of a name that is not in the pantry, and the unit that it is a misspelling of: `tbps sugar`.
    ///
    /// A word of names, such as the `gros` of `gros sel`, is no misspelling.
    pub fn unit_meant(&self, name: &str) -> Option<(String, String)> {
        let (first, rest) = name.split_once(' ')?;
        let known = self.pantry.has_word(first) || self.pantry.find(rest).is_none();
        let meant = self.language.unit_like(first).filter(|_| !known)?;
        Some((first.to_string(), meant.to_string()))
    }

    /// Yeast of no kind is in no row, since fresh and dried differ threefold; by the spoon or the sachet it is dried.
    fn yeast_by_spoon(&self, line: &Line) -> Option<&Row> {
        let dry = |amount: &Amount| matches!(amount.unit, Some(Unit::Tsp | Unit::Tbsp | Unit::Packet));
        let means = self.language.names().by_spoon.get(line.name.to_lowercase().as_str())?;
        self.pantry.find(means).filter(|_| line.amounts.iter().any(dry))
    }

    /// The row of what is taken from whole fruit: that of the juice for `1 lemon, juiced`.
    fn part_taken(&self, line: &Line) -> Option<&Row> {
        let counted = line.amounts.first().is_some_and(|amount| amount.unit.is_none());
        let said = line.prep.as_deref().or(line.note.as_deref()).filter(|_| counted)?.to_lowercase();
        let said = self.language.read(&said);
        let tells = |of: Sense, word: &Word| self.language.lexicon(of).has(word);
        let of_it = [Sense::Juice, Sense::Zest, Sense::BesideJuice];
        if !said.iter().all(|word| of_it.iter().any(|of| tells(*of, word))) {
            return None;
        }
        let any = |of: Sense| said.iter().any(|word| tells(of, word));
        let (juice, zest) = (any(Sense::Juice), any(Sense::Zest));
        let part = match (zest, juice) {
            (true, true) => "zest and juice",
            (true, false) => "zest",
            (false, true) => "juice",
            (false, false) => return None,
        };
        self.pantry.find(&format!("{} {part}", line.name))
    }

    /// What level measures of an ingredient weigh, with the manner of the line taken into account.
    pub fn fill(&self, row: &Row, line: &Line) -> Fill {
        let milligrams = |unit| self.measure_for(row, unit, line).map(Measure::milligrams).filter(|mg| *mg > 0);
        Fill {
            cup: milligrams(Unit::Cup),
            fl_oz: milligrams(Unit::FlOz),
            tbsp: milligrams(Unit::Tbsp),
            tsp: milligrams(Unit::Tsp),
        }
    }

    /// The measure of a unit that fits a line's manner.
    fn measure_for<'r>(&self, row: &'r Row, unit: Unit, line: &Line) -> Option<&'r Measure> {
        let behind = line.prep.as_deref().unwrap_or_default();
        let tells = |text: &str| self.language.tells(Sense::Loose, text);
        let loose = || tells(&line.name) || tells(behind);
        let after = |manner: &str| self.language.tells(Sense::AfterMeasuring, manner);
        row.measure(unit, |manner| match manner {
            "loose" | "packed" if loose() => manner == "loose",
            _ => has_word(&line.name, manner) || (has_word(behind, manner) && !after(manner)),
        })
    }

    fn ladder(&self, fill: Fill, class: Class) -> Option<Arc<Ladder>> {
        let key = (fill, class);
        let known = self.ladders.read().ok().and_then(|ladders| ladders.get(&key).cloned());
        if known.is_some() {
            return known;
        }
        let ladder = Arc::new(Ladder::new(&fill, class, self.standard)?);
        if let Ok(mut ladders) = self.ladders.write() {
            ladders.insert(key, ladder.clone());
        }
        Some(ladder)
    }
}

/// Whether a text has a word, which is given in lower case.
fn has_word(text: &str, word: &str) -> bool {
    let mut words = text.split(|c: char| !c.is_alphanumeric());
    words.any(|said| said.chars().flat_map(char::to_lowercase).eq(word.chars()))
}
