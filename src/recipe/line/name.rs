use super::cursor::Cursor;
use super::token::{Kind, is_space};
use super::{Line, LineError};
use crate::measure::{Reading, Unit};
use crate::source::Span;

/// What is taken from a fruit or pod: `juice of 1 lemon` is lemon juice.
const PARTS: [&str; 8] = ["juice", "zest", "rind", "peel", "seeds", "pulp", "flesh", "leaves"];

/// Words that may stand before such a part.
const PART_QUALITIES: [&str; 10] =
    ["the", "grated", "finely", "freshly", "fresh", "squeezed", "strained", "pared", "thinly", "finely-grated"];

/// Phrases that are no part of a name, and end it where they start.
const PHRASES: [&str; 34] = [
    "to taste",
    "or to taste",
    "plus more",
    "plus extra",
    "plus a little",
    "plus some",
    "and more",
    "or more",
    "or less",
    "or as needed",
    "or so",
    "as needed",
    "if needed",
    "if necessary",
    "as required",
    "if desired",
    "if using",
    "to serve",
    "to finish",
    "to garnish",
    "to decorate",
    "to dust",
    "to glaze",
    "to cover",
    "to sprinkle",
    "to grease",
    "at room temperature",
    "at room temp",
    "room temperature",
    "divided",
    "optional",
    "each",
    "in total",
    "in all",
];

/// Words that may follow `for` in a remark; `for` before others belongs to the name as well, so any word will do but
/// a name may not start with it.
const FOR: &str = "for";

/// Adjectives that a comma may part from the name: `boneless, skinless chicken thighs`.
const ADJECTIVES: [&str; 48] = [
    "boneless",
    "skinless",
    "cold",
    "cool",
    "chilled",
    "warm",
    "hot",
    "soft",
    "softened",
    "melted",
    "unsalted",
    "salted",
    "large",
    "small",
    "medium",
    "ripe",
    "overripe",
    "fresh",
    "dried",
    "dry",
    "good-quality",
    "fine",
    "coarse",
    "finely",
    "coarsely",
    "roughly",
    "light",
    "dark",
    "sweet",
    "tart",
    "firm",
    "raw",
    "unsweetened",
    "sweetened",
    "plain",
    "full-fat",
    "low-fat",
    "whole",
    "organic",
    "free-range",
    "thick",
    "thin",
    "blanched",
    "toasted",
    "roasted",
    "unsulphured",
    "natural",
    "smooth",
];

/// `juice of 1 lemon`, `grated zest of 2 oranges`, `seeds of 1 vanilla pod`; `None` for other lines.
pub(super) fn part_of_fruit(cursor: &mut Cursor<'_>) -> Result<Option<Line>, LineError> {
    let mut ahead = *cursor;
    while ahead.word().is_some_and(|word| PART_QUALITIES.contains(&word.to_lowercase().as_str())) {
        ahead.at += 1;
    }
    let first = ahead.byte();
    let mut parts = 0;
    while ahead.word().is_some_and(|word| PARTS.contains(&word.to_lowercase().as_str())) {
        ahead.at += 1;
        parts += 1;
        let and = ahead.skip(Reading::Plus);
        if !and {
            break;
        }
    }
    let part = ahead.line[first..ahead.byte_before().max(first)].to_lowercase();
    let of = ahead.skip(Reading::Of) || ahead.word() == Some("from");
    ahead.at += usize::from(ahead.word() == Some("from"));
    if parts == 0 || !of {
        return Ok(None);
    }
    let Some(parsed) = ahead.amount()? else { return Ok(None) };
    let mut line = Line { amounts: vec![parsed.amount], ..Line::default() };
    ahead.skip(Reading::Of);
    name_and_rest(&mut ahead, &mut line)?;
    *cursor = ahead;
    if part == "seeds" {
        line.note = Some(line.note.map_or_else(|| "seeds only".into(), |note| format!("seeds only; {note}")));
    } else if !line.name.is_empty() {
        line.name = format!("{} {part}", singular(&line.name));
    }
    Ok(Some(line))
}

fn singular(name: &str) -> &str {
    match name {
        _ if name.ends_with("ss") || name.ends_with("us") => name,
        _ => name.strip_suffix('s').unwrap_or(name),
    }
}

/// `a handful of mint`, `some butter`: said, but nothing that can be weighed; it is kept as a remark.
pub(super) fn vague_amount(cursor: &mut Cursor<'_>, line: &mut Line) {
    let mut ahead = *cursor;
    let start = ahead.byte();
    if let Some((Reading::Number(_), count)) = ahead.reading() {
        ahead.at += count;
    }
    if !ahead.skip(Reading::Vague) {
        return;
    }
    if let Some((Reading::Unit(..), count)) = ahead.reading() {
        ahead.at += count;
    }
    line.note = Some(tidy(&ahead.line[start..ahead.byte_before()]));
    ahead.skip(Reading::Of);
    if !ahead.done() {
        *cursor = ahead;
    }
}

