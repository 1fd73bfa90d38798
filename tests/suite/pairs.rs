//! Stated pairs, judged as a trade reader would: the tables in `tests/pairs/`.

use std::fmt::Write;

use levelcup::kitchen::Kitchen;
use levelcup::measure::{Dictionary, Standard};
use levelcup::pantry::Pantry;
use levelcup::proof::proof;
use levelcup::recipe::{LineReader, read};
use levelcup::source::Source;
use levelcup::workspace::Site;

#[test]
fn the_tables_of_pairs() {
    let kitchen = Kitchen::new(Pantry::embedded(), &Site::default()).unwrap();
    let lines = LineReader::new(Dictionary::of("en-US").unwrap(), Standard::Customary);
    let mut wrong = Vec::new();
    for entry in std::fs::read_dir("tests/pairs").unwrap() {
        let table = std::fs::read_to_string(entry.unwrap().path()).unwrap();
        for row in table.lines().filter(|row| !row.starts_with('#') && !row.is_empty()) {
            let mut cells = row.split('\t');
            let mut cell = || cells.next().unwrap_or_default();
            let (line, verdict, slip) = (cell(), cell(), cell());
            let found = finding(line, &lines, &kitchen);
            let said = if found.is_some() { "disagree" } else { "agree" };
            let help = found.unwrap_or_default();
            if said != verdict || slip.strip_prefix("says ").is_some_and(|words| !help.contains(words)) {
                wrong.push(format!("{row}\n  {said}: {help}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}
