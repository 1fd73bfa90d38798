use pulldown_cmark::{Event, Parser, Tag, TagEnd};

use super::text::{Ampersands, clean_text, guard_line_start, push_markdown};
use crate::text::{escaped, web_address};

/// Inline Markdown from a recipe as HTML: emphasis, code and links only.
///
/// Raw HTML is shown as the text it is; a link that is not http(s) or mailto, and a picture, leave their text.
pub fn inline_html(markdown: &str) -> String {
    let mut html = String::with_capacity(markdown.len());
    walk(markdown, |piece| match piece {
        Piece::Text(text) => html.push_str(&escaped(text)),
        Piece::Code(code) => html.push_str(&format!("<code>{}</code>", escaped(code))),
        Piece::Emphasis(start) => html.push_str(if start { "<em>" } else { "</em>" }),
        Piece::Strong(start) => html.push_str(if start { "<strong>" } else { "</strong>" }),
        Piece::LinkStart(address) => html.push_str(&format!("<a href=\"{}\">", escaped(address))),
        Piece::LinkEnd(_) => html.push_str("</a>"),
    });
    html
}

/// Inline Markdown from a recipe as Markdown that holds emphasis, code and links only.
///
/// Made anew from what was read, so that nothing in it can be read as anything else: no HTML, no block, no other link.
pub fn inline_markdown(markdown: &str) -> String {
    let mut inline = String::with_capacity(markdown.len());
    walk(markdown, |piece| match piece {
        Piece::Text(text) => push_markdown(&mut inline, text, Ampersands::All),
        // Nothing can be escaped in a code span, and a site generator may read braces even there.
        Piece::Code(code) if code.contains(['{', '$']) => push_markdown(&mut inline, code, Ampersands::All),
        Piece::Code(code) => inline.push_str(&code_span(code)),
        Piece::Emphasis(_) => inline.push('*'),
        Piece::Strong(_) => inline.push_str("**"),
        Piece::LinkStart(_) => {
            // An exclamation mark before a link would make a picture of it.
            if inline.ends_with('!') {
                inline.insert(inline.len() - 1, '\\');
            }
            inline.push('[');
        }
        Piece::LinkEnd(address) => inline.push_str(&format!("]({address})")),
    });
    guard_line_start(inline)
}

enum Piece<'a> {
    Text(&'a str),
    Code(&'a str),
    Emphasis(bool),
    Strong(bool),
    LinkStart(&'a str),
    LinkEnd(&'a str),
}

fn walk(markdown: &str, mut take: impl FnMut(Piece<'_>)) {
    // On one line and with its start guarded the text can only be a paragraph.
    let line = guard_line_start(clean_text(markdown));
    let mut links: Vec<Option<String>> = Vec::new();
    for event in Parser::new(&line) {
        match event {
            Event::Text(text) | Event::Html(text) | Event::InlineHtml(text) => take(Piece::Text(&clean_ends(&text))),
            Event::Code(code) => take(Piece::Code(&code)),
            Event::SoftBreak | Event::HardBreak => take(Piece::Text(" ")),
            Event::Start(Tag::Emphasis) => take(Piece::Emphasis(true)),
            Event::End(TagEnd::Emphasis) => take(Piece::Emphasis(false)),
            Event::Start(Tag::Strong) => take(Piece::Strong(true)),
            Event::End(TagEnd::Strong) => take(Piece::Strong(false)),
            Event::Start(Tag::Link { dest_url, .. }) => {
                let address = web_address(&dest_url);
                if let Some(address) = &address {
                    take(Piece::LinkStart(address));
                }
                links.push(address);
            }
            Event::End(TagEnd::Link) => {
                if let Some(address) = links.pop().flatten() {
                    take(Piece::LinkEnd(&address));
                }
            }
            _ => {}
        }
    }
}

/// Text from a character reference may hold a line break or a hidden character; the spaces at its ends count.
fn clean_ends(text: &str) -> String {
    let leading = if text.starts_with(char::is_whitespace) { " " } else { "" };
    let trailing = if text.ends_with(char::is_whitespace) && !text.trim().is_empty() { " " } else { "" };
    format!("{leading}{}{trailing}", clean_text(text))
}

/// A code span fenced by one more backtick than any run inside.
fn code_span(code: &str) -> String {
    let longest = code.split(|character| character != '`').map(str::len).max().unwrap_or(0);
    let fence = "`".repeat(longest + 1);
    let pad = if code.starts_with('`') || code.ends_with('`') { " " } else { "" };
    format!("{fence}{pad}{code}{pad}{fence}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn case(markdown: &str, html: &str, again: &str) {
        assert_eq!(inline_html(markdown), html, "HTML of {markdown:?}");
        assert_eq!(inline_markdown(markdown), again, "Markdown of {markdown:?}");
    }

    #[test]
    fn emphasis_code_and_links_stay() {
        case("Beat *until* **stiff**.", "Beat <em>until</em> <strong>stiff</strong>.", "Beat *until* **stiff**.");
        case("Set the dial to `3`.", "Set the dial to <code>3</code>.", "Set the dial to `3`.");
        case("[ring](https://a.example/)", "<a href=\"https://a.example/\">ring</a>", "[ring](https://a.example/)");
    }

    #[test]
    fn everything_else_is_text() {
        case("<b>x</b>", "&lt;b&gt;x&lt;/b&gt;", "\\<b\\>x\\</b\\>");
        case("<div>x", "&lt;div&gt;x", "\\<div\\>x");
        case("[x](javascript:alert(1))", "x", "x");
        case("![x](https://a.example/x.png)", "x", "x");
        case(
            "Mix\\![ring](https://a.example/)",
            "Mix!<a href=\"https://a.example/\">ring</a>",
            "Mix\\![ring](https://a.example/)",
        );
        case("# heading", "# heading", "\\# heading");
        case("1. first", "1. first", "1\\. first");
        case("salt & pepper &lt;", "salt &amp; pepper &lt;", "salt \\& pepper \\<");
    }
}
