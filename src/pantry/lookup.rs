use rustc_hash::FxHashMap;

use super::name::{droppable, is_droppable, words};

/// More droppable words than this are not tried one by one.
const MOST_DROPPED: usize = 8;

/// Names as sequences of words, each word a number.
///
/// Look-up forgives order, plurals and adjectives, and never identity: every word that is not known to be a mere
/// adjective must be part of the name found.
#[derive(Clone, Debug, Default)]
pub(super) struct Index {
    words: FxHashMap<String, u32>,
    ordered: FxHashMap<Box<[u32]>, usize>,
    /// Names by their words in any order; `None` where two rows differ only in the order (`milk chocolate`).
    unordered: FxHashMap<Box<[u32]>, Option<usize>>,
}

/// A word of a wanted name.
#[derive(Clone, Copy)]
struct Wanted {
    word: u32,
    droppable: bool,
}

impl Index {
    pub(super) fn add(&mut self, name: &str, row: usize) {
        let mut key = Vec::new();
        for word in words(name) {
            let next = self.words.len() as u32;
            key.push(*self.words.entry(word).or_insert(next));
        }
        if key.is_empty() {
            return;
        }
        self.ordered.insert(key.clone().into(), row);
        key.sort_unstable();
        let same = |known: Option<usize>| known.filter(|known| *known == row);
        self.unordered.entry(key.into()).and_modify(|known| *known = same(*known)).or_insert(Some(row));
    }

    /// Whether a word is part of the name of a row, or may stand before one.
    pub(super) fn has_word(&self, word: &str) -> bool {
        words(word).iter().all(|word| is_droppable(word) || self.words.contains_key(word))
    }

    /// The row of a name; `more` are words that may belong to it: what stood after the comma.
    ///
    /// Words in another order find a row only where their last word does not name a thing of another kind by itself,
    /// as the milk of `chocolate milk` does; `akin` tells whether two rows are of one kind.
    pub(super) fn find(&self, name: &str, more: &str, akin: impl Fn(usize, usize) -> bool) -> Option<usize> {
        let with_more = || if more.is_empty() { None } else { self.find_words(name, more, &|_, _| true) };
        with_more().or_else(|| self.find_words(name, "", &akin))
    }

    /// The rows of the names that stand within a name, the longest first where they overlap: those of `anchovy` and
    /// `oil` for `anchovy fillets in oil`.
    pub(super) fn within(&self, name: &str) -> Vec<usize> {
        const LONGEST: usize = 4;
        let known: Vec<Option<u32>> = words(name).iter().map(|word| self.words.get(word).copied()).collect();
        let mut rows = Vec::new();
        let mut from = 0;
        while from < known.len() {
            let found = (from + 1..=known.len().min(from + LONGEST)).rev().find_map(|to| {
                let key: Option<Vec<u32>> = known[from..to].iter().copied().collect();
                self.ordered.get(key?.as_slice()).map(|row| (to, *row))
            });
            match found {
                Some((to, row)) => {
                    rows.push(row);
                    from = to;
                }
                None => from += 1,
            }
        }
        rows
    }

    fn find_words(&self, name: &str, more: &str, akin: &dyn Fn(usize, usize) -> bool) -> Option<usize> {
        let mut wanted = Vec::new();
        let named = words(name);
        for (word, droppable) in named.iter().zip(droppable(&named)) {
            match self.words.get(word) {
                Some(known) => wanted.push(Wanted { word: *known, droppable }),
                None if droppable => {}
                None => return None,
            }
        }
        if wanted.is_empty() {
            return None;
        }
        let said = words(more);
        for (word, droppable) in said.iter().zip(droppable(&said)) {
            // A word of preparation may name the kind (`sugar, brown`), not the cut (`almonds, ground`).
            if let Some(known) = self.words.get(word).filter(|_| !droppable) {
                wanted.push(Wanted { word: *known, droppable: true });
            }
        }
        self.longest(&wanted, akin)
    }

    /// The name that keeps the most words, dropping none that matters.
    fn longest(&self, wanted: &[Wanted], akin: &dyn Fn(usize, usize) -> bool) -> Option<usize> {
        let droppable: Vec<usize> = (0..wanted.len()).filter(|at| wanted[*at].droppable).take(MOST_DROPPED).collect();
        for dropped in 0..=droppable.len() as u32 {
            let masks = (0_u32..1 << droppable.len()).filter(|mask| mask.count_ones() == dropped);
            for mask in masks {
                let gone =
                    |at: usize| droppable.iter().position(|d| *d == at).is_some_and(|bit| mask & (1 << bit) != 0);
                let mut key: Vec<u32> = (0..wanted.len()).filter(|at| !gone(*at)).map(|at| wanted[at].word).collect();
                if let Some(row) = self.ordered.get(key.as_slice()) {
                    return Some(*row);
                }
                let head = key.last().and_then(|last| self.ordered.get([*last].as_slice())).copied();
                key.sort_unstable();
                if let Some(Some(row)) = self.unordered.get(key.as_slice())
                    && head.is_none_or(|head| akin(head, *row))
                {
                    return Some(*row);
                }
            }
        }
        None
    }
}
