//! What a caller says about a card beside its Markdown.

use super::color::Rgb;
use super::size::CardSize;
use crate::language::Language;

/// How a card is to be set, and what stands around its content.
#[derive(Clone, Debug)]
pub struct Layout {
    /// Card or paper size.
    pub size: CardSize,
    /// Colour of the title rule, component headings and hairlines.
    pub accent: Rgb,
    /// BCP 47 tag of the card's language, such as `en-GB`. Words are hyphenated in English and French alone.
    pub language: String,
    /// Title for the window and the file's metadata.
    pub title: String,
    /// Author for the metadata; empty for none.
    pub author: String,
    /// Subject for the metadata, a sentence; empty for none.
    pub subject: String,
    /// The page foot.
    pub foot: Foot,
    /// Address that the QR code leads to; `None` for no code.
    pub link: Option<String>,
    /// Date of publication for the metadata; `None` leaves the dates out, for output must not depend on the clock.
    pub date: Option<jiff::civil::Date>,
    /// Words that the typesetter adds itself.
    pub labels: Labels,
}

/// The page foot.
#[derive(Clone, Debug, Default)]
pub struct Foot {
    /// Where the card comes from, at the left.
    pub source: String,
    /// Date as readers see it, at the right.
    pub date: String,
}

/// Words that the typesetter adds itself; `{number}`, `{total}` and `{address}` are filled in.
#[derive(Clone, Debug)]
pub struct Labels {
    /// For small cards, of which more than one is needed.
    pub card: String,
    /// First side of a small card.
    pub front: String,
    /// Second side of a small card.
    pub back: String,
    /// For sheets of paper.
    pub page: String,
    /// What is read in place of the QR code.
    pub code: String,
}

impl Default for Labels {
    /// In American English.
    fn default() -> Self {
        Self::of(&Language::default())
    }
}

impl Labels {
    /// In a language.
    pub fn of(language: &Language) -> Self {
        // The names to be filled in stay, each as itself.
        let said = |key| language.say(key, &[("number", "{number}"), ("total", "{total}"), ("address", "{address}")]);
        Self {
            card: said("card-of"),
            front: said("front"),
            back: said("back"),
            page: said("page-of"),
            code: said("code"),
        }
    }

    /// The label of a page, counted from 0; empty where there is only one.
    pub(crate) fn page(&self, size: CardSize, page: usize, total: usize) -> String {
        if total <= 1 {
            return String::new();
        }
        if size.two_columns() {
            return fill(&self.page, page + 1, total);
        }
        let side = if page.is_multiple_of(2) { &self.front } else { &self.back };
        if total <= 2 {
            return side.clone();
        }
        let card = fill(&self.card, page / 2 + 1, total.div_ceil(2));
        if side.is_empty() { card } else { format!("{card}, {side}") }
    }
}

fn fill(label: &str, number: usize, total: usize) -> String {
    label.replace("{number}", &number.to_string()).replace("{total}", &total.to_string())
}
