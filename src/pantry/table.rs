use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::kind::OwnKind;
use super::lookup::Index;
use super::name::choices;
use super::nearest::Sought;
use super::own::OwnPantry;
use super::row::Row;
use crate::trace::{Question, Trace};

/// The rows of every file in `src/pantry/table/`, as JSON, made when the program is built.
const TABLE: &str = include_str!(concat!(env!("OUT_DIR"), "/pantry.json"));

/// The ingredient table, with look-up by name. Clones share it.
///
/// Whoever asks one that was handed out with a trace leaves a note in it.
#[derive(Clone, Debug)]
pub struct Pantry {
    table: Arc<IngredientTable>,
    trace: Option<Arc<Trace>>,
}

#[derive(Clone, Debug, Default)]
struct IngredientTable {
    rows: Vec<Row>,
    kinds: Vec<OwnKind>,
    ids: FxHashMap<String, usize>,
    index: Index,
}

impl Pantry {
    /// The table inside the program.
    pub fn embedded() -> Self {
        let rows: Vec<Row> = serde_json::from_str(TABLE).expect("the table was checked when the program was built");
        let mut table = IngredientTable::default();
        rows.into_iter().for_each(|row| table.add(row));
        Self { table: Arc::new(table), trace: None }
    }

    /// The same pantry, with every question to it noted in a trace.
    #[must_use]
    pub fn noted_in(&self, trace: &Arc<Trace>) -> Self {
        Self { table: self.table.clone(), trace: Some(trace.clone()) }
    }

    /// Adds what a workspace has of its own; a row with a known id takes that row's place, and its names win.
    pub fn extend(&mut self, own: &OwnPantry) {
        if *own != OwnPantry::default() {
            let table = Arc::make_mut(&mut self.table);
            own.ingredients.iter().for_each(|row| table.add(row.clone()));
            table.kinds.extend(own.kinds.iter().cloned());
        }
    }

    /// The kinds of component of a workspace's own.
    pub fn kinds(&self) -> &[OwnKind] {
        self.note(|| Question::Kinds);
        &self.table.kinds
    }

    /// The row that a name means; `None` where none does for certain.
    pub fn find(&self, name: &str) -> Option<&Row> {
        self.find_with(name, "")
    }

    /// The row that a name and the words after its comma mean: `sugar`, `caster`.
    pub fn find_with(&self, name: &str, more: &str) -> Option<&Row> {
        self.note(|| Question::Ingredient { name: name.into(), more: more.into() });
        self.table.find(name, more)
    }

    /// The rows whose names stand within a name that is no row's, such as that of `walnut` in `walnut halves in syrup`.
    pub fn within(&self, name: &str) -> Vec<&Row> {
        self.note(|| Question::Pantry);
        self.table.index.within(name).into_iter().map(|place| &self.table.rows[place]).collect()
    }

    /// Whether a word is part of the name of a row, or may stand before one: `gros` is of `gros sel`.
    pub fn has_word(&self, word: &str) -> bool {
        self.note(|| Question::Pantry);
        self.table.index.has_word(word)
    }

    fn note(&self, question: impl FnOnce() -> Question) {
        if let Some(trace) = &self.trace {
            trace.note(question());
        }
    }

    /// The row of an id.
    pub fn by_id(&self, id: &str) -> Option<&Row> {
        self.note(|| Question::Row(id.into()));
        self.table.ids.get(id).map(|place| &self.table.rows[*place])
    }

    /// Every row, in the order of the table.
    pub fn rows(&self) -> &[Row] {
        self.note(|| Question::Pantry);
        &self.table.rows
    }

    /// The names most like one that is not known, nearest first, of different rows.
    pub fn nearest(&self, name: &str, count: usize) -> Vec<&str> {
        let rows = self.rows();
        let name = name.to_lowercase();
        let is_kind = |row: &&Row| row.name().strip_suffix(&name).is_some_and(|kind| kind.ends_with(' '));
        let kinds = rows.iter().filter(is_kind).map(|row| (2.0, row.name()));
        let sought = Sought::new(&name);
        let alike = rows.iter().filter_map(|row| {
            let likely = row.names.iter().filter_map(|known| Some((sought.likeness(known)?, known.as_str())));
            likely.max_by(|a, b| a.0.total_cmp(&b.0))
        });
        let mut scored: Vec<(f64, &str)> = kinds.chain(alike).collect();
        scored.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.len().cmp(&b.1.len())).then(a.1.cmp(b.1)));
        let mut near: Vec<&str> = Vec::new();
        for (_, known) in scored {
            if near.len() < count && !near.contains(&known) {
                near.push(known);
            }
        }
        near
    }
}

impl IngredientTable {
    fn add(&mut self, row: Row) {
        let place = match self.ids.get(&row.id) {
            Some(place) => {
                self.rows[*place] = row;
                *place
            }
            None => {
                self.ids.insert(row.id.clone(), self.rows.len());
                self.rows.push(row);
                self.rows.len() - 1
            }
        };
        for name in &self.rows[place].names {
            self.index.add(name, place);
        }
    }

    fn find(&self, name: &str, more: &str) -> Option<&Row> {
        self.find_one(name, more).or_else(|| self.first_choice(name))
    }

    fn find_one(&self, name: &str, more: &str) -> Option<&Row> {
        let akin = |one: usize, other: usize| self.rows[one].family == self.rows[other].family;
        self.index.find(name, more, akin).map(|place| &self.rows[place])
    }

    /// The first of two choices: `butter or margarine` is butter, `dark or light brown sugar` is dark brown sugar.
    ///
    /// The words behind the second choice belong to both where both are then of one family: `milk or dark chocolate`
    /// is milk chocolate, and not milk.
    fn first_choice(&self, name: &str) -> Option<&Row> {
        let mark = choices().iter().find(|mark| name.to_lowercase().contains(mark.as_str()))?;
        let at = name.to_lowercase().find(mark.as_str())?;
        let (first, rest) = (name.get(..at)?, name.get(at + mark.len()..)?);
        let shared = rest.split_once(' ').and_then(|(_, shared)| self.find_one(&format!("{first} {shared}"), ""));
        let both = shared.filter(|row| self.find_one(rest, "").is_some_and(|other| other.family == row.family));
        both.or_else(|| self.find_one(first, "")).or(shared)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_embedded_rows_are_there() {
        let pantry = Pantry::embedded();
        assert!(pantry.rows().len() >= 600, "{}", pantry.rows().len());
    }

    /// Every name leads to its own row, so that no alias is dead and no two rows share one.
    #[test]
    fn every_name_finds_its_row() {
        let pantry = Pantry::embedded();
        let mut wrong = Vec::new();
        for row in pantry.rows() {
            for name in &row.names {
                let found = pantry.find(name).map(|found| found.id.as_str());
                if found != Some(&row.id) {
                    wrong.push(format!("{name}: {found:?}, not {}", row.id));
                }
            }
        }
        assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
    }
}
