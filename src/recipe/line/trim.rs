use super::cursor::Cursor;
use super::token::Kind;

const BULLETS: [char; 14] = ['•', '*', '·', '‣', '▢', '☐', '□', '◦', '●', '○', '▪', '■', '–', '✓'];

/// The line without an address at its end, and the address.
pub(super) fn link(line: &str) -> (&str, Option<&str>) {
    let trimmed = line.trim_end();
    let start = trimmed.rfind(char::is_whitespace).map_or(0, |space| space + 1);
    let start = if trimmed.is_char_boundary(start) { start } else { trimmed.len() };
    let last = trimmed[start..].trim_start_matches(['(', '<', '[']).trim_end_matches([')', '>', ']', '.', ',']);
    if start > 0 && (last.starts_with("https://") || last.starts_with("http://")) {
        let before = trimmed[..start].trim_end().trim_end_matches(['(', '<', '[', '-', '–', ':', '|']).trim_end();
        return (before, Some(last));
    }
    (trimmed, None)
}

/// Skips bullets, tick boxes and numbering: `- `, `[ ]`, `☐`, `1. `, `2) `, `(3) `.
pub(super) fn bullet(cursor: &mut Cursor<'_>) {
    loop {
        let before = cursor.at;
        tick_box(cursor);
        numbering(cursor);
        let dash = cursor.peek_kind(0) == Some(Kind::Dash);
        let sign = matches!(cursor.peek_kind(0), Some(Kind::Sign(c)) if BULLETS.contains(&c));
        cursor.at += usize::from(dash || sign);
        if cursor.at == before {
            return;
        }
    }
}

fn tick_box(cursor: &mut Cursor<'_>) {
    let open = matches!(cursor.peek(), Some(token) if &cursor.line[token.span.clone()] == "[");
    if !open {
        return;
    }
    let ticked = matches!(cursor.tokens.get(cursor.at + 1), Some(token) if matches!(cursor.text(token), "x" | "X"));
    let close = cursor.at + 1 + usize::from(ticked);
    if matches!(cursor.tokens.get(close), Some(token) if token.kind == Kind::Close) {
        cursor.at = close + 1;
    }
}

/// `1. ` and `2) `: a whole number, a sign glued to it, and a space before what follows.
fn numbering(cursor: &mut Cursor<'_>) {
    let bracket = usize::from(cursor.peek_kind(0) == Some(Kind::Open));
    let number = cursor.peek_kind(bracket);
    let sign = cursor.peek_kind(bracket + 1);
    let (Some(Kind::Number(number)), Some(Kind::Close | Kind::Sign('.'))) = (number, sign) else { return };
    let next = bracket + 2;
    let spaced = cursor.tokens.get(cursor.at + next).is_some_and(|token| !token.glued);
    let tight = cursor.tokens.get(cursor.at + bracket + 1).is_some_and(|token| token.glued);
    // `(2) eggs` numbers a line only when an amount follows; `(14 oz)` never comes here, its sign is no bracket.
    if number.is_integer() && spaced && tight {
        cursor.at += next;
    }
}
