//! Ingredient lines, read as a person would: `tests/lines/lines.tsv`.

use levelcup::measure::{Dictionary, Number, Standard};
use levelcup::recipe::{Amount, Line, LineReader};

const TABLE: &str = include_str!("../lines/lines.tsv");

fn reader() -> LineReader {
    LineReader::new(Dictionary::of("en-US").unwrap(), Standard::Customary)
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

fn columns(line: &Line) -> (String, String, String) {
    let amounts: Vec<String> = line.amounts.iter().map(amount).collect();
    let rest: Vec<&str> = [&line.prep, &line.note].into_iter().flatten().map(String::as_str).collect();
    (amounts.join(" & "), line.name.clone(), rest.join("; "))
}

#[test]
fn the_table_of_lines() {
    let reader = reader();
    let mut wrong = Vec::new();
    for row in TABLE.lines().filter(|row| !row.starts_with('#')) {
        let mut cells = row.split('\t');
        let mut cell = || cells.next().unwrap_or_default().to_string();
        let (line, wanted) = (cell(), (cell(), cell(), cell()));
        match reader.read(&line) {
            Ok(read) if columns(&read) == wanted => {}
            Ok(read) => wrong.push(format!("{line}\n  wanted {wanted:?}\n  read   {:?}", columns(&read))),
            Err(error) => wrong.push(format!("{line}\n  {error}")),
        }
    }
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}
