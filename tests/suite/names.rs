//! Names and the rows they must find, or must not: `tests/names/names.tsv`.

use levelcup::pantry::Pantry;

#[test]
fn the_table_of_names() {
    let pantry = Pantry::embedded();
    let mut wrong = Vec::new();
    for row in include_str!("../names/names.tsv").lines().filter(|row| !row.starts_with('#')) {
        let (name, wanted) = row.split_once('\t').unwrap();
        let (name, more) = name.split_once(", ").unwrap_or((name, ""));
        let found = pantry.find_with(name, more).map(|found| found.id.as_str());
        let right = match wanted.strip_prefix('!') {
            Some(other) => found != Some(other),
            None => found.unwrap_or("-") == wanted,
        };
        if !right {
            wrong.push(format!("{row}: {found:?}"));
        }
    }
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

/// How many names of `tests/names/cooks.tsv` are known; it may only rise.
const COOKS_NAMES_KNOWN: usize = 834;

#[test]
fn names_as_cooks_write_them() {
    let pantry = Pantry::embedded();
    let (mut known, mut wrong) = (0, Vec::new());
    for row in include_str!("../names/cooks.tsv").lines().filter(|row| !row.starts_with('#')) {
        let (name, wanted) = row.split_once('\t').unwrap();
        let (name, more) = name.split_once(", ").unwrap_or((name, ""));
        match pantry.find_with(name, more).map(|found| found.id.as_str()) {
            Some(found) if found == wanted => known += 1,
            Some(found) => wrong.push(format!("{row}: {found}")),
            None => println!("{name}: not known"),
        }
    }
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
    assert!(known >= COOKS_NAMES_KNOWN, "{known} known, {COOKS_NAMES_KNOWN} were");
}
