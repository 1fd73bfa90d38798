use std::cell::OnceCell;

use crate::language::{AmountWord, half_joined, is_elided_in_lines};
use crate::measure::{Number, vulgar};
use crate::source::Span;
use crate::text::{Plain, plain};

/// A piece of an ingredient line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Token {
    pub(super) kind: TokenKind,
    /// Bytes of the line.
    pub(super) span: Span,
    /// Whether no space stands before it.
    pub(super) glued: bool,
    /// What it means inside an amount, and how many tokens that takes; filled in when first asked for.
    pub(super) reading: OnceCell<Option<(AmountWord, usize)>>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum TokenKind {
    /// A whole number or a decimal.
    Number(Number),
    /// A fraction sign: `½`.
    Fraction(Number),
    /// Digits too many or too long to be a quantity.
    TooLarge,
    /// Letters, with hyphens and apostrophes inside; the span leaves out a full stop at its end.
    Word,
    /// `-` and its longer kin.
    Dash,
    /// `/` and the fraction slash.
    Slash,
    /// `(` or `[`.
    Open,
    /// `)` or `]`.
    Close,
    /// Any other sign.
    Sign(char),
}

/// Cuts a line into tokens; white space of every kind parts them and is dropped.
pub(super) fn tokens(line: &str) -> Vec<Token> {
    let mut tokens = Vec::with_capacity(16);
    let mut at = 0;
    let mut glued = false;
    while let Some(c) = line[at..].chars().next() {
        let blank = if is_space(c) { c.len_utf8() } else { keycap(&line[at..]) };
        if blank > 0 {
            at += blank;
            glued = false;
            continue;
        }
        let behind_number =
            glued && tokens.last().is_some_and(|last: &Token| matches!(last.kind, TokenKind::Number(_)));
        let (kind, length, skip) = token(&line[at..], c, behind_number);
        tokens.push(Token { kind, span: at..at + length, glued, reading: OnceCell::new() });
        at += length + skip;
        glued = true;
    }
    tokens
}

/// White space, also the kinds that a web page leaves behind (zero-width space and joiners, byte order mark), and
/// signs that mean nothing in a line: dingbats, pictures, underscores.
pub(super) fn is_space(c: char) -> bool {
    match c {
        ' ' | '_' => true,
        _ if c.is_ascii() => c.is_ascii_whitespace() || c == '\u{B}',
        '\u{200B}'..='\u{200F}' | '\u{2060}' | '\u{FEFF}' | '\u{00AD}' | '\u{202A}'..='\u{202E}' => true,
        '\u{FE00}'..='\u{FE0F}' | '\u{20E3}' | '\u{2600}'..='\u{27BF}' | '\u{2B00}'..='\u{2BFF}' => true,
        '\u{1F000}'..='\u{1FAFF}' => true,
        _ => c.is_whitespace(),
    }
}

/// Bytes of a numbered key cap (`1️⃣`) at the start of a text; it numbers a line.
fn keycap(rest: &str) -> usize {
    let after = rest.strip_prefix(|c: char| c.is_ascii_digit()).unwrap_or_default();
    let end = after.strip_prefix('\u{FE0F}').unwrap_or(after).strip_prefix('\u{20E3}');
    end.map_or(0, |end| rest.len() - end.len())
}

/// The token at the start of a text, its length, and what to skip after it.
fn token(rest: &str, first: char, behind_number: bool) -> (TokenKind, usize, usize) {
    if let Some(number) = number(rest) {
        return number;
    }
    if let Some(value) = fraction_sign(first) {
        return (TokenKind::Fraction(value), first.len_utf8(), 0);
    }
    if first.is_alphabetic() {
        if let Some((length, skip)) = word_start(rest, first) {
            return (TokenKind::Word, length, skip);
        }
        if let Some(length) = behind_number.then(|| glued_unit(rest)).flatten() {
            return (TokenKind::Word, length, 0);
        }
        let length = word_length(rest);
        let stop = usize::from(rest[length..].starts_with('.'));
        return (TokenKind::Word, length, stop);
    }
    if let Some(length) = leader(rest) {
        return (TokenKind::Sign('…'), length, 0);
    }
    let kind = match first {
        '-' | '\u{2010}'..='\u{2015}' | '\u{2212}' => TokenKind::Dash,
        '/' | '\u{2044}' | '\u{2215}' => TokenKind::Slash,
        '(' | '[' | '\u{FF08}' => TokenKind::Open,
        ')' | ']' | '\u{FF09}' => TokenKind::Close,
        other => TokenKind::Sign(other),
    };
    (kind, first.len_utf8(), 0)
}

