//! The grammar of an ingredient line: `amount [(amount)] name[, preparation] [(remark)]`, and the mess of real life.

mod amount;
mod behind;
mod brackets;
mod cursor;
mod name;
mod parts;
mod phrases;
mod token;
mod trim;

use std::sync::Arc;

use crate::measure::{Dictionary, Dimension, Number, Reading, Standard, Unit};
use crate::source::Span;

use cursor::Cursor;
use phrases::Phrases;
use token::Kind;

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

/// Why a line cannot be read, and which part of it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{fault}")]
pub struct LineError {
    /// What is wrong.
    pub fault: LineFault,
    /// Bytes of the line.
    pub span: Span,
}

/// What can be wrong with a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LineFault {
    /// Nothing is written.
    #[error("the line is empty")]
    Empty,
    /// An amount without an ingredient.
    #[error("no ingredient is named")]
    NoName,
    /// `1/0`.
    #[error("nothing can be divided by zero")]
    ZeroDenominator,
    /// A number no kitchen needs.
    #[error("the number is too large")]
    TooLarge,
    /// An amount of nothing.
    #[error("the amount is zero")]
    Zero,
    /// `1 2 cups`.
    #[error("two numbers stand beside each other")]
    TwoNumbers,
    /// More than a line holds.
    #[error("the line is too long")]
    TooLong,
}

impl LineFault {
    /// How to mend it.
    pub fn help(self) -> &'static str {
        match self {
            LineFault::Empty => "write an amount and a name, or remove the line",
            LineFault::NoName => "write what it is an amount of: `200 g plain flour`",
            LineFault::ZeroDenominator => "write the fraction with a number from 2 up under the bar",
            LineFault::TooLarge => "check the digits; a thousand is `1,000` or `1000`",
            LineFault::Zero => "write how much, or remove the line",
            LineFault::TwoNumbers => "join them (`1 1/2`), make a range (`1–2`), or put the second measure in brackets",
            LineFault::TooLong => "move the story into a step",
        }
    }
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
        let phrases = Arc::new(Phrases::of(dictionary.language()));
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
            name::add_note(&mut read, &name::tidy(&line[remark]));
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

    /// Reads an amount alone: `60 g`, `1/2 cup`, `to taste`; `None` where the text is something else.
    ///
    /// # Errors
    /// [`LineError`] for numbers that cannot be read.
    pub fn read_amount(&self, text: &str) -> Result<Option<Amount>, LineError> {
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
        amounts(cursor, &mut line)?;
        if line.amounts.is_empty() {
            behind::with_amount_behind(cursor, &mut line)?;
        } else {
            name::name_and_rest(cursor, &mut line)?;
        }
        Ok(line)
    }
}

/// The amounts at the start of a line, with their separators; the cursor ends at the name.
fn amounts(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let start = *cursor;
    if cursor.skip(Reading::Plus) && cursor.done() {
        *cursor = start;
    }
    times_before(cursor);
    let Some(first) = cursor.amount()? else {
        name::vague_amount(cursor, line);
        return Ok(());
    };
    line.each |= first.each;
    line.prep = first.manner.map(|span| cursor.line[span].to_string());
    line.amounts.push(first.amount);
    contents(cursor, line)?;
    if line.amounts[0].unit.is_none() {
        cursor.skip(Reading::Times);
        length_of_piece(cursor, line)?;
    }
    manner_behind(cursor, line);
    further(cursor, line)?;
    container_behind(cursor, line);
    cursor.skip_kind(Kind::Sign(':'));
    cursor.skip(Reading::Of);
    let bare = line.amounts.len() == 1 && line.amounts[0].unit.is_none();
    if bare && let Some(Kind::Number(_)) = cursor.peek_kind(0) {
        let mut ahead = *cursor;
        // A number that an amount could not be read from belongs to the name: `1 9-inch case`.
        if ahead.amount()?.is_some_and(|second| second.amount.unit.is_none()) {
            let span = start.byte()..ahead.byte_before();
            return Err(LineError { fault: LineFault::TwoNumbers, span });
        }
    }
    unit_as_name(cursor, line);
    Ok(())
}

/// `x2 eggs`
fn times_before(cursor: &mut Cursor<'_>) {
    let number = matches!(cursor.peek_kind(1), Some(Kind::Number(_) | Kind::Fraction(_)));
    if number {
        cursor.skip(Reading::Times);
    }
}

/// `1 2-inch piece of ginger`, `1 (5 cm) piece`: the length is a remark.
fn length_of_piece(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let mut ahead = *cursor;
    let bracket = ahead.skip_kind(Kind::Open);
    let start = ahead.byte();
    if ahead.number()?.is_none() {
        return Ok(());
    }
    ahead.skip_kind(Kind::Dash);
    if !ahead.word().is_some_and(|word| cursor.phrases.is_length(word)) {
        return Ok(());
    }
    ahead.at += 1;
    let length = start..ahead.byte_before();
    if bracket && !ahead.skip_kind(Kind::Close) {
        return Ok(());
    }
    if let Some((unit @ (Unit::Piece | Unit::Knob | Unit::Slice), _)) = ahead.unit() {
        line.amounts[0].unit = Some(unit);
        name::add_note(line, &cursor.line[length]);
        *cursor = ahead;
    }
    Ok(())
}

