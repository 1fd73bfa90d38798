use super::brackets::{pieces, second_measure, without_brackets};
use super::cursor::Cursor;
use super::tidy::{add_note, only_adjectives, tidy};
use super::token::is_space;
use super::{Line, LineError};
use crate::language::{AmountWord, owned};
use crate::measure::Unit;
use crate::source::Span;
use crate::text::{TemperatureMention, temperatures};

/// `a few mint leaves`, `some butter`, `QS water`: said, but no amount; it is kept as a remark.
pub(super) fn vague_amount(cursor: &mut Cursor<'_>, line: &mut Line) {
    let mut ahead = *cursor;
    let start = ahead.byte();
    if let Some((AmountWord::Number(_), count)) = ahead.reading() {
        ahead.at += count;
    }
    if ahead.word().is_some_and(|word| cursor.phrases.is_unmeasured(word)) {
        ahead.at += 1;
    } else if !ahead.skip(AmountWord::Vague) {
        return;
    }
    if let Some((AmountWord::Unit(unit, _), count)) = ahead.reading()
        && unit != Unit::Leaf
        && unit != Unit::Sheet
    {
        ahead.at += count;
    }
    line.note = Some(tidy(&ahead.line[start..ahead.byte_before()]));
    ahead.skip(AmountWord::Of);
    if !ahead.done() {
        *cursor = ahead;
    }
}

/// The name from the cursor on, then preparation and remarks.
pub(super) fn name_and_rest(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let span = cursor.byte()..cursor.line.len();
    split(cursor.line, span, cursor, line)
}

/// Sorts a stretch of a line into name, preparation and remarks.
pub(super) fn split(text: &str, span: Span, cursor: &Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let (plain, brackets) = without_brackets(text, span);
    let (front, prep) = comma(&plain, cursor);
    let (front, heat) = at_temperature(front, cursor);
    let (name, remark) = name_and_remark(front, cursor);
    line.name = tidy(name);
    if line.name.is_empty() {
        line.name = tidy(front);
    }
    for bracket in &brackets {
        let inside = &text[bracket.clone()];
        if line.name.is_empty() {
            line.name = tidy(inside);
        } else if !second_measure(inside, Some(bracket.start), cursor, line)? {
            add_note(line, &tidy(inside));
        }
    }
    if let Some(remark) = remark.filter(|_| line.name != tidy(front))
        && !other_measure(remark, cursor, line)?
    {
        add_note(line, &tidy(remark));
    }
    unit_in_name(line, cursor);
    line.prep = heat.map(tidy).or(line.prep.take());
    if let Some(prep) = prep {
        prepare(prep, cursor, line)?;
    }
    flags(line, cursor);
    Ok(())
}

/// Parts a name from the temperature at its end: `water at 22 °C`.
fn at_temperature<'t>(front: &'t str, cursor: &Cursor<'_>) -> (&'t str, Option<&'t str>) {
    let ends = |mention: &TemperatureMention| front[mention.span.end..].trim().is_empty();
    let Some(heat) = temperatures(front).into_iter().rfind(ends) else { return (front, None) };
    let starts: Vec<usize> = word_starts(&front[..heat.span.start]).collect();
    let word = starts.last().copied().filter(|at| cursor.phrases.is_at(front[*at..heat.span.start].trim()));
    let at = word.unwrap_or(heat.span.start);
    // What is nothing but a temperature has no other name.
    if at == 0 { (front, None) } else { (&front[..at], Some(&front[at..])) }
}

/// Parts a name from the first phrase that is none of it, or from a second ingredient with its own amount.
fn name_and_remark<'t>(front: &'t str, cursor: &Cursor<'_>) -> (&'t str, Option<&'t str>) {
    let remark = word_starts(front).find(|at| {
        let rest = &front[*at..];
        let word = rest.split(is_space).next().unwrap_or_default();
        let purpose = *at > 0 && cursor.phrases.is_purpose(word);
        purpose || cursor.phrases.ends_name(rest) || (*at > 0 && starts_other_amount(word, rest, cursor))
    });
    match remark {
        Some(at) => (&front[..at], Some(&front[at..])),
        None => (front, None),
    }
}

/// `or 4 g instant`, `plus 1 yolk`, `= 250 g`.
fn starts_other_amount(word: &str, rest: &str, cursor: &Cursor<'_>) -> bool {
    let pairs = matches!(word, "=" | "|" | "≈");
    let joins = cursor.phrases.is_more(word);
    if !(pairs || joins || cursor.phrases.is_instead(word)) {
        return false;
    }
    let rest = &rest[word.len()..];
    let tokens = super::token::tokens(rest);
    let mut inner = Cursor { line: rest, tokens: &tokens, at: 0, ..*cursor };
    // `and juice of ½ lemon`
    let part = joins && inner.word().is_some_and(|word| cursor.phrases.is_part(word));
    if part && (Cursor { at: 1, ..inner }).skip(AmountWord::Of) {
        return true;
    }
    let Ok(Some(parsed)) = inner.amount() else { return false };
    parsed.amount.is_measured() || (!pairs && !inner.done())
}

