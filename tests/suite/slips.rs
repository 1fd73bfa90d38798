//! Slips of the hand, planted where it is known: the finding points at the place.

use std::collections::BTreeMap;
use std::path::Path;

use levelcup::language::Dictionary;
use levelcup::recipe::{LineReader, read};
use levelcup::source::Source;
use levelcup::workspace::Site;

/// A slip: the text with it, and the byte where the hand slipped.
struct Slip {
    text: String,
    at: usize,
}

/// How exactly a finding must point.
#[derive(Clone, Copy, PartialEq)]
enum Aim {
    /// At the very sign.
    Sign,
    /// At the line.
    Line,
}

fn demo() -> Vec<String> {
    let mut paths: Vec<_> = std::fs::read_dir("recipes").unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
    paths.sort();
    paths.iter().map(|path: &std::path::PathBuf| std::fs::read_to_string(path as &Path).unwrap()).collect()
}

/// Start and text of each line.
fn lines(text: &str) -> Vec<(usize, &str)> {
    let mut start = 0;
    text.split_inclusive('\n')
        .map(|line| {
            let at = start;
            start += line.len();
            (at, line.trim_end_matches('\n'))
        })
        .collect()
}

fn indent(line: &str) -> usize {
    line.len() - line.trim_start().len()
}

/// Without a sign that closes what `open` opens on the same line.
fn unclosed(text: &str, open: char, close: char) -> Vec<Slip> {
    let one = |(start, line): &(usize, &str)| {
        let last = line.rfind(close)?;
        // Quotes come in pairs; of brackets, lines with one alone are taken.
        let first =
            if open == close { line[..last].rfind(open)? } else { line.find(open).filter(|first| *first < last)? };
        let whole = open == close || line[first..].matches(open).count() == 1;
        let mut text = text.to_owned();
        text.remove(start + last);
        whole.then_some(Slip { text, at: start + first })
    };
    lines(text).iter().filter_map(one).collect()
}

/// With a line changed, pointing at a byte of it.
fn changed(text: &str, change: impl Fn(&str) -> Option<(String, usize)>) -> Vec<Slip> {
    let one = |(start, line): &(usize, &str)| {
        let (new, at) = change(line)?;
        let text = format!("{}{new}{}", &text[..*start], &text[start + line.len()..]);
        Some(Slip { text, at: start + at })
    };
    lines(text).iter().filter_map(one).collect()
}

/// A key of a block: its start and its end in the line.
fn key(line: &str) -> Option<(usize, usize)> {
    let start = line.len() - line.trim_start_matches(['-', ' ']).len();
    let end = start + line[start..].find(|c: char| !c.is_ascii_lowercase())?;
    (end > start && line[end..].starts_with(':')).then_some((start, end))
}

type Plant = fn(&str) -> Vec<Slip>;

const KINDS: [(&str, Aim, Plant); 12] = [
    ("a brace left open", Aim::Sign, |text| unclosed(text, '{', '}')),
    ("a bracket left open", Aim::Sign, |text| unclosed(text, '[', ']')),
    ("a quote left open", Aim::Sign, |text| unclosed(text, '"', '"')),
    ("a tab for the indent", Aim::Sign, |text| {
        changed(text, |line| (indent(line) > 1).then(|| (format!("\t{}", line.trim_start()), 0)))
    }),
    ("a tab behind the indent", Aim::Sign, |text| {
        changed(text, |line| {
            (indent(line) > 1).then(|| (format!("{}\t{}", &line[..indent(line)], line.trim_start()), indent(line)))
        })
    }),
    ("a tab before a key", Aim::Sign, |text| {
        changed(text, |line| key(line).filter(|(start, _)| *start == 0).map(|_| (format!("\t{line}"), 0)))
    }),
    ("no colon behind a key", Aim::Line, |text| {
        changed(text, |line| key(line).map(|(_, end)| (format!("{}{}", &line[..end], &line[end + 1..]), 0)))
    }),
    ("no space behind a colon", Aim::Line, |text| {
        changed(text, |line| {
            let (_, end) = key(line)?;
            let rest = line[end + 1..].strip_prefix(' ')?;
            Some((format!("{}{rest}", &line[..=end]), 0))
        })
    }),
    ("a second colon", Aim::Line, |text| {
        changed(text, |line| {
            let (_, end) = key(line)?;
            let value = line[end + 1..].trim();
            let plain = value.starts_with(char::is_alphabetic) && value.contains(' ');
            plain.then(|| (line.replacen(value, &value.replacen(' ', ": ", 1), 1), 0))
        })
    }),
    ("a space too few", Aim::Line, |text| {
        changed(text, |line| (indent(line) > 2 && !line.trim_start().starts_with('-')).then(|| (line[1..].into(), 0)))
    }),
    ("no comma", Aim::Line, |text| {
        changed(text, |line| {
            line.contains('{')
                .then(|| line.find(", time:").or_else(|| line.find(", oven:")))?
                .map(|at| (format!("{}{}", &line[..at], &line[at + 1..]), 0))
        })
    }),
    ("no opening brace", Aim::Line, |text| {
        changed(text, |line| line.trim_start().starts_with("- {").then(|| (line.replacen('{', "", 1), 0)))
    }),
];

/// Every slip of each kind is pointed at, at the sign or at the line.
#[test]
fn findings_point_where_the_hand_slipped() {
    let reader = LineReader::new(Dictionary::of("en-US").unwrap(), Site::default().cups.into());
    let recipes = demo();
    let mut counts: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    let mut wrong: Vec<String> = Vec::new();
    for (kind, aim, plant) in KINDS {
        for slip in recipes.iter().flat_map(|text| plant(text)) {
            let source = Source::new("a.yaml", slip.text);
            let (recipe, findings) = read(source.clone(), "a", &reader);
            let Some(first) = findings.iter().min_by_key(|finding| finding.span.start) else {
                // Some slips are another sound text.
                assert!(recipe.is_some());
                continue;
            };
            let (found, wanted) = (source.place(first.span.start), source.place(slip.at));
            let right = found.line == wanted.line && (aim == Aim::Line || found.column == wanted.column);
            let (all, good) = counts.entry(kind).or_default();
            *all += 1;
            *good += usize::from(right);
            if !right {
                let line = source.text().lines().nth(wanted.line - 1).unwrap_or_default();
                wrong.push(format!("{kind}: {line}\n   wanted {wanted:?}, found {found:?}: {}", first.message));
            }
        }
    }
    let all: usize = counts.values().map(|(all, _)| all).sum();
    assert!(all >= 600, "{all} slips are too few");
    assert!(
        wrong.is_empty(),
        "{} of {all} wrong; {counts:#?}\n{}",
        wrong.len(),
        wrong[..wrong.len().min(40)].join("\n")
    );
}
