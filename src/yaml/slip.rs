//! Where the hand slipped in a text that is not YAML. A parser stops where it cannot go on, which may be lines below the
//! bracket that was left open; a person wants to see the bracket.

use crate::source::{Finding, Span};

/// A slip, with what to say of it.
struct SyntaxSlip {
    span: Span,
    message: String,
    help: String,
}

/// The finding of the first slip in a text that was read as far as a byte; `None` where none is seen. `is_key` tells the
/// keys of the format.
pub(super) fn slip(text: &str, read: usize, is_key: &dyn Fn(&str) -> bool) -> Option<Finding> {
    let slip = Looking { text, is_key }.first()?;
    // What comes after the line at which reading stopped did not stop it; of a text that may go on in the next line,
    // it stops at its start.
    let line_end = text.get(read..)?.match_indices('\n').nth(1).map_or(text.len(), |(end, _)| read + end);
    let SyntaxSlip { span, message, help } = slip;
    (span.start <= line_end)
        .then(|| Finding::error("yaml-syntax", span, format!("this is not YAML: {message}")).help(help))
}

struct Looking<'t> {
    text: &'t str,
    is_key: &'t dyn Fn(&str) -> bool,
}

/// How far a value in quotes or brackets reaches.
enum End {
    /// To one past its last byte.
    At(usize),
    /// It has none.
    Missing(SyntaxSlip),
}

