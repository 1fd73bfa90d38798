//! What every part of the grammar does with a text or a sign.

use super::Line;
use super::cursor::Cursor;
use super::token::{TokenKind, is_space};
use crate::language::AmountWord;

pub(super) fn only_adjectives(text: &str, cursor: &Cursor<'_>) -> bool {
    let mut words = text.split([' ', ',']).filter(|word| !word.is_empty());
    words.all(|word| cursor.phrases.is_adjective(word))
}

pub(super) fn add_note(line: &mut Line, remark: &str) {
    if remark.is_empty() {
        return;
    }
    line.note = Some(match line.note.take() {
        Some(note) => format!("{note}; {remark}"),
        None => remark.to_string(),
    });
}

/// One space between words, and no loose signs at the ends.
pub(super) fn tidy(text: &str) -> String {
    let mut tidy = String::with_capacity(text.len());
    for word in text.split(is_space).filter(|word| !word.is_empty()) {
        if !tidy.is_empty() && word != "," {
            tidy.push(' ');
        }
        tidy.push_str(word);
    }
    let loose =
        |c: char| matches!(c, ',' | ';' | ':' | '-' | '–' | '—' | '*' | '†' | '|' | '=' | '/' | '+' | '…' | ' ');
    let mut end = tidy.trim_start_matches(loose);
    loop {
        let before = end.len();
        end = end.trim_end_matches(|c| loose(c) || matches!(c, '¹' | '²' | '³' | '\u{2070}'..='\u{2079}'));
        end = without_stop(end);
        if end.len() == before {
            break;
        }
    }
    let quoted = end.ends_with('"') && end.matches('"').count() == 1 && !end.ends_with(|c: char| c.is_ascii_digit());
    if quoted && !end[..end.len() - 1].ends_with(|c: char| c.is_ascii_digit()) {
        end = end[..end.len() - 1].trim_end();
    }
    end.to_string()
}

/// A text without the full stop of a sentence; that of `q.s.` stays.
fn without_stop(text: &str) -> &str {
    let Some(before) = text.strip_suffix('.') else { return text };
    let last = before.rsplit(' ').next().unwrap_or_default();
    if last.contains('.') && !last.ends_with('.') { text } else { before }
}

/// Whether a sign or word stood between two amounts.
pub(super) fn separator(cursor: &mut Cursor<'_>) -> bool {
    let signs = [
        TokenKind::Slash,
        TokenKind::Sign('|'),
        TokenKind::Sign('='),
        TokenKind::Sign(','),
        TokenKind::Sign(';'),
        TokenKind::Sign('≈'),
    ];
    let found = signs.into_iter().any(|sign| cursor.skip_kind(sign)) || cursor.skip(AmountWord::Or);
    found | cursor.about()
}
