use serde::Serialize;

use crate::kitchen::{Instead, Kitchen, Problem, Weighed, bloom, by_square_root, instead_of};
use crate::measure::{Number, Weight};
use crate::pantry::Row;
use crate::recipe::{Line, LineReader};

/// What there is to say of one ingredient line.
#[derive(Debug, Serialize)]
pub(super) struct Answer {
    pub(super) line: String,
    amounts: Vec<AmountSaid>,
    name: String,
    note: String,
    pub(super) ingredient: Option<String>,
    pub(super) grams: Option<Grams>,
    pub(super) level: Option<String>,
    pub(super) count: Option<String>,
    pub(super) error_percent: Option<f64>,
    pub(super) source: Option<String>,
    pub(super) problem: Option<String>,
    /// Other ingredients that do the same work; for the eye only.
    #[serde(skip)]
    pub(super) instead: Vec<String>,
    #[serde(skip)]
    pub(super) weight_text: String,
    #[serde(skip)]
    pub(super) range_text: String,
    #[serde(skip)]
    pub(super) weigh: bool,
}

#[derive(Debug, Serialize)]
struct AmountSaid {
    low: f64,
    high: f64,
    unit: Option<&'static str>,
}

#[derive(Debug, Serialize)]
pub(super) struct Grams {
    low: f64,
    high: f64,
}

impl Answer {
    pub(super) fn to(text: &str, kitchen: &Kitchen, reader: &LineReader) -> Self {
        match reader.read(text) {
            Ok(line) => Self::to_line(text, &line, kitchen),
            Err(error) => {
                let mut answer = Self::to_line(text, &Line::default(), kitchen);
                answer.problem = Some(format!("{error}; {}", error.fault.help()));
                answer
            }
        }
    }

    fn to_line(text: &str, line: &Line, kitchen: &Kitchen) -> Self {
        let row = if line.name.is_empty() { None } else { kitchen.ingredient(line) };
        let remarks = [&line.prep, &line.note].into_iter().flatten();
        let mut answer = Self {
            line: text.to_string(),
            amounts: line.amounts.iter().map(said).collect(),
            name: line.name.clone(),
            note: remarks.map(String::as_str).collect::<Vec<_>>().join("; "),
            ingredient: row.map(|row| row.id.clone()),
            grams: None,
            level: None,
            count: None,
            error_percent: None,
            source: None,
            problem: None,
            instead: Vec::new(),
            weight_text: String::new(),
            range_text: String::new(),
            weigh: false,
        };
        match kitchen.weigh(line) {
            Ok(weighed) => answer.add_weight(&weighed, row, line, kitchen),
            Err(Problem::NoAmount) if line.to_taste => {}
            Err(Problem::UnknownIngredient(name)) => answer.problem = Some(unknown(name, kitchen)),
            Err(problem) => answer.problem = Some(problem.to_string()),
        }
        if row.is_none() && answer.problem.is_none() && !line.name.is_empty() {
            answer.problem = Some(unknown(line.name.clone(), kitchen));
        }
        answer
    }

    fn add_weight(&mut self, weighed: &Weighed, row: Option<&Row>, line: &Line, kitchen: &Kitchen) {
        let words = kitchen.words();
        self.grams = Some(Grams { low: grams(weighed.low), high: grams(weighed.high) });
        self.weight_text = words.weights(weighed.low, weighed.high);
        if weighed.least != weighed.low || weighed.most != weighed.high {
            self.range_text = words.weights(weighed.least, weighed.most);
        }
        let stated = (weighed.source != "stated").then(|| weighed.source.clone());
        self.source = stated;
        let Some(row) = row else { return };
        self.instead = same_work(row, weighed.high, kitchen);
        if let Some(level) = kitchen.measure_range(row, line, weighed.low, weighed.high) {
            self.error_percent = level.error_percent.map(rounded);
            self.source = self.source.take().or(Some(level.source)).filter(|source| !source.is_empty());
            self.weigh = level.weigh;
            self.level = Some(level.text);
        }
        if let Some(count) = kitchen.count(row, line, weighed.high) {
            if self.level.is_none() {
                self.error_percent = Some(rounded(count.error_percent));
                self.source = self.source.take().or(Some(count.source));
            }
            self.count = Some(count.long);
        }
    }

    pub(super) fn json(&self) -> String {
        serde_json::to_string(self).expect("an object of texts and numbers serialises")
    }
}

/// That an ingredient is not known, with names that are.
fn unknown(name: String, kitchen: &Kitchen) -> String {
    let unit =
        kitchen.unit_meant(&name).map(|(written, meant)| format!("`{written}` is no unit; did you mean `{meant}`?"));
    if let Some(unit) = unit {
        return unit;
    }
    let near = kitchen.pantry().nearest(&name, 3).join(", ");
    let problem = Problem::UnknownIngredient(name);
    if near.is_empty() { problem.to_string() } else { format!("{problem}; the nearest names are {near}") }
}

/// What does the work of an ingredient, a text a rule: `8.5 g gelatin powder (mass × bloom, the trade's rule)`.
fn same_work(row: &Row, weight: Weight, kitchen: &Kitchen) -> Vec<String> {
    let named = |other: &Instead, weight: Weight| {
        let name = kitchen.pantry().by_id(other.id)?.name();
        Some(format!("{} {name}", kitchen.words().weight(weight)))
    };
    let others = instead_of(row, weight);
    let Some(first) = others.first() else { return Vec::new() };
    let usual: Vec<String> = others.iter().filter_map(|other| named(other, other.weight)).collect();
    let mut texts = vec![format!("{} ({})", usual.join(", "), first.source)];
    if let Some(from) = bloom(&row.id) {
        let root = |other: &Instead| named(other, by_square_root(weight, from, bloom(other.id)?));
        let by_root: Vec<String> = others.iter().filter_map(root).collect();
        texts.push(format!("{} (by the square root of the blooms)", by_root.join(", ")));
    }
    texts
}

fn said(amount: &crate::recipe::Amount) -> AmountSaid {
    AmountSaid { low: float(amount.low), high: float(amount.high), unit: amount.unit.map(|unit| unit.name()) }
}

fn float(number: Number) -> f64 {
    *number.numer() as f64 / *number.denom() as f64
}

fn grams(weight: Weight) -> f64 {
    weight.milligrams() as f64 / 1000.0
}

/// To a hundredth of a per cent; never minus nothing.
fn rounded(percent: f64) -> f64 {
    let rounded = (percent * 100.0).round() / 100.0;
    if rounded == 0.0 { 0.0 } else { rounded }
}
