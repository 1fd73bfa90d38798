use super::cursor::Cursor;
use super::name;
use super::tidy::{add_note, separator, tidy};
use super::token::TokenKind;
use super::{Amount, Line, LineError, LineFault};
use crate::language::AmountWord;
use crate::measure::{Dimension, Number, Unit};
use crate::source::Span;

/// The amounts at the start of a line, with their separators; the cursor ends at the name.
pub(super) fn amounts(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let start = *cursor;
    if cursor.skip(AmountWord::Plus) && cursor.done() {
        *cursor = start;
    }
    times_before(cursor);
    if let Some(length) = piece_of_a_length(cursor)? {
        line.amounts.push(length.1);
        add_note(line, &cursor.line[length.0]);
        cursor.skip(AmountWord::Of);
        return Ok(());
    }
    let Some(first) = cursor.amount()? else {
        name::vague_amount(cursor, line);
        return Ok(());
    };
    line.each |= first.each;
    line.prep = first.manner.map(|span| cursor.line[span].to_string());
    line.amounts.push(first.amount);
    contents(cursor, line)?;
    numbered_can(cursor, line);
    if line.amounts[0].unit.is_none() {
        cursor.skip(AmountWord::Times);
        length_of_piece(cursor, line)?;
    }
    manner_behind(cursor, line);
    further(cursor, line)?;
    manner_behind(cursor, line);
    container_behind(cursor, line);
    cursor.skip_kind(TokenKind::Sign(':'));
    cursor.skip(AmountWord::Of);
    let bare = line.amounts.len() == 1 && line.amounts[0].unit.is_none();
    if bare && let Some(TokenKind::Number(_)) = cursor.peek_kind(0) {
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
    let number = matches!(cursor.peek_kind(1), Some(TokenKind::Number(_) | TokenKind::Fraction(_)));
    if number {
        cursor.skip(AmountWord::Times);
    }
}

/// `1 No. 2 can`, `1 #10 can`: cans of a numbered size.
fn numbered_can(cursor: &mut Cursor<'_>, line: &mut Line) {
    let mut ahead = *cursor;
    let start = ahead.byte();
    let no = ahead.word().is_some_and(|word| cursor.phrases.is_numbered(word));
    ahead.at += usize::from(no || ahead.peek_kind(0) == Some(TokenKind::Sign('#')));
    let number = ahead.at > cursor.at && matches!(ahead.peek_kind(0), Some(TokenKind::Number(_)));
    ahead.at += usize::from(number);
    let size = start..ahead.byte_before();
    let Some((unit, _)) = ahead.unit().filter(|(unit, _)| number && unit.is_container()) else { return };
    line.amounts[0].unit = line.amounts[0].unit.or(Some(unit));
    add_note(line, &cursor.line[size]);
    *cursor = ahead;
}

/// `1-inch piece of ginger`: one piece, whose length is a remark.
fn piece_of_a_length(cursor: &mut Cursor<'_>) -> Result<Option<(Span, Amount)>, LineError> {
    let mut ahead = *cursor;
    let start = ahead.byte();
    if ahead.number()?.is_none() {
        return Ok(None);
    }
    ahead.skip_kind(TokenKind::Dash);
    let long = ahead.word().is_some_and(|word| cursor.phrases.is_length(word));
    ahead.at += usize::from(long);
    let length = start..ahead.byte_before();
    match ahead.unit() {
        Some((unit @ (Unit::Piece | Unit::Knob), _)) if long => {
            let one = Number::from_integer(1);
            let span = start..ahead.byte_before();
            let unit = Some(unit);
            *cursor = ahead;
            let amount = Amount { low: one, high: one, unit, size: None, about: false, fullness: None, span };
            Ok(Some((length, amount)))
        }
        _ => Ok(None),
    }
}

/// `1 2-inch piece of ginger`, `1 (5 cm) piece`: the length is a remark.
fn length_of_piece(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let mut ahead = *cursor;
    let bracket = ahead.skip_kind(TokenKind::Open);
    let start = ahead.byte();
    if ahead.number()?.is_none() {
        return Ok(());
    }
    ahead.skip_kind(TokenKind::Dash);
    if !ahead.word().is_some_and(|word| cursor.phrases.is_length(word)) {
        return Ok(());
    }
    ahead.at += 1;
    let length = start..ahead.byte_before();
    if bracket && !ahead.skip_kind(TokenKind::Close) {
        return Ok(());
    }
    if let Some((unit @ (Unit::Piece | Unit::Knob | Unit::Slice), _)) = ahead.unit() {
        line.amounts[0].unit = Some(unit);
        add_note(line, &cursor.line[length]);
        *cursor = ahead;
    }
    Ok(())
}

/// How the measure is filled, said behind it: `2 cups packed (440 g) brown sugar`, `1 cup firmly packed basil leaves`,
/// `1 cup, heaped, spinach`.
fn manner_behind(cursor: &mut Cursor<'_>, line: &mut Line) {
    let mut ahead = *cursor;
    let comma = ahead.skip_kind(TokenKind::Sign(','));
    let start = ahead.byte();
    let mut fills = false;
    let fullness = ahead.fullness();
    while let Some(word) = ahead.word().filter(|word| cursor.phrases.is_manner(word)) {
        fills = cursor.phrases.is_fill(word);
        ahead.at += 1;
    }
    let said = start..ahead.byte_before();
    let ends = match ahead.peek_kind(0) {
        Some(TokenKind::Sign(',')) => comma && ahead.skip_kind(TokenKind::Sign(',')) && !ahead.done(),
        Some(TokenKind::Open) => !comma,
        Some(TokenKind::Word) => !comma && fills,
        _ => false,
    };
    if said.is_empty() || !ends {
        return;
    }
    match fullness {
        Some(fullness) => line.amounts[0].fullness = Some(fullness),
        None => line.prep = Some(cursor.line[said].to_string()),
    }
    *cursor = ahead;
}

/// `397 g tin condensed milk`: what it is sold in is a remark where the amount is already told.
fn container_behind(cursor: &mut Cursor<'_>, line: &mut Line) {
    let told = line.amounts[0].unit.is_some_and(|u| u.dimension() != Dimension::Count && !u.is_household());
    let mut ahead = *cursor;
    let Some((unit, _)) = ahead.unit().filter(|_| told) else { return };
    let sold_in = unit.is_container() || matches!(unit, Unit::Sheet | Unit::Bunch | Unit::Head | Unit::Piece);
    if sold_in && ahead.peek_kind(0) == Some(TokenKind::Word) {
        add_note(line, &cursor.line[cursor.byte()..ahead.byte_before()]);
        *cursor = ahead;
    }
}

/// What one container holds: `1 (14 oz) can`, `1 14-oz can`, `2 x 400 g tins`.
pub(super) fn contents(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    if line.amounts[0].unit.is_some() {
        return Ok(());
    }
    let mut ahead = *cursor;
    let times = ahead.skip(AmountWord::Times);
    let bracket = ahead.skip_kind(TokenKind::Open);
    let mut inside = Vec::new();
    while let Some(parsed) = ahead.measured_amount()? {
        inside.push(parsed.amount);
        separator(&mut ahead);
    }
    if inside.is_empty() || (bracket && !ahead.skip_kind(TokenKind::Close)) {
        return Ok(());
    }
    let container = ahead.unit().map(|(unit, _)| unit).filter(|unit| unit.dimension() == Dimension::Count);
    // `one 3-pound chicken`
    let hyphened = cursor.line[inside[0].span.clone()].contains('-');
    if container.is_none() && !times && !bracket && !hyphened {
        return Ok(());
    }
    line.amounts[0].unit = container;
    line.each = line.amounts[0].low != Number::from_integer(1) || line.each;
    line.amounts.extend(inside);
    *cursor = ahead;
    Ok(())
}

/// Further amounts of a stated pair: in brackets, or after `/`, `|`, `=`, `or`, or a dash before another dimension.
pub(super) fn further(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    loop {
        let mut ahead = *cursor;
        let bracket = ahead.skip_kind(TokenKind::Open);
        let separated = separator(&mut ahead);
        let dashed = !bracket && !separated && ahead.skip_kind(TokenKind::Dash);
        if !bracket && !separated && !dashed {
            return Ok(());
        }
        let bare = bracket && line.amounts[0].is_measured();
        let Some(parsed) = ahead.paired_amount(bare)? else { return Ok(()) };
        if !bracket && parsed.amount.unit.is_none() {
            // `2 large or 3 small eggs`
            add_note(line, &tidy(&cursor.line[cursor.byte()..ahead.byte_before()]));
            *cursor = ahead;
            continue;
        }
        let same = parsed.amount.unit.map(Unit::dimension) == line.amounts[0].unit.map(Unit::dimension);
        if dashed && (same || !line.amounts[0].is_measured()) {
            return Ok(());
        }
        let mut found = vec![parsed.amount];
        let mut each = parsed.each;
        while bracket && (separator(&mut ahead) || ahead.peek_kind(0) == Some(TokenKind::Open)) {
            ahead.skip_kind(TokenKind::Open);
            let Some(next) = ahead.paired_amount(false)? else { return Ok(()) };
            each |= next.each;
            found.push(next.amount);
        }
        each |= ahead.skip(AmountWord::Each);
        ahead.about();
        if bracket {
            if !ahead.skip_kind(TokenKind::Close) {
                return Ok(());
            }
            while ahead.skip_kind(TokenKind::Close) {}
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
    let at_end = cursor.peek().is_none_or(|token| matches!(token.kind, TokenKind::Sign(',') | TokenKind::Open));
    let vanilla = unit == Unit::Clove && cursor.word().is_some_and(|word| cursor.phrases.has_pods(word));
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