/// `2 cups packed (440 g) brown sugar`
fn manner_behind(cursor: &mut Cursor<'_>, line: &mut Line) {
    let mut ahead = *cursor;
    while ahead.word().is_some_and(|word| cursor.phrases.is_manner(word)) {
        ahead.at += 1;
    }
    if ahead.at > cursor.at && ahead.peek_kind(0) == Some(Kind::Open) {
        line.prep = Some(cursor.line[cursor.byte()..ahead.byte_before()].to_string());
        *cursor = ahead;
    }
}

/// `397 g tin condensed milk`: what it is sold in is a remark where the amount is already told.
fn container_behind(cursor: &mut Cursor<'_>, line: &mut Line) {
    let told = line.amounts[0].unit.is_some_and(|u| u.dimension() != Dimension::Count && !u.is_household());
    let mut ahead = *cursor;
    let Some((unit, _)) = ahead.unit().filter(|_| told) else { return };
    let sold_in = unit.is_container() || matches!(unit, Unit::Sheet | Unit::Bunch | Unit::Head | Unit::Piece);
    if sold_in && ahead.peek_kind(0) == Some(Kind::Word) {
        name::add_note(line, &cursor.line[cursor.byte()..ahead.byte_before()]);
        *cursor = ahead;
    }
}

/// What one container holds: `1 (14 oz) can`, `1 14-oz can`, `2 x 400 g tins`.
fn contents(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    if line.amounts[0].unit.is_some() {
        return Ok(());
    }
    let mut ahead = *cursor;
    let times = ahead.skip(Reading::Times);
    let bracket = ahead.skip_kind(Kind::Open);
    let mut inside = Vec::new();
    while let Some(parsed) = ahead.measured_amount()? {
        inside.push(parsed.amount);
        separator(&mut ahead);
    }
    if inside.is_empty() || (bracket && !ahead.skip_kind(Kind::Close)) {
        return Ok(());
    }
    let container = ahead.unit().map(|(unit, _)| unit).filter(|unit| unit.dimension() == Dimension::Count);
    if container.is_none() && !times && !bracket {
        return Ok(());
    }
    line.amounts[0].unit = container;
    line.each = line.amounts[0].low != Number::from_integer(1) || line.each;
    line.amounts.extend(inside);
    *cursor = ahead;
    Ok(())
}

/// Whether a sign or word stood between two amounts.
fn separator(cursor: &mut Cursor<'_>) -> bool {
    let signs = [Kind::Slash, Kind::Sign('|'), Kind::Sign('='), Kind::Sign(','), Kind::Sign(';'), Kind::Sign('≈')];
    let found = signs.into_iter().any(|sign| cursor.skip_kind(sign)) || cursor.skip(Reading::Or);
    found | cursor.about()
}

/// Further amounts of a stated pair: in brackets, or after `/`, `|`, `=`, `or`, or a dash before another dimension.
fn further(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    loop {
        let mut ahead = *cursor;
        let bracket = ahead.skip_kind(Kind::Open);
        let separated = separator(&mut ahead);
        let dashed = !bracket && !separated && ahead.skip_kind(Kind::Dash);
        if !bracket && !separated && !dashed {
            return Ok(());
        }
        let bare = bracket && line.amounts[0].is_measured();
        let Some(parsed) = ahead.paired_amount(bare)? else { return Ok(()) };
        if !bracket && parsed.amount.unit.is_none() {
            // `2 large or 3 small eggs`
            name::add_note(line, &name::tidy(&cursor.line[cursor.byte()..ahead.byte_before()]));
            *cursor = ahead;
            continue;
        }
        let same = parsed.amount.unit.map(Unit::dimension) == line.amounts[0].unit.map(Unit::dimension);
        if dashed && (same || !line.amounts[0].is_measured()) {
            return Ok(());
        }
        let mut found = vec![parsed.amount];
        let mut each = parsed.each;
        while bracket && (separator(&mut ahead) || ahead.peek_kind(0) == Some(Kind::Open)) {
            ahead.skip_kind(Kind::Open);
            let Some(next) = ahead.paired_amount(false)? else { return Ok(()) };
            each |= next.each;
            found.push(next.amount);
        }
        each |= ahead.skip(Reading::Each);
        ahead.about();
        if bracket {
            if !ahead.skip_kind(Kind::Close) {
                return Ok(());
            }
            while ahead.skip_kind(Kind::Close) {}
        }
        line.each |= each;
        line.amounts.extend(found);
        *cursor = ahead;
        if line.amounts[0].unit.is_none()
            && let Some((unit, _)) = cursor.unit()
        {
            line.amounts[0].unit = Some(unit);
        }
    }
}

/// `6 cloves` is six of the spice: a unit with no name behind it is the name. So is that of `1 gousse de vanille`.
fn unit_as_name(cursor: &mut Cursor<'_>, line: &mut Line) {
    let Some(unit) = line.amounts[0].unit else { return };
    let countable = unit.dimension() == Dimension::Count && line.amounts.len() == 1;
    let at_end = cursor.peek().is_none_or(|token| matches!(token.kind, Kind::Sign(',') | Kind::Open));
    let vanilla = unit == Unit::Clove && cursor.word().is_some_and(|word| word.starts_with("vanill"));
    let end = line.amounts[0].span.end;
    if !countable || !(at_end || vanilla) {
        return;
    }
    // The last token of the amount is the unit; something must be left to count it.
    if let Some(at) = cursor.tokens.iter().position(|token| token.span.end == end).filter(|at| *at > 0) {
        let before = cursor.tokens[at - 1].span.end;
        if before > line.amounts[0].span.start {
            cursor.at = at;
            line.amounts[0].unit = None;
            line.amounts[0].span.end = before;
        }
    }
}
