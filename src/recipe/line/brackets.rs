use super::cursor::Cursor;
use super::tidy::{add_note, only_adjectives, separator, tidy};
use super::token::TokenKind;
use super::{Amount, Line, LineError};
use crate::language::AmountWord;
use crate::measure::Dimension;
use crate::source::Span;

/// Amounts that stand in a remark, and what else stands there.
struct BracketAmounts {
    amounts: Vec<Amount>,
    each: bool,
    rest: String,
}

/// Reads a bracket, or what stands after a comma, as the second measure with a remark; false where it is none.
///
/// `offset` is where the text stands in the line; an amount whose place is not known stands at its start.
pub(super) fn second_measure(
    text: &str,
    offset: Option<usize>,
    cursor: &Cursor<'_>,
    line: &mut Line,
) -> Result<bool, LineError> {
    if line.amounts.len() > 1 {
        return Ok(false);
    }
    let Some(found) = whole(text, cursor, line)?.map_or_else(|| in_pieces(text, cursor, line), |f| Ok(Some(f)))? else {
        return Ok(false);
    };
    line.each |= found.each;
    line.amounts.extend(found.amounts.into_iter().map(|mut amount| {
        amount.span = offset.map_or(0..0, |offset| amount.span.start + offset..amount.span.end + offset);
        amount
    }));
    add_note(line, &found.rest);
    Ok(true)
}

/// A text that is amounts from end to end, but for words of the name: `about 3 large eggs` of `eggs`.
fn whole(text: &str, cursor: &Cursor<'_>, line: &Line) -> Result<Option<BracketAmounts>, LineError> {
    let tokens = super::token::tokens(text);
    let mut inner = Cursor { line: text, tokens: &tokens, at: 0, ..*cursor };
    let weighed = |amount: &Amount| amount.unit.is_some_and(|unit| unit.dimension() == Dimension::Weight);
    let mut amounts: Vec<Amount> = Vec::new();
    let mut each = false;
    let instead = inner.word().is_some_and(|word| cursor.phrases.is_instead(word));
    let about = separator(&mut inner);
    let bare = about || line.amounts.first().is_none_or(weighed);
    while let Some(parsed) = inner.paired_amount(bare && amounts.is_empty())? {
        each |= parsed.each;
        amounts.push(parsed.amount);
        separator(&mut inner);
        // `about 500 g (1 lb)`
        while inner.skip_kind(TokenKind::Open) || inner.skip_kind(TokenKind::Close) {}
    }
    each |= inner.skip(AmountWord::Each);
    inner.about();
    if amounts.is_empty() {
        return Ok(None);
    }
    let rest = &text[inner.byte()..];
    let counted = !amounts[0].is_measured() || amounts[0].unit.is_none();
    let names = counted && rest.split_whitespace().all(|word| is_named(word, &line.name));
    if inner.done() || names {
        return Ok(Some(BracketAmounts { amounts, each, rest: String::new() }));
    }
    // `4 oz goat cheese (1 cup crumbled)`
    let state = line.amounts.first().is_some_and(weighed) && only_adjectives(rest, cursor);
    let describes = !instead && !line.amounts.is_empty() && (weighed(&amounts[0]) && is_description(&inner) || state);
    let remark = matches!(inner.peek_kind(0), Some(TokenKind::Sign(',' | ';')));
    Ok((describes && !remark).then(|| BracketAmounts { amounts, each, rest: tidy(rest) }))
}

/// A text with an amount among its pieces: `spooned and levelled, 250 g`.
///
/// A bracket inside it is a piece too: `packed (250 g)`.
fn in_pieces(text: &str, cursor: &Cursor<'_>, line: &Line) -> Result<Option<BracketAmounts>, LineError> {
    let text = &text.replace(['(', '['], ",").replace([')', ']'], " ");
    let parts: Vec<&str> = pieces(text).map(|(_, piece)| piece.trim()).collect();
    if parts.len() < 2 || parts.iter().any(|part| part.split(' ').next().is_some_and(|w| cursor.phrases.is_purpose(w)))
    {
        return Ok(None);
    }
    for (at, part) in parts.iter().enumerate() {
        let Some(found) = whole(part, cursor, line)? else { continue };
        if found.rest.is_empty() && found.amounts[0].unit.is_some() {
            let others = parts.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, part)| tidy(part));
            let rest = others.filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ");
            let start = part.as_ptr().addr() - text.as_ptr().addr();
            let mut amounts = found.amounts;
            for amount in &mut amounts {
                amount.span = amount.span.start + start..amount.span.end + start;
            }
            return Ok(Some(BracketAmounts { amounts, rest, ..found }));
        }
    }
    Ok(None)
}

/// Whether the words after an amount say how it was weighed (`250 g peeled`) rather than what for (`250 g for the tin`).
fn is_description(cursor: &Cursor<'_>) -> bool {
    let Some(word) = cursor.word() else { return false };
    let phrases = cursor.phrases;
    let other = phrases.is_purpose(word) || phrases.is_more(word) || phrases.is_from(word) || phrases.is_instead(word);
    !other && !matches!(cursor.reading(), Some((AmountWord::Of | AmountWord::To | AmountWord::Or, _)))
}

fn is_named(word: &str, name: &str) -> bool {
    let stem = |word: &str| word.trim_end_matches(['s', 'x']).to_lowercase();
    name.split_whitespace().any(|named| stem(named) == stem(word))
}

/// The pieces of a text between commas and semicolons, with their places; a decimal comma parts nothing, nor does one
/// in a bracket.
pub(super) fn pieces(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let bytes = text.as_bytes();
    let digit = |at: Option<usize>| at.and_then(|at| bytes.get(at)).is_some_and(u8::is_ascii_digit);
    let mut depth = 0_usize;
    let mut start = 0;
    let mut found = Vec::new();
    for (at, c) in text.char_indices() {
        match c {
            '(' | '[' => depth += 1,
            ')' | ']' => depth = depth.saturating_sub(1),
            ',' | ';' if depth == 0 && !(digit(at.checked_sub(1)) && digit(Some(at + 1))) => {
                found.push((start, &text[start..at]));
                start = at + 1;
            }
            _ => {}
        }
    }
    found.push((start, &text[start..]));
    found.into_iter()
}

/// The text outside brackets, and the spans of what stands inside the outermost ones.
pub(super) fn without_brackets(text: &str, span: Span) -> (String, Vec<Span>) {
    let mut plain = String::with_capacity(span.len());
    let mut brackets = Vec::new();
    let (mut depth, mut opened) = (0_usize, span.start);
    for (at, c) in text[span.clone()].char_indices() {
        let at = span.start + at;
        match c {
            '(' | '[' | '（' => {
                if depth == 0 {
                    opened = at + c.len_utf8();
                }
                depth += 1;
            }
            ')' | ']' | '）' => {
                depth = depth.saturating_sub(1);
                if depth == 0 && opened <= at {
                    brackets.push(opened..at);
                    plain.push(' ');
                    opened = at + c.len_utf8();
                }
            }
            _ if depth == 0 => plain.push(c),
            _ => {}
        }
    }
    if depth > 0 {
        brackets.push(opened..span.end);
    }
    (plain, brackets)
}