/// Words that are glued to what follows, and the sign to skip: `x2`, `d'amandes`, `demi-litre`.
fn word_start(rest: &str, first: char) -> Option<(usize, usize)> {
    let after = &rest[first.len_utf8()..];
    let times = matches!(first, 'x' | 'X') && after.starts_with(|c: char| c.is_ascii_digit());
    if times && after[..word_length(after).max(1)].bytes().all(|b| b.is_ascii_digit()) {
        return Some((1, 0));
    }
    if let Some(mark) = after.chars().next().filter(|c| matches!(c, '\'' | '\u{2019}'))
        && after[mark.len_utf8()..].starts_with(char::is_alphanumeric)
        && is_elided_in_lines(&rest[..first.len_utf8()])
    {
        return Some((first.len_utf8(), mark.len_utf8()));
    }
    half_joined(rest).map(|length| (length - 1, 1))
}

/// The unit that a name is glued to: `250gflour`; `250grams` is a unit as it stands.
fn glued_unit(rest: &str) -> Option<usize> {
    let rest = &rest[..word_length(rest)];
    let unit = ["kg", "ml", "g"].into_iter().find(|unit| rest.starts_with(unit))?;
    let named = rest.len() > unit.len() + 2;
    let other = unit == "g" && rest[1..].starts_with(['a', 'i', 'l', 'm', 'r']);
    (named && !other).then_some(unit.len())
}

/// Dots that lead the eye from a name to its amount: `.....`, `…`.
fn leader(rest: &str) -> Option<usize> {
    let is_dot = |c: &char| matches!(c, '.' | '…' | '·');
    let dots: Vec<char> = rest.chars().take_while(is_dot).collect();
    let leads = dots.len() > 1 || dots.first() == Some(&'…');
    leads.then(|| dots.iter().map(|c| c.len_utf8()).sum())
}

fn word_length(rest: &str) -> usize {
    let mut end = 0;
    let mut chars = rest.char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        let next = chars.peek().map_or(' ', |(_, next)| *next);
        let joins = match c {
            // `100g-120g` is a range.
            '-' | '\u{2010}' | '\u{2011}' => next.is_alphabetic(),
            '\'' | '\u{2019}' | '&' => next.is_alphanumeric(),
            _ => false,
        };
        if !(c.is_alphanumeric() && fraction_sign(c).is_none() || is_mark(c) || joins) {
            break;
        }
        end = at + c.len_utf8();
    }
    end
}

/// Combining accents, so that decomposed letters stay one word.
fn is_mark(c: char) -> bool {
    matches!(c, '\u{0300}'..='\u{036F}')
}

/// A number; `00` and `007` are words.
fn number(rest: &str) -> Option<(TokenKind, usize, usize)> {
    let (number, length) = plain(rest)?;
    let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
    Some(match number {
        _ if digits > 1 && rest.starts_with('0') => (TokenKind::Word, digits, 0),
        Plain::Number(number) => (TokenKind::Number(number), length, 0),
        Plain::TooLarge => (TokenKind::TooLarge, length, 0),
    })
}

fn fraction_sign(c: char) -> Option<Number> {
    vulgar(c).map(|(over, under)| Number::new(over.into(), under.into()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kinds(line: &str) -> Vec<TokenKind> {
        tokens(line).into_iter().map(|t| t.kind).collect()
    }

    #[test]
    fn decimals_and_thousands() {
        let one =
            |line: &str, n: i64, d: i64| assert_eq!(kinds(line), [TokenKind::Number(Number::new(n, d))], "{line}");
        one("1,5", 3, 2);
        one("1.25", 5, 4);
        one("1,000", 1000, 1);
        one("0,125", 1, 8);
        one(".5", 1, 2);
        assert_eq!(kinds("1,234,567"), [TokenKind::TooLarge]);
    }

    #[test]
    fn words_keep_hyphens_and_lose_stops() {
        let line = "2 fl. oz. all-purpose";
        let words: Vec<&str> = tokens(line).into_iter().map(|t| &line[t.span]).collect();
        assert_eq!(words, ["2", "fl", "oz", "all-purpose"]);
        assert_eq!(kinds("00"), [TokenKind::Word]);
    }
}