/// A line without an amount in front: the amount may stand behind the name.
pub(super) fn with_amount_behind(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let start = cursor.at;
    for at in start + 1..cursor.tokens.len() {
        let mut ahead = Cursor { at, ..*cursor };
        let before = ahead.tokens[at - 1].kind;
        let marked = matches!(before, Kind::Sign(':' | ',') | Kind::Dash) || is_times(&ahead, at - 1);
        let number = !matches!(ahead.peek_kind(0), Some(Kind::Word | Kind::Open | Kind::Close));
        if !number && !marked {
            continue;
        }
        let Some(parsed) = ahead.amount()? else { continue };
        let measured = parsed.amount.unit.is_some();
        let ends = ahead.peek().is_none_or(|t| !matches!(t.kind, Kind::Word | Kind::Number(_)));
        if !(measured || marked) || !ends || (before == Kind::Open) {
            continue;
        }
        line.amounts.push(parsed.amount);
        line.each |= parsed.each;
        super::further(&mut ahead, line)?;
        let end = cursor.tokens[at - 1 - usize::from(marked)].span.end;
        let behind = ahead;
        split(cursor.line, cursor.byte()..end.max(cursor.byte()), cursor, line)?;
        add_rest(&behind, line);
        return Ok(());
    }
    name_and_rest(cursor, line)
}

fn is_times(cursor: &Cursor<'_>, at: usize) -> bool {
    cursor.tokens.get(at).is_some_and(|token| matches!(cursor.text(token), "x" | "×"))
}

/// What stands behind an amount at the end of a line is a remark.
fn add_rest(cursor: &Cursor<'_>, line: &mut Line) {
    let rest = tidy(&cursor.line[cursor.byte()..]);
    if !rest.is_empty() {
        add_note(line, &rest);
    }
}

/// The name from the cursor on, then preparation and remarks.
pub(super) fn name_and_rest(cursor: &mut Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let span = cursor.byte()..cursor.line.len();
    split(cursor.line, span, cursor, line)
}

/// Sorts a stretch of a line into name, preparation and remarks.
fn split(text: &str, span: Span, cursor: &Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let (plain, brackets) = without_brackets(text, span);
    let mut had_second = line.amounts.len() > 1;
    for bracket in &brackets {
        had_second |= bracket_amounts(&text[bracket.clone()], bracket.start, cursor, line, had_second)?;
    }
    let (name, prep) = comma(&plain);
    let (name, phrase) = phrase(name);
    let (name, other) = alternative(name, cursor);
    line.name = tidy(name);
    unit_in_name(line);
    for remark in [phrase, other].into_iter().flatten() {
        add_note(line, &tidy(remark));
    }
    if let Some(prep) = prep {
        prepare(prep, cursor, line)?;
    }
    flags(line);
    Ok(())
}

/// `2 garlic cloves` and `4 gelatine leaves` name their unit behind the ingredient.
fn unit_in_name(line: &mut Line) {
    let Some(first) = line.amounts.first_mut() else { return };
    let lower = line.name.to_lowercase();
    let gelatine = lower.starts_with("gelatin");
    if gelatine && first.unit == Some(Unit::Leaf) {
        first.unit = Some(Unit::Sheet);
    }
    let unit = match lower.rsplit(' ').next() {
        Some("sheet" | "sheets" | "leaf" | "leaves") if gelatine => Unit::Sheet,
        Some("clove" | "cloves") if lower.contains("garlic") => Unit::Clove,
        _ => return,
    };
    if first.unit.is_none()
        && let Some((name, _)) = line.name.rsplit_once(' ')
    {
        first.unit = Some(unit);
        line.name = name.trim_end().to_string();
    }
}

/// What stands after the comma: a second amount, a remark (`to taste`), or the preparation.
fn prepare(prep: &str, cursor: &Cursor<'_>, line: &mut Line) -> Result<(), LineError> {
    let mut kept = Vec::new();
    for piece in prep.split([',', ';']) {
        let piece = tidy(piece);
        let has_one = line.amounts.len() == 1;
        if piece.is_empty() || (has_one && bracket_amounts(&piece, 0, cursor, line, false)?) {
            continue;
        }
        kept.push(piece);
    }
    let kept = kept.join(", ");
    if kept.is_empty() {
        return Ok(());
    }
    let (front, phrase) = if kept.starts_with("plus ") { ("", Some(kept.as_str())) } else { phrase(&kept) };
    if let Some(phrase) = phrase {
        add_note(line, &tidy(phrase));
    }
    let front = tidy(front);
    if !front.is_empty() {
        line.prep = Some(front);
    }
    Ok(())
}

