//! CONVERT: a pantry under one cup standard, one size of egg and one grade of gelatine sheet.
//!
//! What a line weighs, and how a weight is measured, is decided here and nowhere else.

mod eggs;
mod measured;
mod weighed;

use std::sync::{Arc, RwLock};

use rustc_hash::FxHashMap;

use crate::measure::{Class, Fill, Ladder, Standard, Unit, Words, WordsError};
use crate::pantry::{Measure, Pantry, Row};
use crate::recipe::Line;
use crate::workspace::{Authority, Cups, Site};

pub use eggs::{EggSize, Region};
pub use measured::{Counted, Measured};
pub use weighed::{Problem, Weighed};

/// A pantry and the settings of a workspace.
#[derive(Debug)]
pub struct Kitchen {
    pantry: Pantry,
    standard: Standard,
    words: Words,
    eggs: EggSize,
    /// Grade of gelatine sheet: `silver`.
    gelatin: String,
    authority: Authority,
    ladders: RwLock<FxHashMap<(Fill, Class), Arc<Ladder>>>,
}

/// Settings that are no settings.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum KitchenError {
    /// No such language.
    #[error(transparent)]
    Words(#[from] WordsError),
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

const GRADES: [&str; 5] = ["bronze", "silver", "gold", "platinum", "titanium"];

impl From<Cups> for Standard {
    fn from(cups: Cups) -> Self {
        match cups {
            Cups::Customary => Standard::Customary,
            Cups::Label => Standard::Label,
            Cups::Metric | Cups::Uk => Standard::Metric,
            Cups::Australian => Standard::Australian,
            Cups::Imperial => Standard::Imperial,
        }
    }
}

impl Kitchen {
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
            words: Words::of(&site.language)?,
            eggs: EggSize::of(&site.eggs.region, &site.eggs.size).ok_or_else(unknown)?,
            gelatin: site.gelatin.clone(),
            authority: site.authority,
            ladders: RwLock::default(),
        })
    }

    /// Its pantry.
    pub fn pantry(&self) -> &Pantry {
        &self.pantry
    }

    /// Its words.
    pub fn words(&self) -> &Words {
        &self.words
    }

    /// Its cup standard.
    pub fn standard(&self) -> Standard {
        self.standard
    }

    /// The row that a line means.
    pub fn ingredient(&self, line: &Line) -> Option<&Row> {
        let row = self.pantry.find_with(&line.name, line.prep.as_deref().unwrap_or_default())?;
        let sheets = line.amounts.iter().any(|amount| amount.unit == Some(Unit::Sheet));
        let graded = GRADES.iter().any(|grade| row.id.ends_with(grade) || line.name.to_lowercase().contains(grade));
        let general = row.id == "gelatin-sheet" || (row.id == "gelatin-powder" && sheets);
        if general && !graded {
            let id = format!("gelatin-sheet-{}", self.gelatin);
            return self.pantry.by_id(&id).or_else(|| self.pantry.by_id("gelatin-sheet")).or(Some(row));
        }
        Some(row)
    }

    /// What level measures of an ingredient weigh, with the manner of the line taken into account.
    pub fn fill(&self, row: &Row, line: &Line) -> Fill {
        let milligrams = |unit| measure_for(row, unit, line).map(Measure::milligrams).filter(|mg| *mg > 0);
        Fill {
            cup: milligrams(Unit::Cup),
            fl_oz: milligrams(Unit::FlOz),
            tbsp: milligrams(Unit::Tbsp),
            tsp: milligrams(Unit::Tsp),
        }
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

/// Cuts that a cook does after measuring when they stand behind the comma: `1 cup walnuts, chopped`.
const AFTER_MEASURING: [&str; 10] =
    ["sifted", "chopped", "sliced", "diced", "grated", "mashed", "crushed", "minced", "pureed", "whipped"];

/// Words for the manner `loose`; said together with `packed`, they win.
const LOOSE: [&str; 3] = ["loose", "loosely", "unpacked"];

/// The measure of a unit that fits a line's manner.
pub(crate) fn measure_for<'r>(row: &'r Row, unit: Unit, line: &Line) -> Option<&'r Measure> {
    let named = line.name.to_lowercase();
    let behind = line.prep.as_deref().unwrap_or_default().to_lowercase();
    let has_word = |text: &str, word: &str| text.split(|c: char| !c.is_alphanumeric()).any(|w| w == word);
    let loose = LOOSE.iter().any(|word| has_word(&named, word) || has_word(&behind, word));
    row.measure(unit, |manner| match manner {
        "loose" | "packed" if loose => manner == "loose",
        _ => has_word(&named, manner) || (has_word(&behind, manner) && !AFTER_MEASURING.contains(&manner)),
    })
}
