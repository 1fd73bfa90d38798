//! Enough of the template language to find which fields a template names.

/// A dotted name: `recipe.times.hands_on`.
#[derive(Clone, Debug)]
pub(super) struct Path {
    /// What stands before the first dot.
    pub(super) root: String,
    /// What stands behind it.
    pub(super) fields: Vec<Field>,
}

/// One field of a path and its place in the template, both from 1.
#[derive(Clone, Debug)]
pub(super) struct Field {
    pub(super) name: String,
    pub(super) line: usize,
    pub(super) column: usize,
}

/// What stands between `{{` and `}}`, or between `{%` and `%}`.
#[derive(Debug)]
pub(super) struct TemplateTag<'a> {
    statement: bool,
    words: Vec<TagWord<'a>>,
    /// Line and column of the tag's text, from 1.
    place: (usize, usize),
    text: &'a str,
}

#[derive(Debug, Clone, Copy)]
enum TagWord<'a> {
    /// A name with its dotted fields, and the byte at which it begins.
    Name(&'a str, usize),
    /// What stands between quotation marks.
    Quoted(&'a str),
    Sign(char),
}

/// The tags of a template in order; comments and raw text are passed over.
pub(super) fn tags(source: &str) -> Vec<TemplateTag<'_>> {
    let mut tags: Vec<TemplateTag<'_>> = Vec::new();
    let mut raw = false;
    let mut at = 0;
    while let Some(found) = source[at..].find('{') {
        let start = at + found;
        let close = match source.as_bytes().get(start + 1) {
            Some(b'{') => "}}",
            Some(b'%') => "%}",
            Some(b'#') => "#}",
            _ => {
                at = start + 1;
                continue;
            }
        };
        let Some(length) = source[start + 2..].find(close) else { break };
        let text = &source[start + 2..start + 2 + length];
        at = start + 2 + length + close.len();
        if close == "#}" {
            continue;
        }
        let tag = TemplateTag { statement: close == "%}", words: words(text), place: place(source, start + 2), text };
        match tag.keyword() {
            Some("raw") => raw = true,
            Some("endraw") => raw = false,
            _ if raw => {}
            _ => tags.push(tag),
        }
    }
    tags
}

impl<'a> TemplateTag<'a> {
    /// The statement's first word: `for`, `if`, `set`.
    pub(super) fn keyword(&self) -> Option<&'a str> {
        let mut names = self.words.iter().filter_map(|word| match word {
            TagWord::Name(name, _) => Some(*name),
            _ => None,
        });
        names.next().filter(|_| self.statement)
    }

    /// The template that an include or extends names.
    pub(super) fn calls(&self) -> Vec<String> {
        if !matches!(self.keyword(), Some("include" | "extends")) {
            return Vec::new();
        }
        let quoted = self.words.iter().filter_map(|word| match word {
            TagWord::Quoted(name) => Some((*name).to_owned()),
            _ => None,
        });
        quoted.collect()
    }

    /// All dotted names, but for those that the template asks whether they are there.
    pub(super) fn paths(&self) -> Vec<Path> {
        let mut paths = Vec::new();
        for (index, word) in self.words.iter().enumerate() {
            let TagWord::Name(name, at) = *word else { continue };
            let rest: Vec<&str> = self.words[index + 1..].iter().take(3).map(TagWord::text).collect();
            let asked = matches!(
                rest.as_slice(),
                ["is", "defined" | "undefined", ..] | ["is", "not", "defined" | "undefined"] | ["|", "default", ..]
            );
            if name.contains('.') && !asked {
                paths.push(self.path(name, at));
            }
        }
        paths
    }

    /// The name that a `for` gives each element, and the path it goes through if it is a path and nothing more.
    pub(super) fn loop_over(&self) -> (String, Option<Path>) {
        match self.words.as_slice() {
            [_, TagWord::Name(name, _), TagWord::Name("in", _), TagWord::Name(over, at)] => {
                ((*name).to_owned(), Some(self.path(over, *at)))
            }
            [_, TagWord::Name(name, _), ..] => ((*name).to_owned(), None),
            _ => (String::new(), None),
        }
    }

    /// The name that a `set` gives a value.
    pub(super) fn set_name(&self) -> Option<String> {
        match self.words.get(1) {
            Some(TagWord::Name(name, _)) => Some((*name).to_owned()),
            _ => None,
        }
    }

    /// Names that a list made within the tag gives its elements: `link` in `[link.what for link in group.links]`.
    pub(super) fn inner_names(&self) -> Vec<String> {
        if self.keyword() == Some("for") {
            return Vec::new();
        }
        let pairs = self.words.windows(2).filter_map(|pair| match pair {
            [TagWord::Name("for", _), TagWord::Name(name, _)] => Some((*name).to_owned()),
            _ => None,
        });
        pairs.collect()
    }

    fn path(&self, dotted: &str, at: usize) -> Path {
        let mut names = dotted.split('.');
        let root = names.next().unwrap_or_default();
        let mut from = at + root.len();
        let fields = names.map(|name| {
            let (line, column) = self.place_of(from + 1);
            from += 1 + name.len();
            Field { name: name.to_owned(), line, column }
        });
        Path { root: root.to_owned(), fields: fields.collect() }
    }

    fn place_of(&self, at: usize) -> (usize, usize) {
        let (line, column) = place(self.text, at);
        if line == 1 { (self.place.0, self.place.1 + column - 1) } else { (self.place.0 + line - 1, column) }
    }
}

