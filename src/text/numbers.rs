//! Numbers as cooks write them.

use crate::measure::{LARGEST, Number, vulgar};

/// Denominators that kitchens write; `180/160` and `4/180` are two numbers. Common practice.
const DENOMINATORS: [i64; 10] = [2, 3, 4, 5, 6, 8, 10, 12, 16, 32];

/// What holds groups of three digits together, beside a comma.
const THIN: [char; 3] = ['\u{A0}', '\u{202F}', '\u{2009}'];

/// The number at the start of a text, and how many bytes it takes: `3`, `1.5`, `1,5`, `1,240`, `1/2`, `1 1/2`, `9½`,
/// `⅛`; never above [`LARGEST`].
pub fn number(text: &str) -> Option<(Number, usize)> {
    let Some((whole, end)) = whole(text) else {
        return fraction(text);
    };
    if let Some((under, length)) = over(&text[end..]).filter(|(under, _)| is_part(whole, *under)) {
        return Some((Number::new(whole, under), end + length));
    }
    if let Some((part, length)) = decimals(&text[end..]) {
        return Some((Number::from_integer(whole) + part, end + length));
    }
    let blank = blank(&text[end..]);
    let behind = &text[end + blank..];
    let joined = |behind: &&str| blank > 0 || !behind.starts_with(|c: char| c.is_ascii_digit());
    if let Some((part, length)) = Some(behind).filter(joined).and_then(fraction) {
        return Some((Number::from_integer(whole) + part, end + blank + length));
    }
    Some((Number::from_integer(whole), end))
}

/// Plain digits, in groups of three or not.
fn whole(text: &str) -> Option<(i64, usize)> {
    let digits = |text: &str| text.bytes().take_while(u8::is_ascii_digit).count();
    let mut end = digits(text);
    if end == 0 {
        return None;
    }
    let mut value: i64 = text[..end].parse().ok()?;
    while end <= 3 || value >= 1000 {
        let mark = text[end..].chars().next().filter(|mark| *mark == ',' || THIN.contains(mark));
        let Some(group) = mark.map(|mark| end + mark.len_utf8()).filter(|at| digits(&text[*at..]) == 3) else { break };
        if value == 0 || value > LARGEST {
            break;
        }
        value = value * 1000 + text[group..group + 3].parse::<i64>().ok()?;
        end = group + 3;
    }
    (value <= LARGEST).then_some((value, end))
}

/// `.5`, `,25`: up to four digits behind a point, two behind a comma.
fn decimals(text: &str) -> Option<(Number, usize)> {
    let (mark, most) = if text.starts_with('.') { ('.', 4) } else { (',', 2) };
    let digits = text.strip_prefix(mark)?.bytes().take_while(u8::is_ascii_digit).count();
    let length = u32::try_from(digits).ok().filter(|length| (1..=most).contains(length))?;
    let part: i64 = text[1..=digits].parse().ok()?;
    Some((Number::new(part, 10_i64.pow(length)), 1 + digits))
}

/// `/4` behind a numerator.
fn over(text: &str) -> Option<(i64, usize)> {
    let slash = text.chars().next().filter(|slash| matches!(slash, '/' | '\u{2044}' | '\u{2215}'))?;
    let digits = text[slash.len_utf8()..].bytes().take_while(u8::is_ascii_digit).count();
    let end = slash.len_utf8() + digits;
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
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    let top: i64 = text[..digits].parse().ok()?;
    let (under, length) = over(&text[digits..]).filter(|(under, _)| is_part(top, *under))?;
    Some((top, under, digits + length))
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
        case("0,125", Some((0, 1, "0")));
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
