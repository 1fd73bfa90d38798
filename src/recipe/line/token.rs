use crate::measure::{LARGEST, Number};
use crate::source::Span;

/// A piece of an ingredient line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Token {
    pub(super) kind: Kind,
    /// Bytes of the line.
    pub(super) span: Span,
    /// Whether no space stands before it.
    pub(super) glued: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
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
        if is_space(c) {
            at += c.len_utf8();
            glued = false;
            continue;
        }
        let (kind, length, skip) = token(&line[at..], c);
        tokens.push(Token { kind, span: at..at + length, glued });
        at += length + skip;
        glued = true;
    }
    tokens
}

/// White space, also the kinds that a web page leaves behind (zero-width space and joiners, byte order mark).
pub(super) fn is_space(c: char) -> bool {
    c.is_whitespace()
        || matches!(c, '\u{200B}'..='\u{200F}' | '\u{2060}' | '\u{FEFF}' | '\u{00AD}' | '\u{202A}'..='\u{202E}')
}

/// The token at the start of a text, its length, and what to skip after it.
fn token(rest: &str, first: char) -> (Kind, usize, usize) {
    if first.is_ascii_digit() || (first == '.' && rest[1..].starts_with(|c: char| c.is_ascii_digit())) {
        return number(rest);
    }
    if let Some(value) = fraction_sign(first) {
        return (Kind::Fraction(value), first.len_utf8(), 0);
    }
    if first.is_alphabetic() {
        let length = word_length(rest);
        let stop = usize::from(rest[length..].starts_with('.'));
        return (Kind::Word, length, stop);
    }
    let kind = match first {
        '-' | '\u{2010}'..='\u{2015}' | '\u{2212}' => Kind::Dash,
        '/' | '\u{2044}' | '\u{2215}' => Kind::Slash,
        '(' | '[' | '\u{FF08}' => Kind::Open,
        ')' | ']' | '\u{FF09}' => Kind::Close,
        other => Kind::Sign(other),
    };
    (kind, first.len_utf8(), 0)
}

fn word_length(rest: &str) -> usize {
    let mut end = 0;
    let mut chars = rest.char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        let next_is_letter = chars.peek().is_some_and(|(_, next)| next.is_alphanumeric());
        let joins = matches!(c, '-' | '\u{2010}' | '\u{2011}' | '\'' | '\u{2019}' | '&') && next_is_letter;
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

/// A whole number or decimal. `1,000` is a thousand, `1,5` and `0,125` are decimals, `00` and `007` are words.
fn number(rest: &str) -> (Kind, usize, usize) {
    let digits = |from: usize| rest[from..].bytes().take_while(u8::is_ascii_digit).count();
    let whole = digits(0);
    if whole > 1 && rest.starts_with('0') {
        return (Kind::Word, whole, 0);
    }
    let mark = rest[whole..].chars().next().filter(|c| matches!(c, '.' | ','));
    let after = mark.map_or(0, |_| digits(whole + 1));
    if after == 0 {
        return (value(&rest[..whole], ""), whole, 0);
    }
    let mut length = whole + 1 + after;
    let thousands = mark == Some(',') && after == 3 && !rest.starts_with('0') && whole <= 3;
    if !thousands {
        return (value(&rest[..whole], &rest[whole + 1..length]), length, 0);
    }
    let mut joined = format!("{}{}", &rest[..whole], &rest[whole + 1..length]);
    while rest[length..].starts_with(',') && digits(length + 1) == 3 {
        joined.push_str(&rest[length + 1..length + 4]);
        length += 4;
    }
    (value(&joined, ""), length, 0)
}

fn value(whole: &str, decimals: &str) -> Kind {
    let decimals = decimals.trim_end_matches('0');
    if whole.len() > 7 || decimals.len() > 4 {
        return Kind::TooLarge;
    }
    let parse = |digits: &str| if digits.is_empty() { 0 } else { digits.parse::<i64>().unwrap_or(i64::MAX) };
    let scale = 10_i64.pow(decimals.len() as u32);
    let number = Number::new(parse(whole) * scale + parse(decimals), scale);
    if number > Number::from_integer(LARGEST) { Kind::TooLarge } else { Kind::Number(number) }
}

fn fraction_sign(c: char) -> Option<Number> {
    let (numer, denom) = match c {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅐' => (1, 7),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    };
    Some(Number::new(numer, denom))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kinds(line: &str) -> Vec<Kind> {
        tokens(line).into_iter().map(|t| t.kind).collect()
    }

    #[test]
    fn decimals_and_thousands() {
        let one = |line: &str, n: i64, d: i64| assert_eq!(kinds(line), [Kind::Number(Number::new(n, d))], "{line}");
        one("1,5", 3, 2);
        one("1.25", 5, 4);
        one("1,000", 1000, 1);
        one("0,125", 1, 8);
        one(".5", 1, 2);
        assert_eq!(kinds("1,234,567"), [Kind::TooLarge]);
    }

    #[test]
    fn words_keep_hyphens_and_lose_stops() {
        let line = "2 fl. oz. all-purpose";
        let words: Vec<&str> = tokens(line).into_iter().map(|t| &line[t.span]).collect();
        assert_eq!(words, ["2", "fl", "oz", "all-purpose"]);
        assert_eq!(kinds("00"), [Kind::Word]);
    }
}
