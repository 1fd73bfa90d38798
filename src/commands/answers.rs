use std::sync::{Mutex, MutexGuard, PoisonError};

use rustc_hash::FxHashMap;

use super::desk::Desk;
use crate::pantry::Row;
use crate::proof::{Archive, before};
use crate::trace::{Key, Question};

/// Answers what recipes asked, as it would be answered now.
pub(super) struct Answers<'a> {
    desk: &'a Desk,
    archive: &'a Archive,
    /// Of all rows of the workspace's own.
    pantry: Key,
    given: Mutex<Given>,
}

#[derive(Default)]
struct Given {
    list: Vec<(Question, Key)>,
    places: FxHashMap<Question, u32>,
    /// Of rows by id.
    rows: FxHashMap<String, Key>,
}

impl<'a> Answers<'a> {
    /// Answers anew what an earlier run was asked; places in the list stay.
    pub(super) fn new(desk: &'a Desk, archive: &'a Archive, asked: &[(Question, Key)]) -> Self {
        let answers =
            Self { desk, archive, pantry: Key::of_value(&desk.kitchen().pantry().rows()), given: Mutex::default() };
        let mut given = answers.given();
        for (question, _) in asked {
            answers.add(&mut given, question.clone());
        }
        drop(given);
        answers
    }

    /// The place of each question in the list, and its answer.
    pub(super) fn to(&self, questions: Vec<Question>) -> (Vec<u32>, Vec<Key>) {
        let mut given = self.given();
        questions.into_iter().map(|question| self.add(&mut given, question)).unzip()
    }

    /// The answers at some places of the list.
    pub(super) fn at(&self, places: &[u32]) -> Vec<Key> {
        let given = self.given();
        places.iter().filter_map(|place| Some(given.list.get(*place as usize)?.1)).collect()
    }

    /// All that was asked, with the answers.
    pub(super) fn list(self) -> Vec<(Question, Key)> {
        self.given.into_inner().unwrap_or_else(PoisonError::into_inner).list
    }

    fn given(&self) -> MutexGuard<'_, Given> {
        self.given.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn add(&self, given: &mut Given, question: Question) -> (u32, Key) {
        if let Some(place) = given.places.get(&question) {
            return (*place, given.list[*place as usize].1);
        }
        let answer = self.answer(given, &question);
        let place = u32::try_from(given.list.len()).expect("no archive asks four thousand million questions");
        given.places.insert(question.clone(), place);
        given.list.push((question, answer));
        (place, answer)
    }

    fn answer(&self, given: &mut Given, question: &Question) -> Key {
        let pantry = self.desk.kitchen().pantry();
        match question {
            Question::Ingredient { name, more } => row_key(given, pantry.find_with(name, more)),
            Question::Row(id) => row_key(given, pantry.by_id(id)),
            Question::Pantry => self.pantry,
            Question::Kinds => Key::of_value(&pantry.kinds()),
            Question::Files(slug) => Key::of(self.archive.files(slug).iter().map(String::as_bytes)),
            Question::Page(slug) => Key::of_value(&self.archive.has_page(slug)),
            Question::Photo(file) => Key::of_value(&self.desk.photos().stamp(file)),
            Question::Before(day) => Key::of_value(&before(*day, self.desk.today())),
            Question::Template(name) => Key::of([self.desk.environment.fingerprint(name)]),
        }
    }
}

fn row_key(given: &mut Given, row: Option<&Row>) -> Key {
    let Some(row) = row else { return Key::default() };
    if let Some(key) = given.rows.get(&row.id) {
        return *key;
    }
    let key = Key::of_value(row);
    given.rows.insert(row.id.clone(), key);
    key
}
