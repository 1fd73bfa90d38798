use rustc_hash::FxHashMap;

use super::section::{LanguageError, sections};
use crate::measure::{LevelMeasure, Number, Unit, Weight, decimals, kitchen};

/// The words for amounts of one language, for printing.
#[derive(Clone, Debug)]
pub struct Words {
    decimal: char,
    thousands: String,
    /// From this number on a unit is in the plural: above 1 in English, from 2 in French.
    plural_from: Number,
    units: FxHashMap<Unit, (String, String)>,
    /// `a pinch`.
    pub pinch: String,
    /// `to taste`.
    pub to_taste: String,
    /// `weigh`: what must not be measured by spoon.
    pub weigh: String,
    /// Between the ends of a range: `to`.
    pub to: String,
    /// What the remainder of an egg is called: `beaten`.
    pub beaten: String,
}

impl Words {
    /// The words of a language of [`super::Language::tags`].
    ///
    /// # Errors
    /// [`LanguageError::UnknownLanguage`] for any other.
    pub fn of(language: &str) -> Result<Self, LanguageError> {
        let mut words = Words {
            decimal: '.',
            thousands: ",".into(),
            plural_from: Number::from_integer(1),
            units: FxHashMap::default(),
            pinch: String::new(),
            to_taste: String::new(),
            weigh: String::new(),
            to: String::new(),
            beaten: String::new(),
        };
        for section in sections(language)? {
            let section = section.clone();
            words.decimal = section.decimal.unwrap_or(words.decimal);
            words.thousands = section.thousands.unwrap_or(words.thousands);
            words.plural_from = section.plural_from.map_or(words.plural_from, Number::from_integer);
            words.pinch = section.pinch.unwrap_or(words.pinch);
            words.to_taste = section.to_taste.unwrap_or(words.to_taste);
            words.weigh = section.weigh.unwrap_or(words.weigh);
            words.to = section.range.unwrap_or(words.to);
            words.beaten = section.beaten.unwrap_or(words.beaten);
            for (unit, forms) in section.show {
                let one = forms.first().cloned().unwrap_or_default();
                let many = forms.get(1).cloned().unwrap_or_else(|| one.clone());
                words.units.insert(unit, (one, many));
            }
        }
        Ok(words)
    }

    /// A unit's word for a number of it: `cup` up to one, else `cups`; French has the plural from two on.
    pub fn unit(&self, unit: Unit, number: Number) -> &str {
        let one_is_enough = number <= Number::from_integer(1) || number < self.plural_from;
        match self.units.get(&unit) {
            Some((one, _)) if one_is_enough => one,
            Some((_, many)) => many,
            None => unit.name(),
        }
    }

    /// A number with kitchen fractions: `1 1/2`.
    pub fn number(&self, number: Number) -> String {
        kitchen(number, self.decimal)
    }

    /// A number with its unit: `1 1/2 cups`.
    pub fn amount(&self, number: Number, unit: Unit) -> String {
        format!("{} {}", kitchen(number, self.decimal), self.unit(unit, number))
    }

    /// A level measure: `1 1/4 cups`, `1/3 cup + 1 tbsp`.
    pub fn level(&self, measure: LevelMeasure) -> String {
        let parts: Vec<String> = measure.amounts().map(|(number, unit)| self.part(number, unit)).collect();
        parts.join(" + ")
    }

    /// Eighths that take two spoons are named as the two spoons.
    fn part(&self, number: Number, unit: Unit) -> String {
        let eighth = Number::new(1, 8);
        if unit == Unit::Tsp && *number.denom() == 8 && *number.numer() > 1 && number < Number::from_integer(1) {
            return format!("{} + {}", self.amount(number - eighth, unit), self.amount(eighth, unit));
        }
        self.amount(number, unit)
    }

    /// A weight for showing: `0.4 g`, `7.5 g`, `1,240 g`.
    pub fn weight(&self, weight: Weight) -> String {
        format!("{} {}", self.grams(weight), self.unit(Unit::G, Number::from_integer(1)))
    }

    /// Two weights for showing, as one where both show the same.
    pub fn weights(&self, low: Weight, high: Weight) -> String {
        if low.shown_decigrams() == high.shown_decigrams() {
            return self.weight(high);
        }
        format!("{}–{}", self.grams(low), self.weight(high))
    }

    fn grams(&self, weight: Weight) -> String {
        let tenths = weight.shown_decigrams();
        let whole = (tenths / 10).to_string();
        let mut said = String::new();
        for (place, digit) in whole.chars().enumerate() {
            if place > 0 && (whole.len() - place).is_multiple_of(3) {
                said.push_str(&self.thousands);
            }
            said.push(digit);
        }
        if tenths % 10 != 0 {
            said.push(self.decimal);
            said.push_str(&(tenths % 10).to_string());
        }
        said
    }

    /// A number with at most `places` decimals and this language's decimal mark.
    pub fn decimal(&self, number: Number, places: u32) -> String {
        decimals(number, places, self.decimal)
    }
}
