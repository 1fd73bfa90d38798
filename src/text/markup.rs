//! Text inside HTML and XML.

use std::io::{self, Write};

/// Writes text for HTML and XML: the five markup characters as references, and no character that XML forbids or that
/// turns the direction of what follows.
///
/// # Errors
/// When the writer fails.
pub fn write_escaped(text: &str, out: &mut dyn Write) -> io::Result<()> {
    // Most texts have nothing to escape.
    if text.bytes().all(|byte| matches!(byte, b' '..=b'~') && !matches!(byte, b'&' | b'<' | b'>' | b'"' | b'\'')) {
        return out.write_all(text.as_bytes());
    }
    let mut plain_from = 0;
    for (at, character) in text.char_indices() {
        let replacement = match character {
            '&' => "&amp;",
            '<' => "&lt;",
            '>' => "&gt;",
            '"' => "&quot;",
            '\'' => "&#39;",
            '\n' | '\t' => continue,
            hidden if hidden.is_control() || is_hidden(hidden) => "",
            _ => continue,
        };
        out.write_all(&text.as_bytes()[plain_from..at])?;
        out.write_all(replacement.as_bytes())?;
        plain_from = at + character.len_utf8();
    }
    out.write_all(&text.as_bytes()[plain_from..])
}

/// Text escaped for HTML.
pub fn escaped(text: &str) -> String {
    let mut out = Vec::with_capacity(text.len() + text.len() / 16);
    write_escaped(text, &mut out).expect("writing to memory does not fail");
    String::from_utf8(out).expect("escaping keeps whole characters")
}

/// Bidirectional overrides, embeddings and isolates, the byte order mark, and Unicode's noncharacters.
pub fn is_hidden(character: char) -> bool {
    matches!(character, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{FEFF}' | '\u{FDD0}'..='\u{FDEF}')
        || u32::from(character) & 0xFFFE == 0xFFFE
}
