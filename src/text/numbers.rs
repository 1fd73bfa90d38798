//! Numbers as cooks write them.

use crate::measure::{LARGEST, Number, vulgar};

/// Denominators that kitchens write; `180/160` and `4/180` are two numbers. Common practice.
const DENOMINATORS: [i64; 10] = [2, 3, 4, 5, 6, 8, 10, 12, 16, 32];

/// What holds groups of three digits together, beside a comma.
const THIN: [char; 3] = ['\u{A0}', '\u{202F}', '\u{2009}'];

/// A whole number or a decimal at the start of a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Plain {
    /// Its value, at most [`LARGEST`].
    Number(Number),
    /// Digits too many or too long to be a quantity.
    TooLarge,
}

/// The number at the start of a text, and how many bytes it takes: `3`, `1.5`, `1,5`, `1,240`, `1/2`, `1 1/2`, `9½`,
/// `⅛`; never above [`LARGEST`].
pub fn number(text: &str) -> Option<(Number, usize)> {
    let Some((plain, end)) = plain(text) else { return fraction(text) };
    let Plain::Number(whole) = plain else { return None };
    if !whole.is_integer() {
        return Some((whole, end));
    }
    if let Some((under, length)) = over(&text[end..]).filter(|(under, _)| is_part(whole.to_integer(), *under)) {
        return Some((whole / under, end + length));
    }
    let blank = blank(&text[end..]);
    let behind = &text[end + blank..];
    let joined = |behind: &&str| blank > 0 || !behind.starts_with(|c: char| c.is_ascii_digit());
    if let Some((part, length)) = Some(behind).filter(joined).and_then(fraction) {
        return Some((whole + part, end + blank + length));
    }
    Some((whole, end))
}

/// The number that a text is, with nothing behind it.
pub fn only_number(text: &str) -> Option<Number> {
    number(text).filter(|(_, end)| *end == text.len()).map(|(number, _)| number)
}

/// The whole number or decimal at the start of a text, and how many bytes it takes. `1,000`, `1'000` and `1 000` with a
/// no-break space are a thousand, `1,5`, `0,125` and `.5` are decimals.
pub fn plain(text: &str) -> Option<(Plain, usize)> {
    let first = digits(text, 0);
    let next = text[first..].chars().next();
    if first == 0 && !(next == Some('.') && digits(text, 1) > 0) {
        return None;
    }
    if let Some(mark) = next.filter(|mark| matches!(mark, ',' | '\'' | '\u{2019}') || THIN.contains(mark))
        && (1..=3).contains(&first)
        && !text.starts_with('0')
        && let Some((joined, length)) = thousands(text, first, mark)
    {
        return Some((value(&joined, ""), length));
    }
    let behind = next.filter(|mark| matches!(mark, '.' | ',')).map_or(0, |_| digits(text, first + 1));
    let length = if behind == 0 { first } else { first + 1 + behind };
    Some((value(&text[..first], text.get(first + 1..length).unwrap_or_default()), length))
}

/// How many digits stand at a place.
fn digits(text: &str, from: usize) -> usize {
    text[from..].bytes().take_while(u8::is_ascii_digit).count()
}

/// Groups of three digits after a first group: the digits without marks, and the length with them.
fn thousands(text: &str, first: usize, mark: char) -> Option<(String, usize)> {
    let mut joined = text[..first].to_string();
    let mut length = first;
    while let Some(group) = text[length..].strip_prefix(mark) {
        if digits(group, 0) != 3 {
            break;
        }
        joined.push_str(&group[..3]);
        length += mark.len_utf8() + 3;
    }
    (length > first).then_some((joined, length))
}

fn value(whole: &str, decimals: &str) -> Plain {
    let decimals = decimals.trim_end_matches('0');
    if whole.len() > 7 || decimals.len() > 4 {
        return Plain::TooLarge;
    }
    let parse = |digits: &str| if digits.is_empty() { 0 } else { digits.parse::<i64>().unwrap_or(i64::MAX) };
    let scale = 10_i64.pow(decimals.len() as u32);
    let number = Number::new(parse(whole) * scale + parse(decimals), scale);
    if number > Number::from_integer(LARGEST) { Plain::TooLarge } else { Plain::Number(number) }
}