impl Looking<'_> {
    /// Goes through the lines as YAML does, from value to value.
    fn first(&self) -> Option<SyntaxSlip> {
        let mut at = 0;
        // Of a text of several lines, the indent of its key: it goes on as long as lines stand further in.
        let mut block: Option<usize> = None;
        while at < self.text.len() {
            let end = self.line_end(at);
            let line = &self.text[at..end];
            let indent = line.len() - line.trim_start_matches([' ', '\t']).len();
            let blank = line.trim().is_empty() || line.trim_start().starts_with('#');
            if blank || block.is_some_and(|key| line[..indent].len() > key) {
                at = end + 1;
                continue;
            }
            block = None;
            if let Some(tab) = line[..indent].find('\t') {
                return Some(tabbed(at + tab));
            }
            match self.line(at, indent, &mut block) {
                Ok(next) => at = self.line_end(next.min(self.text.len())) + 1,
                Err(slip) => return Some(slip),
            }
        }
        None
    }

    /// Goes over a line, and over the lines that its value goes on in; where it ends.
    fn line(&self, start: usize, indent: usize, block: &mut Option<usize>) -> Result<usize, SyntaxSlip> {
        let end = self.line_end(start);
        let mut at = start + indent;
        while let Some(rest) =
            self.text[at..end].strip_prefix('-').filter(|rest| rest.is_empty() || rest.starts_with([' ', '\t']))
        {
            let blank = rest.len() - rest.trim_start_matches([' ', '\t']).len();
            if let Some(tab) = rest[..blank].find('\t') {
                return Err(tabbed(at + 1 + tab));
            }
            at = end - rest.len() + blank;
        }
        let column = at - start;
        let value = self.behind_key(at, end)?;
        let written = self.text[value..end].trim_start();
        let first = end - written.len();
        match written.chars().next() {
            Some('{' | '[') => self.ended(self.brackets(first, indent), end),
            Some('"' | '\'') => self.ended(self.quoted(first, indent), end),
            Some('|' | '>') => {
                *block = Some(if value > at { column } else { indent });
                Ok(end)
            }
            _ => self.plain(first, end, value > at).map_or(Ok(end), Err),
        }
    }

    /// Where the value begins on a line: behind its key, where it has one.
    fn behind_key(&self, at: usize, end: usize) -> Result<usize, SyntaxSlip> {
        let line = &self.text[at..end];
        let word =
            line.len() - line.trim_start_matches(|c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-')).len();
        let (key, rest) = line.split_at(word);
        if rest.starts_with(": ") || rest == ":" || rest.starts_with(":\t") {
            return Ok(at + word + 1);
        }
        let span = at..at + word;
        if (self.is_key)(key) && rest.starts_with(':') {
            return Err(SyntaxSlip {
                span: span.start..span.end + 1,
                message: format!("no space stands behind `{key}:`"),
                help: format!("write `{key}: ` and the text behind it"),
            });
        }
        let alone = (rest.is_empty() || rest.starts_with(' ')) && !rest.contains(": ");
        if (self.is_key)(key) && alone && self.is_among_keys(at, end) {
            return Err(SyntaxSlip {
                span,
                message: format!("no colon stands behind `{key}`"),
                help: format!("write `{key}:`; or, if it is the text of the line above, set it further in"),
            });
        }
        Ok(at)
    }

    /// Whether what stands here would be a key: it begins a line, or the next line has a key below it.
    fn is_among_keys(&self, at: usize, end: usize) -> bool {
        let start = self.text[..at].rfind('\n').map_or(0, |before| before + 1);
        let before = &self.text[start..at];
        let next = self.text.get(end + 1..).unwrap_or_default().lines().find(|line| !line.trim().is_empty());
        let below = next.and_then(|line| line.strip_prefix(&" ".repeat(before.len())));
        let keyed = |text: &str| {
            let word = text.trim_start_matches(|c: char| c.is_ascii_lowercase());
            word.len() < text.len() && word.starts_with(':')
        };
        before.trim().is_empty() || below.is_some_and(keyed)
    }

    /// A text without quotes holds no colon with a space behind it.
    fn plain(&self, at: usize, end: usize, keyed: bool) -> Option<SyntaxSlip> {
        let text = self.text[at..end].split(" #").next().unwrap_or_default();
        let colon = text.find(": ").or_else(|| text.ends_with(':').then(|| text.len() - 1))?;
        // The first may be that of a key which is no word of the format.
        let key = !keyed && !text[..colon].contains(' ');
        let colon = if key { colon + 2 + text.get(colon + 2..)?.find(": ")? } else { colon };
        let brace = text.trim_end().ends_with('}') && !text.contains('{');
        let help = if brace { "put `{` in front of the first key" } else { "put the text in quotes" };
        Some(SyntaxSlip {
            span: at + colon..at + colon + 1,
            message: "a second `: ` stands in this text".into(),
            help: help.into(),
        })
    }

    /// What stands behind a value that is at its end, on its line.
    fn ended(&self, value: End, line_end: usize) -> Result<usize, SyntaxSlip> {
        let end = match value {
            End::At(end) => end,
            End::Missing(slip) => return Err(slip),
        };
        let line_end = line_end.max(self.line_end(end));
        let behind = &self.text[end..line_end];
        let written = behind.trim_start();
        // A key may stand in quotes.
        if written.is_empty() || written.starts_with('#') || written.starts_with(':') {
            return Ok(line_end);
        }
        let at = line_end - written.len();
        let sign = self.text[..end].chars().next_back().unwrap_or('"');
        Err(SyntaxSlip {
            span: at..at + written.chars().next().map_or(1, char::len_utf8),
            message: format!("something stands behind the `{sign}` that ends the value"),
            help: "take it out, or put the whole text in quotes".into(),
        })
    }

    /// Where a value in brackets ends; its block stands at an indent.
    fn brackets(&self, start: usize, indent: usize) -> End {
        let mut open: Vec<(usize, char)> = Vec::new();
        let mut at = start;
        // Whether a value may begin here, as one in quotes does.
        let mut begins = true;
        while let Some(sign) = self.text[at..].chars().next() {
            match sign {
                '{' | '[' if begins => open.push((at, sign)),
                '}' | ']' => match open.pop() {
                    Some((_, own)) if closing(own) == sign => {
                        if open.is_empty() {
                            return End::At(at + 1);
                        }
                    }
                    other => return End::Missing(unclosed(other.unwrap_or((start, '{')))),
                },
                '"' | '\'' if begins => match self.quoted(at, indent) {
                    End::At(end) => {
                        let rest = self.text[end..].trim_start_matches([' ', '\t', '\r']);
                        if !rest.is_empty() && !rest.starts_with([',', '}', ']', ':', '#', '\n']) {
                            return End::Missing(unclosed((at, sign)));
                        }
                        at = end;
                        begins = false;
                        continue;
                    }
                    missing => return missing,
                },
                '\n' if self.block_goes_on(at + 1, indent) => break,
                _ => {}
            }
            let colon = sign == ':' && self.text[at + 1..].starts_with([' ', '\n']);
            begins = match sign {
                ' ' | '\t' | '\n' | '\r' => begins,
                '{' | '[' | ',' => true,
                _ => colon,
            };
            at += sign.len_utf8();
        }
        End::Missing(unclosed(open.pop().unwrap_or((start, '{'))))
    }

    /// Where a value in quotes ends; its block stands at an indent.
    fn quoted(&self, start: usize, indent: usize) -> End {
        let quote = self.text[start..].chars().next().unwrap_or('"');
        let mut at = start + 1;
        while let Some(sign) = self.text[at..].chars().next() {
            let next = &self.text[at + sign.len_utf8()..];
            match sign {
                '\\' if quote == '"' => at += 1 + next.chars().next().map_or(0, char::len_utf8),
                '\'' if quote == '\'' && next.starts_with('\'') => at += 2,
                _ if sign == quote => return End::At(at + 1),
                '\n' if self.block_goes_on(at + 1, indent) => break,
                _ => at += sign.len_utf8(),
            }
        }
        End::Missing(unclosed((start, quote)))
    }

    /// Whether the next line that says something is one of the block again: no further in, and an item or a key.
    fn block_goes_on(&self, at: usize, indent: usize) -> bool {
        let line = self.text[at..].lines().find(|line| !line.trim().is_empty());
        let Some(line) = line else { return true };
        let text = line.trim_start();
        let word = text.trim_start_matches(|c: char| c.is_alphanumeric() || matches!(c, '_' | '-' | ' '));
        let entry = text.starts_with("- ") || (word.len() < text.len() && (word == ":" || word.starts_with(": ")));
        line.len() - text.len() <= indent && !text.starts_with(['}', ']']) && (entry || line.len() == text.len())
            || (entry && text.starts_with("- "))
    }

    fn line_end(&self, at: usize) -> usize {
        self.text[at..].find('\n').map_or(self.text.len(), |end| at + end)
    }
}

