//! The grammar of an ingredient line: `amount [(amount)] name[, preparation] [(remark)]`, and the mess of real life.

mod amount;
mod behind;
mod brackets;
mod cursor;
mod fault;
mod front;
mod name;
mod parts;
mod phrases;
mod tidy;
mod token;
mod trim;

use std::sync::Arc;

use crate::language::{Dictionary, TimeWords};
use crate::measure::{Dimension, Number, Standard, Unit};
use crate::source::Span;

use cursor::Cursor;
pub use fault::{LineError, LineFault};
use phrases::Phrases;

/// An ingredient line, understood.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Line {
    /// Amounts in the order stated; the second of a stated pair is the second. None for `salt`.
    pub amounts: Vec<Amount>,
    /// Whether the second amount is that of one piece: `2 cans, 400 g each`.
    pub each: bool,
    /// The ingredient's name as written.
    pub name: String,
    /// Preparation: what stands after the comma.
    pub prep: Option<String>,
    /// Remarks: what stands in brackets, and phrases such as `for dusting`.
    pub note: Option<String>,
    /// `to taste` was said.
    pub to_taste: bool,
    /// `optional` was said.
    pub optional: bool,
    /// An http(s) address that stood at the end.
    pub link: Option<String>,
}

/// A stated amount: a number or a range, in a unit or in pieces.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Amount {
    /// The lower end, above nothing.
    pub low: Number,
    /// The higher end; the same for a single number.
    pub high: Number,
    /// The unit; `None` for pieces: `2 lemons`.
    pub unit: Option<Unit>,
    /// The size of the pieces: `large`.
    pub size: Option<Unit>,
    /// `about` was said.
    pub about: bool,
    /// How the measure is filled.
    pub fullness: Option<Fullness>,
    /// Its bytes in the line.
    pub span: Span,
}

impl Amount {
    /// Whether it is a weight or a volume rather than a count.
    fn is_measured(&self) -> bool {
        self.unit.is_some_and(|unit| unit.dimension() != Dimension::Count)
    }
}

/// How a spoon or cup is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fullness {
    /// A little less than level.
    Scant,
    /// Level.
    Level,
    /// As much as stays on it.
    Heaped,
}

/// The longest line that is read, in bytes.
const LONGEST: usize = 2000;

/// Reads ingredient lines of one language under one cup standard.
#[derive(Clone, Debug)]
pub struct LineReader {
    dictionary: Dictionary,
    phrases: Arc<Phrases>,
    standard: Standard,
}

impl LineReader {
    /// A reader; the standard decides how `1 cup + 1 tbsp` adds up.
    pub fn new(dictionary: Dictionary, standard: Standard) -> Self {
        let phrases = Arc::new(Phrases::of(dictionary.lines()));
        Self { dictionary, phrases, standard }
    }

    /// Reads one line.
    ///
    /// # Errors
    /// [`LineError`] with the part that cannot be read.
    pub fn read(&self, line: &str) -> Result<Line, LineError> {
        let whole = |fault| LineError { fault, span: 0..line.len() };
        if line.len() > LONGEST {
            return Err(whole(LineFault::TooLong));
        }
        // A minus is no dash, which may stand for a list; nobody types one by accident.
        if let Some(span) = negative(line, &['\u{2212}']) {
            return Err(LineError { fault: LineFault::Negative, span });
        }
        let (line, link) = trim::link(line);
        let tokens = token::tokens(line);
        let mut cursor = self.cursor(line, &tokens);
        trim::bullet(&mut cursor);
        let remark = trim::leading_remark(&mut cursor)?;
        if cursor.done() {
            return Err(whole(LineFault::Empty));
        }
        let mut read = parts::part_of(&mut cursor)?.map_or_else(|| self.plain(&mut cursor), Ok)?;
        if let Some(remark) = remark {
            tidy::add_note(&mut read, &tidy::tidy(&line[remark]));
            name::flags(&mut read, &cursor);
        }
        read.link = link.map(str::to_string);
        if let Some(zero) = read.amounts.iter().find(|a| a.low <= Number::from_integer(0)) {
            return Err(LineError { fault: LineFault::Zero, span: zero.span.clone() });
        }
        if read.name.is_empty() {
            return Err(whole(LineFault::NoName));
        }
        Ok(read)
    }

    /// The words of a length of time.
    pub fn times(&self) -> &TimeWords {
        self.dictionary.times()
    }

    /// Whether an amount says that as much is taken as tastes good.
    pub fn is_to_taste(&self, text: &str) -> bool {
        let text = text.to_lowercase();
        self.phrases.to_taste().iter().any(|words| text.contains(words.as_str()))
    }

    /// Reads an amount alone: `60 g`, `1/2 cup`, `to taste`; `None` where the text is something else.
    ///
    /// # Errors
    /// [`LineError`] for numbers that cannot be read.
    pub fn read_amount(&self, text: &str) -> Result<Option<Amount>, LineError> {
        if let Some(span) = negative(text, &['\u{2212}', '-', '\u{2013}']) {
            return Err(LineError { fault: LineFault::Negative, span });
        }
        let tokens = token::tokens(text);
        let mut cursor = self.cursor(text, &tokens);
        let parsed = cursor.amount()?;
        Ok(parsed.filter(|_| cursor.done()).map(|parsed| parsed.amount))
    }

    fn cursor<'a>(&'a self, line: &'a str, tokens: &'a [token::Token]) -> Cursor<'a> {
        Cursor { line, tokens, at: 0, dictionary: &self.dictionary, phrases: &self.phrases, standard: self.standard }
    }

    /// A line that starts with its amounts, or ends with them: `Flour: 500 g`.
    fn plain(&self, cursor: &mut Cursor<'_>) -> Result<Line, LineError> {
        let mut line = Line::default();
        front::amounts(cursor, &mut line)?;
        if line.amounts.is_empty() {
            behind::with_amount_behind(cursor, &mut line)?;
        } else {
            name::name_and_rest(cursor, &mut line)?;
        }
        Ok(line)
    }
}

/// A sign in front of a number at the start of a text, with the number's first digit.
fn negative(text: &str, signs: &[char]) -> Option<Span> {
    let start = text.len() - text.trim_start().len();
    let rest = text[start..].strip_prefix(signs)?;
    let digit = rest.chars().next().filter(|c| c.is_numeric())?;
    Some(start..text.len() - rest.len() + digit.len_utf8())
}
