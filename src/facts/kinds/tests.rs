use std::collections::BTreeSet;

use super::groups::GROUPS;
use super::parts::{LineShare, Portions, amounts, parts};
use super::ranges::{ANY_DISH, SHARES, ranges, read};
use super::telling::{TELLING, WORDS};
use crate::facts::table::list;

/// Ranges for every kind, which nothing tells.
const UNTOLD: [&str; 2] = ["any", ANY_DISH];

fn rows(table: &'static str) -> impl Iterator<Item = (usize, Vec<&'static str>)> {
    let rows = table.lines().enumerate().filter(|(_, line)| !line.starts_with('#'));
    rows.map(|(at, line)| (at + 1, line.split('\t').collect()))
}

/// The amounts that a formula has which has every part.
fn known() -> BTreeSet<&'static str> {
    let shares: Vec<LineShare> = parts().map(LineShare::some).collect();
    let all = amounts(&shares, Portions { number: 4.0, is_the_dish: true }, |_| 1.0);
    all.into_keys().chain(parts()).collect()
}

/// What a kitchen may say a share of is weighed in a formula.
#[test]
fn parts_of_kinds_of_ones_own_are_known() {
    let known = known();
    let unknown: Vec<&str> = crate::pantry::PARTS.into_iter().filter(|part| !known.contains(part)).collect();
    assert!(unknown.is_empty(), "in src/pantry/kind.rs, but no part of a formula: {unknown:?}");
}

/// A range of a typing mistake is never read, and one of an unknown part is never looked at: nobody would be told.
#[test]
fn every_row_of_shares_is_read_and_of_known_amounts() {
    let known = known();
    let mut wrong = Vec::new();
    for (at, cells) in rows(SHARES) {
        let mut say = |what: String| wrong.push(format!("src/facts/kinds/shares.tsv:{at}: {what}"));
        let numbers: Vec<f64> = cells.iter().skip(3).take(4).filter_map(|cell| cell.parse().ok()).collect();
        if cells.len() != 9 || SHARES.lines().nth(at - 1).and_then(read).is_none() {
            say(format!("{} cells, of which {} are numbers; the first line says which", cells.len(), numbers.len()));
        }
        if !numbers.is_sorted() {
            say(format!("low, usual from, usual to and high are not in order: {numbers:?}"));
        }
        for name in cells.iter().skip(1).take(2).filter(|name| !known.contains(**name)) {
            say(format!("no part is called `{name}`; they stand in parts.tsv and groups.tsv"));
        }
        if let Some(other) = cells.get(7).filter(|cell| !["", "needed", "expected"].contains(cell)) {
            say(format!("`{other}` is neither `needed` nor `expected`"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_row_of_telling_and_of_groups_is_of_known_parts() {
    let known = known();
    let mut wrong = Vec::new();
    for (at, cells) in rows(TELLING) {
        if cells.len() != 5 {
            wrong.push(format!("src/facts/kinds/telling.tsv:{at}: {} cells, not 5", cells.len()));
        }
        let never = list(cells.get(1).copied().unwrap_or_default()).filter(|part| !known.contains(part));
        wrong.extend(never.map(|part| format!("src/facts/kinds/telling.tsv:{at}: no part is called `{part}`")));
    }
    for (at, cells) in rows(GROUPS) {
        let [what @ ("sum" | "covers" | "list"), name, of] = cells[..] else {
            wrong.push(format!("src/facts/kinds/groups.tsv:{at}: not what, name and parts"));
            continue;
        };
        let unknown = list(of).filter(|part| !known.contains(part));
        wrong.extend(unknown.map(|part| format!("src/facts/kinds/groups.tsv:{at}: no part is called `{part}`")));
        if what == "covers" && !known.contains(name) {
            wrong.push(format!("src/facts/kinds/groups.tsv:{at}: no amount is called `{name}`"));
        }
    }
    let does = rows(WORDS).filter(|(_, cells)| !["silent", "without", "behind"].contains(&cells[0]));
    wrong.extend(does.map(|(at, cells)| format!("src/facts/kinds/words.tsv:{at}: nothing asks for `{}`", cells[0])));
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn shares_and_telling_hold_the_same_kinds() {
    let of = |table: &'static str| -> BTreeSet<&str> { rows(table).map(|(_, cells)| cells[0]).collect() };
    let (shares, telling) = (of(SHARES), of(TELLING));
    let untold = shares.difference(&telling).filter(|kind| !UNTOLD.contains(kind));
    let mut wrong: Vec<String> = untold.map(|kind| format!("telling.tsv has no row of `{kind}`")).collect();
    wrong.extend(telling.difference(&shares).map(|kind| format!("shares.tsv has no row of `{kind}`")));
    let mut seen = BTreeSet::new();
    let twice = rows(TELLING).filter(|(_, cells)| !seen.insert(cells[0]));
    wrong.extend(twice.map(|(at, cells)| format!("telling.tsv:{at}: `{}` stands twice", cells[0])));
    assert!(wrong.is_empty(), "in src/facts/kinds/:\n{}", wrong.join("\n"));
}

/// `KINDS=FILE cargo test --lib kinds_of_a_file -- --ignored --nocapture` prints what each component of a recipe is taken for,
/// and what is strange in it.
#[test]
#[ignore = "prints, for whoever works on the tables"]
fn kinds_of_a_file() {
    let Ok(path) = std::env::var("KINDS") else { return };
    let tag = if path.contains("/fr/") { "fr" } else { "en-US" };
    let site = crate::workspace::Site { language: tag.into(), ..Default::default() };
    let kitchen = crate::kitchen::Kitchen::new(crate::pantry::Pantry::embedded(), &site).unwrap();
    let reader = crate::recipe::LineReader::new(crate::language::Dictionary::of(tag).unwrap(), site.cups.into());
    let source = crate::source::Gate::anywhere().source(std::path::Path::new(&path), "a.yaml").unwrap();
    let recipe = crate::recipe::read(source, "a", &reader).0.unwrap();
    let facts = crate::facts::Facts::of(&recipe, &kitchen);
    for (component, formula) in recipe.components.iter().zip(facts.formulas()) {
        let Some(formula) = formula else {
            eprintln!("{}: a line cannot be weighed", component.name);
            continue;
        };
        eprintln!("{}: {:?}", component.name, formula.kinds);
        for (kind, range) in formula.kinds.iter().flat_map(|kind| ranges(kind).iter().map(move |range| (kind, range))) {
            let share = range.share(&formula.own.amounts).unwrap_or_default();
            if range.strangeness(share) > 0.0 {
                eprintln!(
                    "  {kind}: {} {share:.2} % of {}, strange by {:.2}",
                    range.part,
                    range.base,
                    range.strangeness(share)
                );
            }
        }
    }
}
