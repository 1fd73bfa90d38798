use super::reading::{READING, ReadingFault};
use super::rules::RULES;
use crate::source::Level;
use crate::workspace::RuleName;

/// What there is to know of a rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Explained {
    /// Its name.
    pub name: &'static str,
    /// Its level where the site says nothing else.
    pub level: Level,
    /// Whether a recipe or site can overrule it.
    pub optional: bool,
    /// Its five parts, each a paragraph that starts with its heading.
    pub parts: Vec<String>,
}

/// Every rule and every reading fault, by name.
pub fn explained() -> Vec<Explained> {
    let rules = RULES.iter().map(|rule| Explained {
        name: rule.name,
        level: rule.level,
        optional: true,
        parts: paragraphs(&first_comment(rule.source)),
    });
    let reading = READING.iter().map(|ReadingFault { name, level, text }| Explained {
        name,
        level: *level,
        optional: false,
        parts: paragraphs(text),
    });
    let mut all: Vec<Explained> = rules.chain(reading).collect();
    all.sort_by_key(|one| one.name);
    all
}

/// The names of all of them.
pub fn names() -> Vec<RuleName> {
    let rules = RULES.iter().map(|rule| RuleName { name: rule.name, optional: true });
    rules.chain(READING.iter().map(|fault| RuleName { name: fault.name, optional: false })).collect()
}

/// The rule of a name.
pub fn explain(name: &str) -> Option<Explained> {
    explained().into_iter().find(|one| one.name == name)
}

/// The rule whose name is most like one that is none.
pub(super) fn nearest(name: &str) -> Option<&'static str> {
    let scored = explained().into_iter().map(|one| (strsim::osa_distance(name, one.name), one.name));
    scored.min().filter(|(distance, near)| *distance <= near.len() / 3).map(|(_, near)| near)
}

/// The comment at the head of a file, without its marks.
fn first_comment(source: &str) -> String {
    let lines = source.lines().map_while(|line| line.strip_prefix("//!"));
    lines.map(|line| line.strip_prefix(' ').unwrap_or(line)).collect::<Vec<_>>().join("\n")
}

/// Paragraphs, each on one line.
fn paragraphs(text: &str) -> Vec<String> {
    let joined = |paragraph: &str| paragraph.split_whitespace().collect::<Vec<_>>().join(" ");
    text.split("\n\n").map(joined).filter(|paragraph| !paragraph.is_empty()).collect()
}

/// The part of `recipes/README.md` on the rules, as Markdown.
pub fn reference() -> String {
    let mut page = String::new();
    for rule in explained() {
        let fixed = if rule.optional { "" } else { "; the file cannot be used before it is mended" };
        page.push_str(&format!("\n### `{}`\n\n{}{fixed}.\n", rule.name, level(rule.level)));
        for part in &rule.parts {
            page.push_str(&format!("\n{part}\n"));
        }
    }
    page
}

fn level(level: Level) -> &'static str {
    match level {
        Level::Error => "An error",
        Level::Warning => "A warning",
        Level::Note => "A note",
    }
}

impl std::fmt::Display for Explained {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        writeln!(f, "{} ({})", self.name, self.level)?;
        self.parts.iter().try_for_each(|part| write!(f, "\n{part}\n"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEADINGS: [&str; 5] = ["What it finds:", "Why it matters:", "Example:", "Instead:", "Source:"];

    #[test]
    fn the_nearest_name_is_offered_where_one_is_near() {
        assert_eq!(nearest("ingredient-unsued"), Some("ingredient-unused"));
        assert_eq!(nearest("xyzzy"), None);
    }

    #[test]
    fn every_rule_is_explained_in_five_parts_under_its_own_name() {
        let all = explained();
        for rule in &all {
            assert_eq!(rule.parts.len(), HEADINGS.len(), "{}: {:#?}", rule.name, rule.parts);
            for (part, heading) in rule.parts.iter().zip(HEADINGS) {
                assert!(part.starts_with(heading) && part.len() > heading.len() + 3, "{}: {part}", rule.name);
            }
        }
        assert!(all.windows(2).all(|two| two[0].name < two[1].name), "a name is used twice");
        assert!(RULES.windows(2).all(|two| two[0].name < two[1].name), "the table is in the order of the names");
    }
}
