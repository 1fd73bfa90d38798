//! Finds fractions in plain text: `1 1/4`, `1½`, `3⁄8`.

use std::ops::Range;

use crate::measure::vulgar;
use crate::text::parts;

/// U+2044, between the two numbers of a fraction.
const SLASH: char = '\u{2044}';

/// U+202F, the thin space that holds a whole number to its fraction.
pub(crate) const THIN: char = '\u{202f}';

/// The text with every fraction spelled as digits, U+2044, digits, and the byte ranges of those.
///
/// A whole number before a fraction is joined to it by U+202F. Dates (`4/7/2026`), ratios over one (`5/3`) and
/// anything inside an address stay as they are.
pub(crate) fn fractions(text: &str) -> (String, Vec<Range<usize>>) {
    let mut out = String::with_capacity(text.len() + 8);
    let mut ranges = Vec::new();
    let mut rest = text;
    while let Some(start) = rest.find(|c: char| c.is_ascii_digit() || vulgar(c).is_some()) {
        out.push_str(&rest[..start]);
        rest = &rest[start..];
        match read(rest, &out) {
            Some((numerator, denominator, used)) => {
                join_whole(&mut out);
                let begin = out.len();
                out.push_str(&format!("{numerator}{SLASH}{denominator}"));
                ranges.push(begin..out.len());
                rest = &rest[used..];
            }
            None => {
                let run = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
                let run = run.max(rest.chars().next().map_or(0, char::len_utf8).min(rest.len()));
                out.push_str(&rest[..run]);
                rest = &rest[run..];
            }
        }
    }
    out.push_str(rest);
    (out, ranges)
}

/// A fraction at the start of `rest`, with the bytes it takes; `before` is the text so far.
fn read(rest: &str, before: &str) -> Option<(i64, i64, usize)> {
    let (numerator, denominator, used) = parts(rest)?;
    let mut next = rest[used..].chars();
    let (next, further) = (next.next(), next.next());
    let goes_on = match next {
        Some('/' | '_') => true,
        Some('.' | ',' | ':') => further.is_some_and(|c| c.is_ascii_digit()),
        Some(c) => c.is_alphanumeric(),
        None => false,
    };
    let one_sign = rest.chars().next().and_then(vulgar).is_some();
    let sure = one_sign || rest[..used].contains(SLASH);
    (sure || (!goes_on && starts_afresh(before))).then_some((numerator, denominator, used))
}

/// Whether a number may begin after this text: not within a word, a date, a decimal or an address.
fn starts_afresh(before: &str) -> bool {
    let token = before.rsplit(char::is_whitespace).next().unwrap_or_default();
    let address = token.contains("://") || token.contains("www.") || token.contains('@');
    let within = |c: char| c.is_alphanumeric() || matches!(c, '/' | '.' | ',' | ':' | '_' | '=');
    !(address || token.ends_with(within))
}

/// Puts the thin space after a whole number of up to three digits that ends the text.
fn join_whole(out: &mut String) {
    let trimmed = out.trim_end_matches([' ', '\u{a0}', '\u{2009}', THIN]);
    let spaces = out[trimmed.len()..].chars().count();
    let figures = trimmed.len() - trimmed.trim_end_matches(|c: char| c.is_ascii_digit()).len();
    let before = &trimmed[..trimmed.len() - figures];
    if spaces > 1 || figures == 0 || figures > 3 || !starts_afresh(before) {
        return;
    }
    out.truncate(trimmed.len());
    out.push(THIN);
}

#[cfg(test)]
mod tests {
    use super::fractions;

    fn case(text: &str, expected: &str, count: usize) {
        let (out, ranges) = fractions(text);
        assert_eq!(out, expected, "{text}");
        assert_eq!(ranges.len(), count, "{text}");
        for range in ranges {
            assert!(out[range].contains('\u{2044}'), "{text}");
        }
    }

    #[test]
    fn fractions_are_found() {
        case("1/2 cup", "1⁄2 cup", 1);
        case("1 1/4 cups", "1\u{202f}1⁄4 cups", 1);
        case("1¼ cups + ½ tsp", "1\u{202f}1⁄4 cups + 1⁄2 tsp", 2);
        case("(2/3)", "(2⁄3)", 1);
        case("1/2-inch, 3/4.", "1⁄2-inch, 3⁄4.", 2);
        case("3⁄8", "3⁄8", 1);
        case("1/4 to 1/2", "1⁄4 to 1⁄2", 2);
        case("1/4–1/2", "1⁄4–1⁄2", 2);
    }

    #[test]
    fn dates_ratios_and_addresses_stay() {
        for text in
            ["4/7/2026", "2026/1/2", "5/3", "24/7", "a1/2", "1/2b", "1.1/2", "12/25", "", "/", "1/", "1000/2000"]
        {
            case(text, text, 0);
        }
        case("https://tern-quay.example/1/2", "https://tern-quay.example/1/2", 0);
        case("see https://a.example?p-1/2 now", "see https://a.example?p-1/2 now", 0);
    }
}