impl<'a> TagWord<'a> {
    fn text(&self) -> &'a str {
        match self {
            TagWord::Name(name, _) => name,
            TagWord::Sign('|') => "|",
            _ => "",
        }
    }
}

fn words(text: &str) -> Vec<TagWord<'_>> {
    let mut words: Vec<TagWord<'_>> = Vec::new();
    let mut at = 0;
    // The minus of white space control is no word.
    let end = text.strip_suffix('-').map_or(text.len(), str::len);
    while let Some(first) = text[at..end].chars().next() {
        let rest = &text[at..end];
        let after_dot = matches!(words.last(), Some(TagWord::Sign('.' | '?')));
        let length = match first {
            '"' | '\'' | '`' => {
                let quoted = rest[1..].find(first).map_or(&rest[1..], |close| &rest[1..1 + close]);
                words.push(TagWord::Quoted(quoted));
                quoted.len() + 2
            }
            _ if first.is_ascii_alphabetic() || first == '_' => {
                let length = dotted_length(rest);
                // What follows a dot that follows a bracket is a field of something that only rendering can tell.
                words.push(if after_dot { TagWord::Sign('.') } else { TagWord::Name(&rest[..length], at) });
                length
            }
            '0'..='9' => rest.find(|other: char| !other.is_ascii_alphanumeric()).unwrap_or(rest.len()),
            _ => {
                if !(first.is_whitespace() || first == '-' && at == 0) {
                    words.push(TagWord::Sign(first));
                }
                first.len_utf8()
            }
        };
        at = (at + length).min(end);
    }
    words
}

/// Length of a name with its dotted fields; a field that may be missing (`?.`) ends it.
fn dotted_length(rest: &str) -> usize {
    let is_name = |character: char| character.is_ascii_alphanumeric() || character == '_';
    let mut length = 0;
    for name in rest.split('.') {
        let whole = name.find(|other| !is_name(other)).unwrap_or(name.len());
        if whole == 0 {
            return length - 1;
        }
        length += whole;
        if whole < name.len() {
            return length;
        }
        length += 1;
    }
    length - 1
}

fn place(source: &str, at: usize) -> (usize, usize) {
    let before = &source[..at];
    let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
    (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn paths_of(source: &str) -> Vec<String> {
        let found = tags(source).iter().flat_map(TemplateTag::paths).collect::<Vec<Path>>();
        let show = |path: &Path| {
            let fields = path.fields.iter().map(|field| format!(".{}@{}:{}", field.name, field.line, field.column));
            format!("{}{}", path.root, fields.collect::<String>())
        };
        found.iter().map(show).collect()
    }

    #[test]
    fn dotted_names_are_found_with_their_places() {
        assert_eq!(paths_of("{{ a.b }}"), ["a.b@1:6"]);
        assert_eq!(paths_of("x\n{%- if a.b.c -%}"), ["a.b@2:10.c@2:12"]);
        assert_eq!(paths_of("{{ <words.line line={x.y} /> }}"), ["words.line@1:11", "x.y@1:24"]);
        assert_eq!(paths_of("{# a.b #}{% raw %}{{ a.b }}{% endraw %}{{ \"a.b\" ~ 'c.d' }}"), [""; 0]);
        assert_eq!(paths_of("{{ a[0].b }} {{ a?.b }} {{ a.b is defined }} {{ a.b | default(value=1) }}"), [""; 0]);
        assert_eq!(paths_of("{{ a."), [""; 0]);
        assert_eq!(paths_of("{{ a. }}"), [""; 0]);
    }

    #[test]
    fn loops_name_what_they_go_through() {
        let tag = &tags("{%- for step in component.steps -%}")[0];
        let (name, over) = tag.loop_over();
        assert_eq!((name.as_str(), over.map(|path| path.root).as_deref()), ("step", Some("component")));
        assert!(tags("{% for tag in recipe.tags | reverse %}")[0].loop_over().1.is_none());
    }
}
