use std::borrow::Cow;

/// Whether a character would do something to a terminal or to the order of what is read there, instead of being seen:
/// controls other than line end and tab, and what turns the direction of text.
///
/// Source: Unicode 16, general category Cc, and UAX 9 for the marks of direction.
fn acts(c: char) -> bool {
    let turns = matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    turns || matches!(c, '\u{2028}' | '\u{2029}') || (c.is_control() && !matches!(c, '\n' | '\t'))
}

/// A text in which every character that would act on a terminal is shown by its number: `<U+001B>`.
pub fn shown(text: &str) -> Cow<'_, str> {
    if !text.contains(acts) {
        return Cow::Borrowed(text);
    }
    let mut safe = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        if acts(c) {
            safe.push_str(&format!("<U+{:04X}>", u32::from(c)));
        } else {
            safe.push(c);
        }
    }
    Cow::Owned(safe)
}

/// The same of a text whose bytes must keep their places: other signs of as many bytes stand for what would act.
pub fn shown_in_place(text: &str) -> Cow<'_, str> {
    if !text.contains(acts) {
        return Cow::Borrowed(text);
    }
    let mut safe = String::with_capacity(text.len());
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        safe.push(match (acts(c), c.len_utf8()) {
            // Half of a line end of two characters.
            (true, 1) if c == '\r' && rest.peek() == Some(&'\n') => ' ',
            (true, 1) => '?',
            (true, 2) => '¤',
            (true, _) => '\u{fffd}',
            (false, _) => c,
        });
    }
    Cow::Owned(safe)
}

/// JSON in which those characters are escaped as the format allows: the same data.
pub fn shown_in_json(json: &str) -> Cow<'_, str> {
    if !json.contains(acts) {
        return Cow::Borrowed(json);
    }
    let mut safe = String::with_capacity(json.len() + 8);
    for c in json.chars() {
        if acts(c) {
            safe.push_str(&format!("\\u{:04x}", u32::from(c)));
        } else {
            safe.push(c);
        }
    }
    Cow::Owned(safe)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_acts_is_shown() {
        let hostile = "\u{1b}[31mred\u{9b}2J\u{202e}txt\u{7}\r\n½\t\u{200d}";
        assert_eq!(shown(hostile), "<U+001B>[31mred<U+009B>2J<U+202E>txt<U+0007><U+000D>\n½\t\u{200d}");
        assert!(matches!(shown("½ cup\n"), Cow::Borrowed(_)));
        let placed = shown_in_place("\u{1b}a\u{9b}\u{202e}½");
        assert_eq!(placed, "?a¤\u{fffd}½");
        assert_eq!(placed.len(), "\u{1b}a\u{9b}\u{202e}½".len());
        assert_eq!(shown_in_place("a\u{7}\r\nb\n"), "a? \nb\n");
    }

    #[test]
    fn json_stays_the_same_data() {
        let text = "\u{1b}\u{9b}\u{202e}\u{7f}½";
        let json = serde_json::to_string(text).unwrap();
        let safe = shown_in_json(&json);
        assert!(!safe.contains(acts), "{safe}");
        assert_eq!(serde_json::from_str::<String>(&safe).unwrap(), text);
    }
}
