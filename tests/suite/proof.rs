//! `proof` as a cook runs it: mending, allowing, levels, explaining, formats and exit codes.

use std::collections::BTreeSet;

use levelcup::archive::reserved;

use crate::workspace::{CLEAN, Workspace};

/// A recipe with a ratio, a pair and a temperature that do not hold, and comments around them.
const WRONG: &str = "# Ours since 2019
title: Toast
makes: two slices   # not three
components:
  - name: Toast
    ingredients:
      - 200 g white bread
      - 100 g butter          # salted, if you like
      - \"60 g (3/4 cup) buckwheat flour\"
    ratio: {of: [bread, butter], is: '3:1'}   # by weight
    steps:
      - {do: Rub the butter into the flour and spread it on the bread., time: 4 min}
      - {do: Bake it until brown., oven: 190 °C (350°F), time: 5 min}
";

/// What of it is certain: which of two stated measures, or of two temperatures, is right only the author knows.
fn mended() -> String {
    WRONG.replace("'3:1'", "'2:1'")
}

#[test]
fn mending_changes_the_measured_text_and_no_other_byte() {
    let workspace = Workspace::with(WRONG);
    let ran = workspace.run(&["proof", "--mend", "--yes"]).exits(1);
    assert_eq!(workspace.read("recipes/toast.yaml"), mended());
    assert!(ran.stdout.contains("-    ratio: {of: [bread, butter], is: '3:1'}   # by weight\n"), "{}", ran.stdout);
    assert!(ran.stdout.contains("+    ratio: {of: [bread, butter], is: '2:1'}   # by weight\n"), "{}", ran.stdout);
    assert!(ran.stdout.ends_with("1 change written; 2 findings left\n"), "{}", ran.stdout);
    let left = workspace.run(&["proof"]).exits(1);
    let told = |rule: &str| left.stdout.contains(rule) || left.stderr.contains(rule);
    assert!(told("stated-pair-disagrees") && told("temperature-scales-disagree"), "{}{}", left.stdout, left.stderr);
}

#[test]
fn mending_keeps_a_byte_order_mark_and_the_ends_of_lines() {
    let others = |text: &str| format!("\u{feff}{}", text.replace('\n', "\r\n"));
    let workspace = Workspace::with(others(WRONG));
    workspace.run(&["proof", "--mend", "--yes"]).exits(1);
    assert_eq!(workspace.read("recipes/toast.yaml"), others(&mended()));
}

#[test]
fn mending_asks_first() {
    let workspace = Workspace::with(WRONG);
    let ran = workspace.run(&["proof", "--mend"]).exits(1);
    assert!(
        ran.stdout.contains("Write 1 change? [y/N]") && ran.stdout.contains("nothing was changed"),
        "{}",
        ran.stdout
    );
    assert_eq!(workspace.read("recipes/toast.yaml"), WRONG);
    let clean = Workspace::with(CLEAN).run(&["proof", "--mend"]).exits(0);
    assert!(clean.stdout.contains("nothing can be mended"), "{}", clean.stdout);
}

#[test]
fn a_recipe_allows_what_it_means() {
    let allow = |entry: &str| {
        let text =
            CLEAN.replace("makes: two slices\n", "").replace("components:", &format!("allow: [{entry}]\ncomponents:"));
        let ran = Workspace::with(text).run(&["proof", "--json"]);
        let rules: Vec<String> = ran
            .stdout
            .lines()
            .map(|line| serde_json::from_str::<serde_json::Value>(line).unwrap()["rule"].as_str().unwrap().into())
            .collect();
        rules.join(" ")
    };
    assert_eq!(allow(""), "yield-missing");
    assert_eq!(allow("{rule: yield-missing, because: it makes what bread there is}"), "");
    assert_eq!(allow("yield-missing"), "allow-without-reason");
    assert_eq!(allow("{rule: yield-mising, because: x}"), "yield-missing unknown-allow");
    assert_eq!(allow("{rule: unknown-key, because: x}"), "yield-missing unknown-allow");
    assert_eq!(allow("{rule: yield-missing, because: x}, {rule: oven-too-hot, because: x}"), "unused-allow");
}

