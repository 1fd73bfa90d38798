use super::LineError;
use super::cursor::Cursor;
use super::token::TokenKind;
use crate::source::Span;

const BULLETS: [char; 24] = [
    '•', '*', '·', '‣', '▢', '□', '◦', '●', '○', '▪', '■', '–', '→', '►', '▶', '▸', '>', '»', '›', '⁃', '#', '†', '∙',
    '"',
];

/// The line without an address at its end, and the address: bare, in brackets, or that of `[plain flour](https://…)`.
pub(super) fn link(line: &str) -> (&str, Option<&str>) {
    let trimmed = line.trim_end();
    let start = trimmed.rfind(char::is_whitespace).map_or(0, |space| space + 1);
    let start = if trimmed.is_char_boundary(start) { start } else { trimmed.len() };
    let start = trimmed.rfind("](").map_or(start, |at| at + 1);
    let last = trimmed[start..].trim_start_matches(['(', '<', '[']).trim_end_matches([')', '>', ']', '.', ',']);
    let is_link = ["https://", "http://", "www."].iter().any(|scheme| last.starts_with(scheme));
    if start > 0 && is_link {
        let before = trimmed[..start].trim_end().trim_end_matches(['(', '<', '[', ']', '-', '–', ':', '|']).trim_end();
        // A link is followed, so it must be a whole address.
        return (before, Some(last).filter(|last| !last.starts_with("www.")));
    }
    (trimmed, None)
}

/// `(optional) 100 g walnuts`: a remark before the amount; its bytes.
pub(super) fn leading_remark(cursor: &mut Cursor<'_>) -> Result<Option<Span>, LineError> {
    if cursor.peek_kind(0) != Some(TokenKind::Open) {
        return Ok(None);
    }
    let close = cursor.tokens[cursor.at..].iter().position(|token| token.kind == TokenKind::Close);
    let Some(close) = close.map(|close| cursor.at + close) else { return Ok(None) };
    let mut ahead = Cursor { at: close + 1, ..*cursor };
    if ahead.amount()?.is_none() {
        return Ok(None);
    }
    let inside = cursor.tokens[cursor.at].span.end..cursor.tokens[close].span.start;
    cursor.at = close + 1;
    Ok(Some(inside))
}

/// Skips bullets, tick boxes and numbering: `- `, `[ ]`, `☐`, `1. `, `2) `, `(3) `.
pub(super) fn bullet(cursor: &mut Cursor<'_>) {
    loop {
        let before = cursor.at;
        tick_box(cursor);
        numbering(cursor);
        letter(cursor);
        let dash = cursor.peek_kind(0) == Some(TokenKind::Dash);
        let sign = matches!(cursor.peek_kind(0), Some(TokenKind::Sign(c)) if BULLETS.contains(&c));
        cursor.at += usize::from(dash || sign);
        if cursor.at == before {
            return;
        }
    }
}

/// `a) ` numbers a line, and a lone `o` before a number is a bullet typed by hand.
fn letter(cursor: &mut Cursor<'_>) {
    let Some(word) = cursor.word().filter(|word| word.len() == 1) else { return };
    let bracket = cursor.tokens.get(cursor.at + 1).is_some_and(|next| next.kind == TokenKind::Close && next.glued);
    let bullet = word == "o" && matches!(cursor.peek_kind(1), Some(TokenKind::Number(_) | TokenKind::Fraction(_)));
    cursor.at += if bracket { 2 } else { usize::from(bullet) };
}

fn tick_box(cursor: &mut Cursor<'_>) {
    let open = matches!(cursor.peek(), Some(token) if &cursor.line[token.span.clone()] == "[");
    if !open {
        return;
    }
    let ticked = matches!(cursor.tokens.get(cursor.at + 1), Some(token) if matches!(cursor.text(token), "x" | "X"));
    let close = cursor.at + 1 + usize::from(ticked);
    if matches!(cursor.tokens.get(close), Some(token) if token.kind == TokenKind::Close) {
        cursor.at = close + 1;
    }
}

/// `1. ` and `2) `: a whole number, a sign glued to it, and a space before what follows.
fn numbering(cursor: &mut Cursor<'_>) {
    let bracket = usize::from(cursor.peek_kind(0) == Some(TokenKind::Open));
    let number = cursor.peek_kind(bracket);
    let sign = cursor.peek_kind(bracket + 1);
    let (Some(TokenKind::Number(number)), Some(TokenKind::Close | TokenKind::Sign('.'))) = (number, sign) else {
        return;
    };
    let next = bracket + 2;
    let spaced = cursor.tokens.get(cursor.at + next).is_some_and(|token| !token.glued);
    let tight = cursor.tokens.get(cursor.at + bracket + 1).is_some_and(|token| token.glued);
    // `(2) eggs` numbers a line only when an amount follows; `(14 oz)` never comes here, its sign is no bracket.
    if number.is_integer() && spaced && tight {
        cursor.at += next;
    }
}
