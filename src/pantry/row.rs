use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Role;
use crate::measure::{Class, Unit};

/// An ingredient of the pantry.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// Stable name in machine output.
    pub id: String,
    /// Names a cook may write, the one to show first.
    pub names: Vec<String>,
    /// What it does in a recipe.
    pub class: Class,
    /// A short family word: `sugar`, `flour`.
    #[serde(default)]
    pub family: String,
    /// What it is where cooking or safety asks.
    #[serde(default)]
    pub roles: Vec<Role>,
    /// What its measures weigh; of each unit the first without a manner is the usual one.
    #[serde(default)]
    pub measures: Vec<Measure>,
    /// Allergens by the two lists of law.
    #[serde(default)]
    pub allergens: AllergenLists,
    /// The kind of nut, fish or crustacean, where the law asks for it.
    #[serde(default)]
    pub kind: Option<String>,
    /// Where it comes from.
    #[serde(default)]
    pub origin: Origin,
    /// Alcohol, per cent by volume.
    #[serde(default)]
    pub alcohol: Option<f64>,
    /// Nutrients in 100 g.
    #[serde(default)]
    pub nutrients: Option<Nutrients>,
}

/// What one measure of an ingredient weighs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Measure {
    /// The measure.
    pub of: Unit,
    /// How many of it the grams are for.
    #[serde(default = "one")]
    pub amount: f64,
    /// Grams of the amount.
    pub grams: f64,
    /// How it is cut or filled: `sifted`.
    #[serde(default)]
    pub manner: Option<String>,
    /// Who says so: `SR28 19336`, `common practice`.
    pub source: String,
    /// The source's own words for the measure.
    #[serde(default, rename = "as")]
    pub source_measure: Option<String>,
    /// The least it weighs in cooks' hands.
    #[serde(default)]
    pub low: Option<f64>,
    /// The most it weighs in cooks' hands.
    #[serde(default)]
    pub high: Option<f64>,
    /// How it is filled, or why the range.
    #[serde(default)]
    pub note: Option<String>,
}

fn one() -> f64 {
    1.0
}

impl Measure {
    /// Milligrams of one of it.
    pub fn milligrams(&self) -> i64 {
        self.per_one(self.grams)
    }

    /// The least and most one of it weighs, in milligrams; 3 % either way where the table gives no range.
    pub fn range(&self) -> (i64, i64) {
        let low = self.low.unwrap_or(self.grams * 0.97);
        let high = self.high.unwrap_or(self.grams * 1.03);
        (self.per_one(low), self.per_one(high))
    }

    fn per_one(&self, grams: f64) -> i64 {
        if self.amount > 0.0 { (grams * 1000.0 / self.amount).round() as i64 } else { 0 }
    }

    /// The source with its own words: `USDA SR28 19336, cup unsifted`.
    pub fn citation(&self) -> String {
        let source = match self.source.strip_prefix("SR28 ") {
            Some(code) => format!("USDA SR28 {code}"),
            None => self.source.clone(),
        };
        match &self.source_measure {
            Some(words) => format!("{source}, {words}"),
            None => source,
        }
    }
}

/// Allergens of one ingredient.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct AllergenLists {
    /// Of the US nine (FALCPA 2004, FASTER Act 2021).
    pub us: Vec<String>,
    /// Of the EU fourteen (Regulation (EU) 1169/2011, Annex II).
    pub eu: Vec<String>,
    /// The cereals behind `gluten` (`wheat`, `rye`, `barley`, `oats`), which the annex names one by one; where none is named,
    /// wheat if it is of the US nine.
    pub cereals: Vec<String>,
}

impl AllergenLists {
    /// The cereals whose gluten is in it.
    pub fn gluten_of(&self) -> impl Iterator<Item = &str> {
        let wheat = self.cereals.is_empty() && self.us.iter().any(|allergen| allergen == "wheat");
        self.cereals.iter().map(String::as_str).chain(wheat.then_some("wheat"))
    }
}

/// Where an ingredient comes from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Origin {
    /// Plants.
    #[default]
    Plant,
    /// Milk.
    Dairy,
    /// Eggs.
    Egg,
    /// Animals' bodies: meat, lard, gelatine.
    Meat,
    /// Fish and seafood.
    Fish,
    /// Bees.
    Bee,
    /// Other insects.
    Insect,
    /// Minerals.
    Mineral,
    /// Yeasts, cultures, ferments.
    Microbe,
}

/// Nutrients in 100 g of the edible part; `None` where the source has not determined one.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Nutrients {
    /// Who says so.
    pub source: String,
    /// Grams.
    pub water: Option<f64>,
    /// Kilocalories.
    pub kcal: Option<f64>,
    /// Grams.
    pub protein: Option<f64>,
    /// Grams.
    pub fat: Option<f64>,
    /// Grams, by difference, fibre included.
    pub carbohydrate: Option<f64>,
    /// Grams.
    pub fibre: Option<f64>,
    /// Grams.
    pub sugars: Option<f64>,
    /// Milligrams.
    pub sodium_mg: Option<f64>,
    /// Grams of saturated fat.
    pub saturated: Option<f64>,
}

impl Row {
    /// The name to show.
    pub fn name(&self) -> &str {
        self.names.first().map_or(&self.id, String::as_str)
    }

    /// Whether it has a role.
    pub fn is(&self, role: Role) -> bool {
        self.roles.contains(&role)
    }

    /// Whether it has one of some roles.
    pub fn is_any(&self, roles: &[Role]) -> bool {
        roles.iter().any(|role| self.is(*role))
    }

    /// The measure of a unit that fits the words of a line: one whose manner is among them, else the usual one.
    pub fn measure(&self, of: Unit, says: impl Fn(&str) -> bool) -> Option<&Measure> {
        let mut usual = None;
        let mut first = None;
        for measure in self.measures.iter().filter(|measure| measure.of == of) {
            match &measure.manner {
                Some(manner) if says(manner) => return Some(measure),
                None => usual = usual.or(Some(measure)),
                Some(_) => first = first.or(Some(measure)),
            }
        }
        usual.or(first)
    }
}
