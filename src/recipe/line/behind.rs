use super::cursor::Cursor;
use super::name::{name_and_rest, split};
use super::tidy::{add_note, only_adjectives, tidy};
use super::token::TokenKind;
use super::{Line, LineError};
use crate::language::AmountWord;

/// What stands between a name and the amount behind it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Separator {
    /// Nothing but a space.
    None,
    /// A colon: a heading may stand before it.
    Colon,
    /// A dash, dots, a bar, a tab.
    Other,
}

/// A line without an amount in front: the amount may stand behind the name (`Flour: 500 g`), or behind a heading
/// (`For the glaze: 100 g icing sugar`).
pub(super) fn with_amount_behind(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let start = cursor.at;
    let mut depth = 0_usize;
    for at in start + 1..cursor.tokens.len() {
        match cursor.tokens[at - 1].kind {
            TokenKind::Open => depth += 1,
            TokenKind::Close => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth > 0 {
            continue;
        }
        let (mark, end) = mark_before(cursor, start, at);
        if mark != Separator::None && is_heading(cursor, end, at)? {
            return below_heading(cursor, end, at, line);
        }
        if read_behind(cursor, at, mark, end, line)? {
            return Ok(());
        }
    }
    name_and_rest(cursor, line)
}

/// The mark before a token, and the token where the name before it ends.
fn mark_before(cursor: &Cursor<'_>, start: usize, at: usize) -> (Separator, usize) {
    let mut end = at;
    let mut mark = Separator::None;
    while end > start + 1 {
        let token = &cursor.tokens[end - 1];
        // `T-55`
        if token.kind == TokenKind::Dash && token.glued && cursor.tokens[end].glued {
            break;
        }
        let times = matches!(cursor.text(token), "x" | "X" | "×");
        match token.kind {
            TokenKind::Sign(':') => mark = Separator::Colon,
            TokenKind::Sign(',' | '|' | '=' | '.' | ';' | '→' | '…') | TokenKind::Dash => mark = Separator::Other,
            _ if times => mark = Separator::Other,
            _ => break,
        }
        end -= 1;
    }
    let gap = &cursor.line[cursor.tokens[at - 1].span.end..cursor.tokens[at].span.start];
    if mark == Separator::None && (gap.contains('\t') || gap.chars().count() > 2) {
        mark = Separator::Other;
    }
    (mark, end)
}

/// Reads an amount that ends the name; false where there is none.
fn read_behind(
    cursor: &mut Cursor<'_>,
    at: usize,
    mark: Separator,
    end: usize,
    line: &mut Line,
) -> Result<bool, LineError> {
    let mut ahead = Cursor { at, ..*cursor };
    let marked = mark != Separator::None;
    if matches!(ahead.peek_kind(0), Some(TokenKind::Word | TokenKind::Open | TokenKind::Close)) && !marked {
        return Ok(false);
    }
    let Some(mut parsed) = ahead.amount()? else { return Ok(false) };
    let rest = &cursor.line[ahead.byte()..];
    if ahead.word().is_some() && !only_adjectives(rest, cursor) && !cursor.phrases.ends_name(rest) {
        // `gelatine: 8 g + 40 g water`: what is added is something else.
        ahead.at = at;
        parsed = match ahead.amount_alone()? {
            Some(parsed) => parsed,
            None => return Ok(false),
        };
    }
    let measured = parsed.amount.unit.is_some();
    let share = bakers_share(&ahead);
    let filled = ahead.word().is_some_and(|word| cursor.dictionary.word(word) == Some(AmountWord::Times));
    let ends =
        share || filled || ahead.peek().is_none_or(|t| !matches!(t.kind, TokenKind::Word | TokenKind::Number(_)));
    let plural = cursor.text(&cursor.tokens[at - 1]).ends_with(['s', 'S', 'x']) || !parsed.amount.low.is_integer();
    let counts = measured || marked || (plural && ahead.done());
    if !counts || !(ends || (measured && marked)) {
        return Ok(false);
    }
    line.amounts.push(parsed.amount);
    line.each |= parsed.each;
    super::front::contents(&mut ahead, line)?;
    super::front::further(&mut ahead, line)?;
    let name_end = cursor.tokens[end - 1].span.end;
    split(cursor.line, cursor.byte()..name_end.max(cursor.byte()), cursor, line)?;
    let rest = tidy(&cursor.line[ahead.byte()..]);
    let inside = rest.strip_prefix('(').and_then(|rest| rest.strip_suffix(')'));
    add_note(line, inside.unwrap_or(&rest));
    Ok(true)
}

/// Whether a share of the flour ends the line: `Water 680 g 68 %`.
fn bakers_share(cursor: &Cursor<'_>) -> bool {
    let number = matches!(cursor.peek_kind(0), Some(TokenKind::Number(_)));
    number && cursor.peek_kind(1) == Some(TokenKind::Sign('%')) && cursor.at + 2 == cursor.tokens.len()
}

/// Whether what stands before a mark is no name: `For the glaze:`, `Optional:`, and `Glaze –` where an amount of
/// something follows.
fn is_heading(cursor: &Cursor<'_>, end: usize, at: usize) -> Result<bool, LineError> {
    let before = &cursor.line[cursor.byte()..cursor.tokens[end - 1].span.end];
    let purpose = cursor.word().is_some_and(|word| cursor.phrases.is_purpose(word));
    let colon = cursor.peek_kind(end - cursor.at) == Some(TokenKind::Sign(':'));
    if colon && (purpose || cursor.phrases.ends_name(before)) {
        return Ok(true);
    }
    if !purpose && !cursor.phrases.is_heading(cursor.text(&cursor.tokens[end - 1]), end == cursor.at + 1) {
        return Ok(false);
    }
    let mut behind = Line::default();
    let mut ahead = Cursor { at, ..*cursor };
    super::front::amounts(&mut ahead, &mut behind)?;
    let rest = &cursor.line[ahead.byte()..];
    let unit = matches!(ahead.reading(), Some((AmountWord::Unit(..), _)));
    let names = !unit && ahead.word().is_some() && !cursor.phrases.ends_name(rest) && !only_states(rest, cursor);
    Ok(!behind.amounts.is_empty() && (names || purpose && !ahead.done()))
}

/// Whether what stands behind an amount only says how the thing before it is: `Cream: 200 ml lightly whipped`.
fn only_states(rest: &str, cursor: &Cursor<'_>) -> bool {
    let first = rest.split([',', ';', '(']).next().unwrap_or_default();
    let mut words = first.split_whitespace();
    words.all(|word| {
        cursor.phrases.is_state(word) || cursor.phrases.is_adjective(word) || cursor.phrases.is_manner(word)
    })
}

/// Reads the line behind a heading, which becomes a remark.
fn below_heading(cursor: &mut Cursor<'_>, end: usize, at: usize, line: &mut Line) -> Result<(), LineError> {
    let heading = tidy(&cursor.line[cursor.byte()..cursor.tokens[end - 1].span.end]);
    cursor.at = at;
    super::front::amounts(cursor, line)?;
    name_and_rest(cursor, line)?;
    add_note(line, &heading);
    super::name::flags(line, cursor);
    Ok(())
}