fn closing(open: char) -> char {
    match open {
        '{' => '}',
        '[' => ']',
        quote => quote,
    }
}

fn unclosed((at, sign): (usize, char)) -> SyntaxSlip {
    SyntaxSlip {
        span: at..at + 1,
        message: format!("this `{sign}` is never closed"),
        help: format!("put `{}` behind what belongs to it", closing(sign)),
    }
}

fn tabbed(at: usize) -> SyntaxSlip {
    SyntaxSlip {
        span: at..at + 1,
        message: "a tab stands here, and lines are set in by spaces".into(),
        help: "put spaces in its place; most editors can do so by themselves".into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Source;
    use crate::yaml::Format;
    use crate::yaml::parse::parse;

    /// Some of a recipe's keys.
    fn is_key(name: &str) -> bool {
        ["title", "makes", "steps", "do", "time", "what", "url"].contains(&name)
    }

    fn is_yaml(source: &Source) -> bool {
        let format = Format::new(&schemars::json_schema!(true), "a recipe", "start");
        parse(source, &format).is_ok_and(|(_, repeated)| repeated.is_empty())
    }

    fn first(text: &str) -> Option<String> {
        let slip = Looking { text, is_key: &is_key }.first()?;
        Some(format!("{}: {}", Source::new("", text).place(slip.span.start).line, slip.message))
    }

    /// Whatever is YAML has no slip in it, however it is written.
    #[test]
    fn sound_texts_have_no_slip() {
        let tricky = "# it's {open [ and \"so\n'title': \"Tart: the \\\"best\\\" {\"  # it's\nsummary: >-\n  makes one\n  \ttabbed: [\n  \
                      \"open\n\nmakes: it's 5\" across\nserves: 8\ntags: [a, 'b, [c', \"d]\",\n  e, it's]\nvideo: {\n  url: \
                      \"https://x.example/a#b\",\n  length: '12:40'\n}\nlinks:\n- what: |\n    a: b: c\n  url: https://x.example/\n\
                      - {what: x, url: \"https://x.example/\", for: gear}\ncomponents:\n  -   name: A\n      steps:\n      - \
                      makes it go on\n        over two lines, 12:40\n      - \"one\n\n        two\"\n      - {do: Mix., time: 5 min,\n         \
                      wait: 1 h} # it's\n      -\n        do: Bake.\n";
        assert!(is_yaml(&Source::new("a.yaml", tricky)));
        assert_eq!(first(tricky), None);
        let files = walkdir::WalkDir::new(".").into_iter().filter_map(Result::ok);
        let yaml = files.filter(|entry| {
            let path = entry.path();
            !path.starts_with("./target") && path.extension().is_some_and(|ending| ending == "yaml")
        });
        let mut read = 0;
        for entry in yaml {
            let source = crate::source::Gate::anywhere().source(entry.path(), "a.yaml");
            if let Ok(source) = source
                && is_yaml(&source)
            {
                read += 1;
                assert_eq!(first(source.text()), None, "{}", entry.path().display());
            }
        }
        assert!(read > 100, "{read}");
    }

    #[test]
    fn slips_are_told_by_their_own_name() {
        let case = |text: &str, wanted: &str| assert_eq!(first(text).as_deref(), Some(wanted), "{text}");
        case("a: \"x\" y\n", "1: something stands behind the `\"` that ends the value");
        case("steps:\n  - {do: x}}\n", "2: something stands behind the `}` that ends the value");
        case("steps:\n  - {do: [x}\n  - y\n", "2: this `[` is never closed");
        case("steps:\n  - {do: x,\n     time: 5 min\n  - y\n", "2: this `{` is never closed");
        case("title: 'tis the season\nmakes: x\n", "1: this `'` is never closed");
        case("title: a\nmakes one\n", "2: no colon stands behind `makes`");
        case("title: a\nmakes:one\n", "2: no space stands behind `makes:`");
        case("title: a: b\n", "1: a second `: ` stands in this text");
        case("steps:\n  -\tx\n", "2: a tab stands here, and lines are set in by spaces");
        case("title: {", "1: this `{` is never closed");
        case("title: \"", "1: this `\"` is never closed");
    }

    #[test]
    fn no_text_brings_it_down() {
        for text in
            ["", "-", "- ", "\t", "{", "é: {ü", "a: \"\\", "'", "\u{a0}: [", "a: |", "- - - [", "a:\r\n\tb: {\r\n"]
        {
            first(text);
        }
    }
}
