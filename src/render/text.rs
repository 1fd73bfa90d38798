use crate::text::is_hidden;

/// The text on one line: white space runs become one space, ends are trimmed, and characters that a reader cannot see
/// but that change what he sees (controls, bidirectional overrides and isolates, noncharacters) are left out.
pub fn clean_text(text: &str) -> String {
    if text.bytes().all(|byte| matches!(byte, b' '..=b'~')) && !text.contains("  ") {
        return text.trim_matches(' ').to_owned();
    }
    let mut clean = String::with_capacity(text.len());
    for character in text.chars() {
        if character.is_whitespace() || character.is_control() {
            if !clean.is_empty() && !clean.ends_with(' ') {
                clean.push(' ');
            }
        } else if !is_hidden(character) {
            clean.push(character);
        }
    }
    clean.truncate(clean.trim_end().len());
    clean
}

/// [`clean_text`] with `<` and `>` as `‹` and `›`, for places that allow no angle brackets.
pub fn plain_text(text: &str) -> String {
    without_angle_brackets(&clean_text(text))
}

/// The same text with `<` and `>` as `‹` and `›`; line breaks stay.
pub(super) fn without_angle_brackets(text: &str) -> String {
    text.replace('<', "‹").replace('>', "›")
}

/// [`clean_text`] escaped so that Markdown shows it as it is, wherever in a line it is put.
///
/// Braces are escaped too, one by one, so that site generators which read their own syntax before the Markdown
/// (`{{ }}`, `{% %}`) find none.
pub fn markdown_text(text: &str) -> String {
    let clean = clean_text(text);
    let mut line = String::with_capacity(clean.len() + clean.len() / 16);
    push_markdown(&mut line, &clean, Ampersands::WhereNeeded);
    guard_line_start(line)
}

/// Which ampersands are escaped in Markdown.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Ampersands {
    /// Those before what may be a character reference, so that "salt & pepper" stays readable.
    WhereNeeded,
    /// All, for a piece of text that another piece may follow.
    All,
}

/// Adds text to a line, with what Markdown reads as markup inside a line escaped.
pub(super) fn push_markdown(line: &mut String, text: &str, ampersands: Ampersands) {
    let mut rest = text.chars().peekable();
    while let Some(character) = rest.next() {
        let markup = match character {
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '~' | '^' | '{' | '}' | '$' => true,
            '&' if ampersands == Ampersands::All => true,
            '&' => rest.peek().is_some_and(|next| *next == '#' || next.is_ascii_alphanumeric()),
            // A brace and a sign begin the syntax of one site generator or another.
            sign => sign.is_ascii_punctuation() && line.ends_with('{'),
        };
        if markup {
            line.push('\\');
        }
        line.push(character);
    }
}

/// Escapes what Markdown reads as a heading, list item, rule or underline at the start of a line.
pub(super) fn guard_line_start(line: String) -> String {
    if line.starts_with(['#', '+', '-', '=', ':']) {
        return format!("\\{line}");
    }
    let digits = line.bytes().take_while(u8::is_ascii_digit).count();
    let mut after = line[digits..].chars();
    if digits > 0 && matches!(after.next(), Some('.' | ')')) && after.next().is_none_or(char::is_whitespace) {
        return format!("{}\\{}", &line[..digits], &line[digits..]);
    }
    line
}

/// [`clean_text`] with its first letter a capital.
pub fn capitalized(text: &str) -> String {
    let clean = clean_text(text);
    let mut characters = clean.chars();
    characters.next().into_iter().flat_map(char::to_uppercase).chain(characters).collect()
}

/// [`clean_text`] with a full stop where it ends with no stop of its own.
pub fn with_stop(text: &str) -> String {
    let mut sentence = clean_text(text);
    let end = sentence.trim_end_matches(['*', '_', '"', '”', '’', ')', '`']);
    if !end.is_empty() && !end.ends_with(['.', '!', '?', ':', '…']) {
        sentence.push('.');
    }
    sentence
}

/// A capital first and a stop last.
pub fn sentence(text: &str) -> String {
    with_stop(&capitalized(text))
}

/// A tag as a hashtag: letters and digits only, several words each with a capital (`#MakeAhead`).
///
/// `None` where no letter is left; a host reads a number alone as no hashtag.
pub fn hashtag(tag: &str) -> Option<String> {
    let clean = clean_text(tag);
    let words: Vec<String> = clean
        .split(|character: char| !character.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect();
    let joined = match words.as_slice() {
        [one] => one.clone(),
        several => several.iter().map(|word| capitalized(word)).collect(),
    };
    joined.chars().any(char::is_alphabetic).then(|| format!("#{joined}"))
}

/// Lines without blanks at their ends, no more than one empty line in a row, one line break at the end.
pub(super) fn tidy_lines(text: &str) -> String {
    let mut tidy = String::with_capacity(text.len());
    let mut empty_before = true;
    for line in text.lines().map(str::trim_end) {
        if !(line.is_empty() && empty_before) {
            tidy.push_str(line);
            tidy.push('\n');
        }
        empty_before = line.is_empty();
    }
    tidy.truncate(tidy.trim_end().len());
    tidy.push('\n');
    tidy
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn clean_text_is_one_visible_line() {
        assert_eq!(clean_text("  rye\r\n\tflour \u{202E}x\u{0}y\u{2028}z "), "rye flour x y z");
        assert_eq!(clean_text("\n\t"), "");
    }

    #[test]
    fn markdown_text_escapes_markup_and_little_else() {
        assert_eq!(markdown_text("salt & pepper, 22–25 min."), "salt & pepper, 22–25 min.");
        assert_eq!(markdown_text("# a | b"), "\\# a \\| b");
        assert_eq!(markdown_text("1. one"), "1\\. one");
        assert_eq!(markdown_text("0.4 g"), "0.4 g");
        assert_eq!(markdown_text("{{ x }} &lt; <b>"), "\\{\\{ x \\}\\} \\&lt; \\<b\\>");
        assert_eq!(markdown_text("140 g, 5 % salt"), "140 g, 5 % salt");
        assert_eq!(markdown_text("{% x %}"), "\\{\\% x %\\}");
    }

    #[test]
    fn hashtags_are_words_without_spaces() {
        assert_eq!(hashtag("make ahead").as_deref(), Some("#MakeAhead"));
        assert_eq!(hashtag("Tart").as_deref(), Some("#tart"));
        assert_eq!(hashtag("crème-brûlée").as_deref(), Some("#CrèmeBrûlée"));
        assert_eq!(hashtag("2026"), None);
        assert_eq!(hashtag("#"), None);
    }

    #[test]
    fn lines_are_tidied() {
        assert_eq!(tidy_lines("\n\na \n\n\n\nb\n\n"), "a\n\nb\n");
        assert_eq!(tidy_lines(""), "\n");
    }
}
