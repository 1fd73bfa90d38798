//! Sound recipes with one slip made on purpose: which share of each kind of slip the proof finds; it may only rise.

use levelcup::source::Finding;

use super::scales;
use super::scores::{about_heat, found_in, language_of};

/// The kinds of slip, and the least share of each that is found, in per cent.
const RATES: [(&str, usize); 12] = [
    ("salt x10", 95),
    ("salt x3", 55),
    ("raiser x10", 91),
    ("yeast /10", 70),
    ("gelling x10", 100),
    ("main x10", 91),
    ("main /10", 74),
    ("oz for g", 79),
    ("swapped", 63),
    ("deleted", 50),
    ("C under F", 92),
    ("F under C", 96),
];

/// The same of the second set.
const RATES_2: [(&str, usize); 12] = [
    ("salt x10", 83),
    ("salt x3", 50),
    ("raiser x10", 0),
    ("yeast /10", 25),
    ("gelling x10", 0),
    ("main x10", 68),
    ("main /10", 56),
    ("oz for g", 60),
    ("swapped", 26),
    ("deleted", 49),
    ("C under F", 91),
    ("F under C", 100),
];

/// The same of the third set.
const RATES_3: [(&str, usize); 12] = [
    ("salt x10", 87),
    ("salt x3", 62),
    ("raiser x10", 0),
    ("yeast /10", 50),
    ("gelling x10", 75),
    ("main x10", 71),
    ("main /10", 53),
    ("oz for g", 58),
    ("swapped", 37),
    ("deleted", 46),
    ("C under F", 89),
    ("F under C", 66),
];

/// An ingredient line of a file: its place, what stands before the number, the number and what stands behind it.
struct Amount<'t> {
    line: usize,
    before: &'t str,
    grams: f64,
    behind: &'t str,
}

fn amounts(lines: &[&'static str]) -> Vec<Amount<'static>> {
    let read = |(line, text): (usize, &&'static str)| {
        let start = text.find(|c: char| c.is_ascii_digit()).filter(|start| text[..*start].trim_start() == "- ")?;
        let end = start + text[start..].find(|c: char| !(c.is_ascii_digit() || c == '.'))?;
        let behind = text[end..].starts_with(" g ").then_some(&text[end..])?;
        Some(Amount { line, before: &text[..start], grams: text[start..end].parse().ok()?, behind })
    };
    lines.iter().enumerate().filter_map(read).collect()
}

fn is(amount: &Amount<'_>, words: &[&str]) -> bool {
    words.iter().any(|word| amount.behind.contains(word))
}

/// The amounts that stand together, in one list.
fn lists(amounts: Vec<Amount<'static>>) -> Vec<Vec<Amount<'static>>> {
    let mut lists: Vec<Vec<Amount<'static>>> = Vec::new();
    for amount in amounts {
        match lists.last_mut() {
            Some(list) if list.last().is_some_and(|last| last.line + 1 == amount.line) => list.push(amount),
            _ => lists.push(vec![amount]),
        }
    }
    lists
}

fn with(lines: &[&str], changes: &[(&Amount<'_>, f64)]) -> String {
    let mut lines: Vec<String> = lines.iter().map(|line| (*line).to_string()).collect();
    for (amount, grams) in changes {
        let grams = if *grams < 10.0 { format!("{grams:.1}") } else { format!("{grams:.0}") };
        lines[amount.line] = format!("{}{grams}{}", amount.before, amount.behind);
    }
    lines.join("\n")
}

/// Every slip of every kind in a file.
fn slips(lines: &[&'static str]) -> Vec<(&'static str, String)> {
    let mut made = Vec::new();
    for list in lists(amounts(lines)) {
        let heaviest = list.iter().map(|amount| amount.grams).fold(0.0, f64::max);
        for amount in &list {
            let mut times = |kind, factor: f64| made.push((kind, with(lines, &[(amount, amount.grams * factor)])));
            if is(amount, &[" salt"]) && !is(amount, &["salted", "celery salt"]) {
                times("salt x10", 10.0);
                times("salt x3", 3.0);
            }
            if is(amount, &["baking powder", "baking soda", "bicarbonate"]) {
                times("raiser x10", 10.0);
            }
            if is(amount, &["yeast"]) {
                times("yeast /10", 0.1);
            }
            if is(amount, &["gelatin", "agar", "pectin"]) {
                times("gelling x10", 10.0);
            }
            if amount.grams >= heaviest * 0.5 && list.len() > 2 {
                times("main x10", 10.0);
                times("main /10", 0.1);
                times("oz for g", 1.0 / 28.35);
            }
        }
        let main: Vec<&Amount<'_>> = list.iter().filter(|amount| amount.grams >= heaviest * 0.05).collect();
        for two in main.windows(2).filter(|two| two[0].grams.max(two[1].grams) > 2.0 * two[0].grams.min(two[1].grams)) {
            made.push(("swapped", with(lines, &[(two[0], two[1].grams), (two[1], two[0].grams)])));
        }
        if list.len() > 2 {
            for gone in &list {
                let kept = lines.iter().enumerate().filter(|(at, _)| *at != gone.line).map(|(_, line)| *line);
                made.push(("deleted", kept.collect::<Vec<_>>().join("\n")));
            }
        }
    }
    made
}

/// `MISSED=salt cargo test --test suite mutants -- --nocapture` prints those of a kind that are missed.
#[test]
fn slips_in_sound_recipes_are_found() {
    rates("tests/scores/sound", &RATES);
    rates("tests/scores/sound-2", &RATES_2);
    rates("tests/scores/sound-3", &RATES_3);
}

fn rates(folder: &str, least: &[(&str, usize)]) {
    let mut counts: Vec<(usize, usize)> = vec![(0, 0); least.len()];
    let entries = walkdir::WalkDir::new(folder).sort_by_file_name();
    for entry in entries.into_iter().map(Result::unwrap).filter(|entry| entry.file_type().is_file()) {
        let text: &'static str = Box::leak(std::fs::read_to_string(entry.path()).unwrap().into_boxed_str());
        let lines: Vec<&'static str> = text.lines().collect();
        let under = |kind, own, other| scales::slips(&lines, own, other).into_iter().map(move |text| (kind, text));
        let scales = under("C under F", 'C', 'F').chain(under("F under C", 'F', 'C'));
        for (kind, slipped) in slips(&lines).into_iter().chain(scales) {
            let at = least.iter().position(|(known, _)| *known == kind).unwrap();
            counts[at].0 += 1;
            // A recipe in which something else is found would count for every slip of a scale.
            let told = |found: &Finding| !kind.contains("under") || about_heat(found);
            let caught = found_in(&slipped, language_of(entry.path())).iter().any(told);
            counts[at].1 += usize::from(caught);
            if !caught && std::env::var("MISSED").is_ok_and(|wanted| kind.starts_with(&wanted)) {
                let changed = slipped.lines().zip(&lines).find(|(one, other)| one != *other);
                eprintln!("missed {kind} in {}: {changed:?}", entry.path().display());
            }
        }
    }
    let mut fallen = Vec::new();
    for ((kind, least), (made, caught)) in least.iter().zip(counts) {
        let rate = caught * 100 / made.max(1);
        eprintln!("{folder}: {kind}: {caught} of {made}, {rate} %");
        if rate < *least {
            fallen.push(format!("{kind}: {rate} %, and was {least} %"));
        }
    }
    assert!(fallen.is_empty(), "{}", fallen.join("; "));
}
