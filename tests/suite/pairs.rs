//! Stated pairs, judged as a trade reader would: the tables in `tests/pairs/`.

use std::collections::BTreeMap;
use std::fmt::Write;

use assert_cmd::Command;
use tempfile::TempDir;

/// The rows of every table: line, verdict, why or what the help must say.
fn rows() -> Vec<[String; 3]> {
    let mut rows = Vec::new();
    for entry in std::fs::read_dir("tests/pairs").unwrap() {
        let table = std::fs::read_to_string(entry.unwrap().path()).unwrap();
        for row in table.lines().filter(|row| !row.starts_with('#') && !row.is_empty()) {
            let mut cells = row.split('\t').map(str::to_string);
            rows.push(std::array::from_fn(|_| cells.next().unwrap_or_default()));
        }
    }
    rows
}

/// The help of each line that the rule finds fault with, by the line's place in the recipe.
fn disagreements(rows: &[[String; 3]]) -> BTreeMap<usize, String> {
    // A component has at most a hundred lines.
    let parts = rows.chunks(100).map(disagreements_of).enumerate();
    parts.flat_map(|(part, found)| found.into_iter().map(move |(at, help)| (100 * part + at, help))).collect()
}

fn disagreements_of(rows: &[[String; 3]]) -> BTreeMap<usize, String> {
    const FIRST: usize = 5;
    let workspace = TempDir::new().unwrap();
    let mut recipe = String::from("title: Pairs\ncomponents:\n  - name: All\n    ingredients:\n");
    for [line, ..] in rows {
        writeln!(recipe, "      - {}", serde_json::to_string(line).unwrap()).unwrap();
    }
    recipe.push_str("    steps: [Mix.]\n");
    std::fs::create_dir(workspace.path().join("recipes")).unwrap();
    std::fs::write(workspace.path().join("recipes/pairs.yaml"), recipe).unwrap();
    let output = Command::cargo_bin("levelcup").unwrap().current_dir(&workspace).args(["proof", "--json"]).output();
    let said = String::from_utf8(output.unwrap().stdout).unwrap();
    let findings = said.lines().map(|line| serde_json::from_str::<serde_json::Value>(line).unwrap());
    let ours = findings.filter(|finding| finding["rule"] == "stated-pair-disagrees");
    let place = |finding: &serde_json::Value| finding["line"].as_u64().unwrap() as usize - FIRST;
    ours.map(|finding| (place(&finding), finding["help"].as_str().unwrap_or_default().to_string())).collect()
}

#[test]
fn the_tables_of_pairs() {
    let rows = rows();
    let found = disagreements(&rows);
    let mut wrong = Vec::new();
    for (at, [line, verdict, why]) in rows.iter().enumerate() {
        let help = found.get(&at);
        let said = if help.is_some() { "disagree" } else { "agree" };
        let help = help.map(String::as_str).unwrap_or_default();
        let unsaid = why.strip_prefix("says ").is_some_and(|words| !help.contains(words));
        if said != verdict || unsaid {
            wrong.push(format!("{line}\n  wanted {verdict} ({why})\n  {said}: {help}"));
        }
    }
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}
