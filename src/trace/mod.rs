//! What was consulted while a recipe was worked on, written down where it is consulted, so that a later run can tell
//! whether any of it would be answered in another way.

mod key;
mod question;

use std::collections::BTreeSet;
use std::sync::{Mutex, PoisonError};

pub use key::Key;
pub use question::Question;

/// Everything that was asked on the way from a recipe's text to its findings and its page, each question once.
#[derive(Debug, Default)]
pub struct Trace(Mutex<BTreeSet<Question>>);

impl Trace {
    /// Writes a question down.
    pub fn note(&self, question: Question) {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).insert(question);
    }

    /// All that was asked so far, in a fixed order.
    pub fn asked(&self) -> Vec<Question> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).iter().cloned().collect()
    }
}