/// Reads a bracket that is wholly amounts as the second measure; keeps any other as a remark.
fn bracket_amounts(
    text: &str,
    offset: usize,
    cursor: &Cursor<'_>,
    line: &mut Line,
    had_second: bool,
) -> Result<bool, LineError> {
    let tokens = super::token::tokens(text);
    let mut inner = Cursor { line: text, tokens: &tokens, at: 0, ..*cursor };
    let mut found = Vec::new();
    let mut each = false;
    super::separator(&mut inner);
    while let Some(parsed) = inner.measured_amount()? {
        each |= parsed.each;
        found.push(parsed.amount);
        super::separator(&mut inner);
    }
    each |= inner.skip(Reading::Each);
    inner.about();
    let wholly = inner.done() && !found.is_empty() && !line.amounts.is_empty();
    if wholly && !had_second {
        line.each |= each;
        line.amounts.extend(found.into_iter().map(|mut amount| {
            amount.span = amount.span.start + offset..amount.span.end + offset;
            amount
        }));
        return Ok(true);
    }
    if offset > 0 {
        add_note(line, &tidy(text));
    }
    Ok(false)
}

/// The text outside brackets, and the spans of what stands inside the outermost ones.
fn without_brackets(text: &str, span: Span) -> (String, Vec<Span>) {
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

/// Splits at the first comma, semicolon or spaced dash that is no part of the name.
fn comma(text: &str) -> (&str, Option<&str>) {
    for (at, c) in text.char_indices() {
        let spaced = |c: char| text[..at].ends_with(is_space) && text[at + c.len_utf8()..].starts_with(is_space);
        let parts = match c {
            ',' | ';' => !only_adjectives(&text[..at]),
            '-' | '–' | '—' => spaced(c) && !text[..at].trim().is_empty(),
            _ => false,
        };
        if parts {
            return (&text[..at], Some(&text[at + c.len_utf8()..]));
        }
    }
    (text, None)
}

fn only_adjectives(text: &str) -> bool {
    let mut words = text.split([' ', ',']).filter(|word| !word.is_empty());
    words.all(|word| ADJECTIVES.contains(&word.to_lowercase().as_str()))
}

/// Splits before a phrase that is no part of a name.
fn phrase(text: &str) -> (&str, Option<&str>) {
    let mut starts: Vec<usize> = Vec::new();
    let mut inside = false;
    for (at, c) in text.char_indices() {
        let letter = !is_space(c) && c != ',';
        if letter && !inside {
            starts.push(at);
        }
        inside = letter;
    }
    let begins = |at: &usize| {
        let rest = &text[*at..];
        let matches = |phrase: &str| {
            rest.get(..phrase.len()).is_some_and(|start| start.eq_ignore_ascii_case(phrase))
                && !rest[phrase.len()..].starts_with(char::is_alphanumeric)
        };
        PHRASES.iter().any(|phrase| matches(phrase)) || (*at > 0 && matches(FOR))
    };
    match starts.into_iter().find(begins) {
        Some(at) => (&text[..at], Some(&text[at..])),
        None => (text, None),
    }
}

/// `fresh yeast or 4 g instant`: a second ingredient with its own amount is a remark.
fn alternative<'t>(name: &'t str, cursor: &Cursor<'_>) -> (&'t str, Option<&'t str>) {
    for mark in [" or ", " / ", " ou "] {
        let Some(at) = name.find(mark) else { continue };
        let rest = &name[at + mark.len()..];
        let tokens = super::token::tokens(rest);
        let mut inner = Cursor { line: rest, tokens: &tokens, at: 0, ..*cursor };
        if matches!(inner.amount(), Ok(Some(_))) {
            return (&name[..at], Some(name[at..].trim_start()));
        }
    }
    (name, None)
}

fn add_note(line: &mut Line, remark: &str) {
    if remark.is_empty() {
        return;
    }
    line.note = Some(match line.note.take() {
        Some(note) => format!("{note}; {remark}"),
        None => remark.to_string(),
    });
}

fn flags(line: &mut Line) {
    let says = |words: &str| [&line.note, &line.prep].into_iter().flatten().any(|t| t.to_lowercase().contains(words));
    (line.to_taste, line.optional) = (says("to taste"), says("optional"));
}

/// One space between words, and no loose signs at the ends.
fn tidy(text: &str) -> String {
    let mut tidy = String::with_capacity(text.len());
    for word in text.split(is_space).filter(|word| !word.is_empty()) {
        if !tidy.is_empty() && word != "," {
            tidy.push(' ');
        }
        tidy.push_str(word);
    }
    let loose =
        |c: char| matches!(c, ',' | ';' | ':' | '-' | '–' | '—' | '*' | '†' | '|' | '=' | '/' | '+') || is_space(c);
    tidy.trim_matches(loose).trim_end_matches('.').trim_end().to_string()
}