/// `/4` behind a numerator.
fn over(text: &str) -> Option<(i64, usize)> {
    let slash = text.chars().next().filter(|slash| matches!(slash, '/' | '\u{2044}' | '\u{2215}'))?;
    let end = slash.len_utf8() + digits(text, slash.len_utf8());
    text[slash.len_utf8()..end].parse().ok().map(|under| (under, end))
}

fn fraction(text: &str) -> Option<(Number, usize)> {
    let (top, under, length) = parts(text)?;
    Some((Number::new(top, under), length))
}

/// The fraction at the start of a text as it is written, and how many bytes it takes: `2/4` is 2 over 4; `3⁄8`, `½`.
pub fn parts(text: &str) -> Option<(i64, i64, usize)> {
    let first = text.chars().next()?;
    if let Some((top, under)) = vulgar(first) {
        return Some((top.into(), under.into(), first.len_utf8()));
    }
    let end = digits(text, 0);
    let top: i64 = text[..end].parse().ok()?;
    let (under, length) = over(&text[end..]).filter(|(under, _)| is_part(top, *under))?;
    Some((top, under, end + length))
}

fn is_part(top: i64, under: i64) -> bool {
    0 < top && top < under && DENOMINATORS.contains(&under)
}

/// One space before the fraction of a mixed number.
fn blank(text: &str) -> usize {
    text.chars().next().filter(|c| *c == ' ' || THIN.contains(c)).map_or(0, char::len_utf8)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::measure::kitchen;

    #[test]
    fn every_form_is_read() {
        let case = |text: &str, wanted: Option<(i64, i64, &str)>| {
            let read = number(text).map(|(value, end)| (*value.numer(), *value.denom(), &text[..end]));
            assert_eq!(read, wanted, "{text}");
        };
        case("3 eggs", Some((3, 1, "3")));
        case("1.5 h", Some((3, 2, "1.5")));
        case("1,5 kg", Some((3, 2, "1,5")));
        case("0,125", Some((1, 8, "0,125")));
        case("1'240 g", Some((1240, 1, "1'240")));
        case(".5 h", Some((1, 2, ".5")));
        case("1,240 g", Some((1240, 1, "1,240")));
        case("1\u{202F}240 g", Some((1240, 1, "1\u{202F}240")));
        case("1/2 cup", Some((1, 2, "1/2")));
        case("1⁄2 cup", Some((1, 2, "1⁄2")));
        case("1 1/2 cups", Some((3, 2, "1 1/2")));
        case("1½ h", Some((3, 2, "1½")));
        case("9½-inch", Some((19, 2, "9½")));
        case("1 ⅔ cups", Some((5, 3, "1 ⅔")));
        case("⅛ in", Some((1, 8, "⅛")));
        case("180/160C", Some((180, 1, "180")));
        case("4/180C", Some((4, 1, "4")));
        case("1/0", Some((1, 1, "1")));
        case("20 30", Some((20, 1, "20")));
        case("99999999", None);
        case("x", None);
        case("", None);
    }

    proptest! {
        #[test]
        fn what_is_written_is_read(whole in 0_i64..5000, over in 0_i64..8) {
            let written = Number::from_integer(whole) + Number::new(over, 8);
            let text = kitchen(written, '.');
            prop_assert_eq!(number(&text), Some((written, text.len())));
        }

        #[test]
        fn no_text_is_too_much(text in "\\PC{0,12}", digits in "[0-9.,/ ½⁄]{0,12}") {
            for text in [text, digits] {
                if let Some((_, end)) = number(&text) {
                    prop_assert!(text.is_char_boundary(end) && end > 0);
                }
            }
        }
    }
}