#[test]
fn a_site_sets_levels() {
    let workspace = Workspace::with(CLEAN.replace("makes: two slices\n", ""));
    workspace.run(&["proof"]).exits(1);
    workspace.file("site/site.yaml", "levels: {yield-missing: error}\n");
    assert!(workspace.run(&["proof"]).exits(1).stdout.contains("error[yield-missing]"));
    workspace.file("site/site.yaml", "levels: {yield-missing: off}\n");
    workspace.run(&["proof"]).exits(0);
    workspace.file("site/site.yaml", "levels: {yield-mising: note}\n");
    assert!(workspace.run(&["proof"]).exits(2).stderr.contains("did you mean `yield-missing`?"));
    workspace.file("site/site.yaml", "levels: {yaml-syntax: off}\n");
    assert!(workspace.run(&["proof"]).exits(2).stderr.contains("cannot be changed"));
}

#[test]
fn rules_explain_themselves() {
    let workspace = Workspace::with(CLEAN);
    let ran = workspace.run(&["proof", "--explain", "ratio-disagrees"]).exits(0);
    for heading in ["What it finds:", "Why it matters:", "Example:", "Instead:", "Source:"] {
        assert!(ran.stdout.contains(heading), "{}", ran.stdout);
    }
    assert!(workspace.run(&["proof", "--explain", "unsafe-link"]).exits(0).stdout.contains("http"));
    assert!(workspace.run(&["proof", "--explain"]).exits(0).stdout.lines().count() > 50);
    workspace.run(&["proof", "--explain", "nothing"]).exits(2);
}

#[test]
fn sarif_names_rule_place_and_fix() {
    let ran = Workspace::with(WRONG).run(&["proof", "--format", "sarif"]).exits(1);
    let log: serde_json::Value = serde_json::from_str(&ran.stdout).unwrap();
    assert_eq!(log["version"], "2.1.0");
    let run = &log["runs"][0];
    let result = run["results"].as_array().unwrap().iter().find(|r| r["ruleId"] == "ratio-disagrees").unwrap();
    let at = result["ruleIndex"].as_u64().unwrap() as usize;
    assert_eq!(run["tool"]["driver"]["rules"][at]["id"], "ratio-disagrees");
    let place = &result["locations"][0]["physicalLocation"];
    assert_eq!(place["artifactLocation"]["uri"], "recipes/toast.yaml");
    let region = serde_json::json!({"startLine": 10, "startColumn": 38, "endLine": 10, "endColumn": 43});
    assert_eq!(place["region"], region);
    let fix = &result["fixes"][0]["artifactChanges"][0]["replacements"][0];
    assert_eq!(fix["insertedContent"]["text"], "'2:1'");
    let clean = Workspace::with(CLEAN).run(&["proof", "--format", "sarif"]).exits(0);
    let log: serde_json::Value = serde_json::from_str(&clean.stdout).unwrap();
    assert_eq!(log["runs"][0]["results"], serde_json::json!([]));
}

#[test]
fn no_recipe_takes_the_place_of_a_page_of_the_archive() {
    let workspace = Workspace::with(CLEAN);
    workspace.file("site/pages/about.md", "# About us\n");
    workspace.run(&["archive"]).exits(0);
    let entries = std::fs::read_dir(workspace.path("out/archive")).unwrap().map(|entry| entry.unwrap());
    let folders = entries.filter(|entry| entry.path().is_dir()).map(|entry| entry.file_name().into_string().unwrap());
    let made: BTreeSet<String> = folders.filter(|folder| folder != "toast").collect();
    let taken: BTreeSet<String> = reserved().map(String::from).chain(["about".into()]).collect();
    let free: Vec<&String> = made.difference(&taken).collect();
    assert!(
        free.is_empty(),
        "src/archive/folders.rs: expected a row for each folder of the archive, got none for {free:?}"
    );
    for folder in taken {
        let file = format!("recipes/{folder}.yaml");
        let ran = workspace.file(&file, CLEAN).run(&["proof", "--json", &file]).exits(1);
        assert!(ran.stdout.contains("\"slug-taken\""), "{file}: expected `slug-taken`, got {}", ran.stdout);
    }
}
