//! Ingredient lines, read as a person would: the tables in `tests/lines/`.

use std::path::PathBuf;

use levelcup::kitchen::Kitchen;
use levelcup::language::{Dictionary, Language};
use levelcup::measure::{Number, Standard};
use levelcup::pantry::Pantry;
use levelcup::recipe::{Amount, Line, LineReader};
use levelcup::workspace::Site;
use proptest::prelude::*;

fn reader(language: &str) -> LineReader {
    LineReader::new(Dictionary::of(language).unwrap(), Standard::Customary)
}

/// A row of a table.
struct Row {
    /// File and line.
    place: String,
    cells: Vec<String>,
}

/// The rows of a table, without its remarks.
fn rows(path: &PathBuf) -> Vec<Row> {
    let text = std::fs::read_to_string(path).unwrap();
    let rows = text.lines().zip(1..).filter(|(row, _)| !row.starts_with('#') && !row.is_empty());
    let row = |(row, line): (&str, usize)| Row {
        place: format!("{}:{line}", path.display()),
        cells: row.split('\t').map(|cell| cell.replace("\\t", "\t")).collect(),
    };
    rows.map(row).collect()
}

/// The tables of a folder, in order.
fn tables(folder: &str) -> Vec<PathBuf> {
    let mut tables: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    tables.retain(|path| path.extension().is_some_and(|extension| extension == "tsv"));
    tables.sort();
    tables
}

fn number(number: Number) -> String {
    let value = *number.numer() as f64 / *number.denom() as f64;
    format!("{value:.4}").trim_end_matches('0').trim_end_matches('.').to_string()
}

fn amount(amount: &Amount) -> String {
    let mut said = number(amount.low);
    if amount.high != amount.low {
        said = format!("{said}–{}", number(amount.high));
    }
    match amount.unit {
        Some(unit) => format!("{said} {}", unit.name()),
        None => said,
    }
}

/// What a line was read as, in the columns of the tables.
fn columns(line: &Line) -> [String; 3] {
    let amounts: Vec<String> = line.amounts.iter().map(amount).collect();
    let rest: Vec<&str> = [&line.prep, &line.note].into_iter().flatten().map(String::as_str).collect();
    [amounts.join(" & "), line.name.clone(), rest.join("; ")]
}

#[test]
fn the_tables_of_lines() {
    let mut wrong = Vec::new();
    for path in tables("tests/lines") {
        let language = if path.ends_with("french.tsv") { "fr" } else { "en-US" };
        let reader = reader(language);
        let kitchen = Kitchen::new(Pantry::embedded(), &Site { language: language.into(), ..Site::default() }).unwrap();
        for Row { place, cells: row } in rows(&path) {
            let read = match reader.read(&row[0]) {
                Ok(read) => read,
                Err(error) => {
                    wrong.push(format!("{place}: {}\n  expected {:?}\n  got      {error}", row[0], &row[1..]));
                    continue;
                }
            };
            let said = columns(&read);
            let wanted = |at: usize| row.get(at).map(String::as_str).filter(|cell| *cell != "*");
            let differs = (0..3).any(|at| wanted(at + 1).is_some_and(|wanted| wanted != said[at]));
            let found = kitchen.ingredient(&read).map(|found| found.id.as_str());
            let other = wanted(4).is_some_and(|wanted| !wanted.is_empty() && found != Some(wanted));
            if differs || other {
                let wanted = &row[1..];
                wrong.push(format!("{place}: {}\n  expected {wanted:?}\n  got      {said:?} {found:?}", row[0]));
            }
        }
    }
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

/// Spans are slices of the line on character boundaries, and names hold no loose ends.
fn sane(line: &str, read: &Line) -> bool {
    let spans = read.amounts.iter().all(|amount| line.get(amount.span.clone()).is_some());
    spans && !read.name.is_empty() && read.name == read.name.trim() && read.amounts.iter().all(|a| a.low <= a.high)
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(line in any::<String>()) {
        for language in Language::tags() {
            if let Ok(read) = reader(language).read(&line) {
                prop_assert!(sane(&line, &read), "{line:?} {read:?}");
            }
        }
    }

    /// Pieces of real lines in any order are harder than noise.
    #[test]
    fn any_pieces_of_lines_are_read_or_refused(pieces in prop::collection::vec(prop::sample::select(PIECES), 1..12)) {
        for line in [pieces.join(" "), pieces.concat()] {
            for language in Language::tags() {
                if let Ok(read) = reader(language).read(&line) {
                    prop_assert!(sane(&line, &read), "{line:?} {read:?}");
                }
            }
        }
    }
}

const PIECES: &[&str] = &[
    "1",
    "1/2",
    "½",
    "2",
    "35 %",
    "0",
    "1,5",
    "1.250",
    "99999999",
    "/",
    "⁄",
    "-",
    "–",
    "(",
    ")",
    "[",
    "]",
    ",",
    ";",
    ":",
    "cup",
    "cups",
    "g",
    "oz.",
    "fl",
    "fl oz",
    "tbsp",
    "T",
    "c.",
    "à",
    "soupe",
    "can",
    "tins",
    "sheets",
    "cloves",
    "large",
    "about",
    "~",
    "plus",
    "+",
    "minus",
    "or",
    "ou",
    "each",
    "x",
    "×",
    "x2",
    "2x",
    "of",
    "d'",
    "d’",
    "l'ail",
    "juice",
    "zest of",
    "from",
    "half",
    "a",
    "an",
    "un",
    "demi-",
    "dozen",
    "pinch",
    "handful",
    "flour",
    "eggs",
    "yolk",
    "gelatine",
    "garlic cloves",
    "crème",
    "œufs",
    "packed",
    "sifted",
    "for",
    "pour",
    "divided",
    "to taste",
    "optional",
    "https://a.example",
    "](https://a.example)",
    "🥚",
    "1️⃣",
    "\u{A0}",
    "\t",
    "…",
    "....",
    "*",
    "\"",
    "_",
    "¹",
    "'s juice",
    "9-inch",
    "2-inch piece",
    "°",
    "between",
    "and",
    "or so",
    "=",
    "|",
    "https://",
    "www.",
    "\u{300}",
    "İ",
    "ß",
];
