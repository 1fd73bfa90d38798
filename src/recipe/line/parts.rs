use super::cursor::Cursor;
use super::name::name_and_rest;
use super::tidy::add_note;
use super::token::TokenKind;
use super::{Line, LineError};
use crate::language::AmountWord;

/// `juice of 1 lemon`, `grated zest of 2 oranges`, `whites of 4 eggs`, `le jus d'un citron`; `None` for other lines.
pub(super) fn part_of(cursor: &mut Cursor<'_>) -> Result<Option<Line>, LineError> {
    let mut ahead = *cursor;
    let Some(part) = parts(&mut ahead) else { return Ok(None) };
    let from = ahead.word().is_some_and(|word| cursor.phrases.is_from(word));
    ahead.at += usize::from(from);
    // `juice 1 lemon` leaves the `of` out.
    let number = matches!(ahead.peek_kind(0), Some(TokenKind::Number(_) | TokenKind::Fraction(_)));
    if !from && !ahead.skip(AmountWord::Of) && !number {
        return Ok(None);
    }
    let Some(parsed) = ahead.amount()? else { return Ok(None) };
    let mut line = Line { amounts: vec![parsed.amount], ..Line::default() };
    ahead.skip(AmountWord::Of);
    name_and_rest(&mut ahead, &mut line)?;
    // `yolks 80 g` has its amount behind it.
    if line.name.is_empty() {
        return Ok(None);
    }
    *cursor = ahead;
    match cursor.phrases.seeds_only(&part, &line.name) {
        Some(remark) => add_note(&mut line, remark),
        None => line.name = cursor.phrases.part_name(&cursor.dictionary.plurals().one(&line.name), &part),
    }
    Ok(Some(line))
}

/// The parts at the cursor with the words that join them, without articles: `zest and juice`.
fn parts(cursor: &mut Cursor<'_>) -> Option<String> {
    let qualities = |cursor: &mut Cursor<'_>| {
        while cursor.word().is_some_and(|word| cursor.phrases.is_quality(word)) {
            cursor.at += 1;
        }
    };
    qualities(cursor);
    let mut said: Vec<&str> = Vec::new();
    loop {
        let part = cursor.word().filter(|word| cursor.phrases.is_part(word))?;
        said.push(part);
        cursor.at += 1;
        qualities(cursor);
        let and = cursor.peek().map(|token| cursor.text(token));
        if !cursor.skip(AmountWord::Plus) {
            return Some(said.join(" ").to_lowercase());
        }
        said.extend(and);
        qualities(cursor);
    }
}