/// A remark that is the second measure: `or 250 g`.
fn other_measure(remark: &str, cursor: &Cursor<'_>, line: &mut Line) -> Result<bool, LineError> {
    let word = remark.split(is_space).next().unwrap_or_default();
    let other = matches!(word, "=" | "|" | "≈") || cursor.phrases.is_instead(word);
    let rest = &remark[word.len()..];
    let tokens = super::token::tokens(rest);
    let mut inner = Cursor { line: rest, tokens: &tokens, at: 0, ..*cursor };
    let ends = inner.measured_amount()?.is_some() && inner.done();
    if !other || !ends {
        return Ok(false);
    }
    let offset = cursor.line.find(remark).map(|at| at + word.len());
    second_measure(rest, offset, cursor, line)
}

/// Where the words of a text start.
fn word_starts(text: &str) -> impl Iterator<Item = usize> {
    let mut inside = false;
    text.char_indices().filter_map(move |(at, c)| {
        let letter = !is_space(c) && c != ',';
        let starts = letter && !inside;
        inside = letter;
        starts.then_some(at)
    })
}

/// `2 garlic cloves`, `4 gelatine leaves` and `2 thyme sprigs` name their unit behind the ingredient.
fn unit_in_name(line: &mut Line, cursor: &Cursor<'_>) {
    if let Some((fruit, part)) = owned(&line.name)
        && cursor.phrases.is_part(part)
        && !fruit.is_empty()
    {
        line.name = format!("{fruit} {part}");
    }
    let Some(first) = line.amounts.first_mut() else { return };
    let gelatine = cursor.phrases.is_in_sheets(&line.name);
    if gelatine && first.unit == Some(Unit::Leaf) {
        first.unit = Some(Unit::Sheet);
    }
    let Some((name, last)) = line.name.rsplit_once(' ').filter(|_| first.unit.is_none()) else { return };
    let unit = match cursor.dictionary.word(last) {
        Some(AmountWord::Unit(Unit::Sheet | Unit::Leaf, 1)) if gelatine => Unit::Sheet,
        Some(AmountWord::Unit(Unit::Clove, 1)) if cursor.phrases.is_in_cloves(&line.name) => Unit::Clove,
        Some(AmountWord::Unit(unit @ (Unit::Sprig | Unit::Stalk), 1)) => unit,
        _ => return,
    };
    first.unit = Some(unit);
    line.name = name.trim_end().to_string();
}

/// What stands after the comma: a second amount, a remark (`to taste`), or the preparation.
fn prepare(prep: &str, cursor: &Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let mut kept = Vec::new();
    let mut remark = None;
    for (at, piece) in pieces(prep) {
        let trimmed = tidy(piece);
        if trimmed.is_empty() || second_measure(&trimmed, cursor.line.find(&trimmed), cursor, line)? {
            continue;
        }
        let word = trimmed.split(' ').next().unwrap_or_default();
        if cursor.phrases.is_purpose(word) || cursor.phrases.is_more(word) {
            remark = Some(tidy(&prep[at..]));
            break;
        }
        if let Some(start) = word_starts(piece).find(|start| cursor.phrases.ends_name(&piece[*start..])) {
            kept.push(tidy(&piece[..start]));
            remark = Some(tidy(&prep[at + start..]));
            break;
        }
        kept.push(trimmed);
    }
    kept.retain(|piece| !piece.is_empty());
    if let Some(remark) = remark {
        add_note(line, &remark);
    }
    if !kept.is_empty() {
        kept.splice(0..0, line.prep.take());
        line.prep = Some(kept.join(", "));
    }
    Ok(())
}

/// Splits at the first comma, semicolon, colon or spaced dash that is no part of the name.
fn comma<'t>(text: &'t str, cursor: &Cursor<'_>) -> (&'t str, Option<&'t str>) {
    let digit = |c: char| c.is_ascii_digit();
    for (at, c) in text.char_indices() {
        let after = &text[at + c.len_utf8()..];
        let spaced = || text[..at].ends_with(is_space) && after.starts_with(is_space);
        let parts = match c {
            // `1,5` is a decimal.
            ',' if text[..at].ends_with(digit) && after.starts_with(digit) => false,
            ',' | ';' => !only_adjectives(&text[..at], cursor),
            ':' => after.starts_with(is_space),
            '-' | '–' | '—' => spaced() && !text[..at].trim().is_empty(),
            _ => false,
        };
        if parts {
            return (&text[..at], Some(after));
        }
    }
    (text, None)
}

/// What the remarks say of the line as a whole: to taste, optional, and the size of what is counted.
pub(super) fn flags(line: &mut Line, cursor: &Cursor<'_>) {
    let remarks = || [&line.note, &line.prep].into_iter().flatten();
    let any = |phrases: &[String]| {
        remarks().map(|text| text.to_lowercase()).any(|text| phrases.iter().any(|words| text.contains(words.as_str())))
    };
    let size = remarks().find_map(|text| match cursor.dictionary.word(text) {
        Some(AmountWord::Size(size)) => Some(size),
        _ => None,
    });
    (line.to_taste, line.optional) = (any(cursor.phrases.to_taste()), any(cursor.phrases.optional()));
    if let Some(first) = line.amounts.first_mut().filter(|first| first.unit.is_none()) {
        first.size = first.size.or(size);
    }
}
