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
