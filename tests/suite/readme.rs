//! The README shows what the program prints.

use crate::workspace::levelcup;

const README: &str = include_str!("../../README.md");

/// Every `levelcup weigh` in the README prints the table below it.
#[test]
fn the_tables_are_what_the_program_prints() {
    let folder = tempfile::tempdir().unwrap();
    let mut seen = 0;
    for block in README.split("```console\n").skip(1).map(|rest| rest.split("```").next().unwrap()) {
        let (command, wanted) = block.split_once('\n').unwrap();
        let Some(lines) = command.strip_prefix("$ levelcup weigh ") else { continue };
        let lines: Vec<&str> = lines.trim_matches('"').split("\" \"").collect();
        let ran = levelcup(folder.path(), &[&["weigh"], lines.as_slice()].concat(), "").exits(0);
        assert_eq!(ran.stdout, wanted);
        seen += 1;
    }
    assert!(seen > 0, "the README shows `levelcup weigh`");
}

/// Every command in the table of commands exists.
#[test]
fn the_commands_exist() {
    let folder = tempfile::tempdir().unwrap();
    let named = README.lines().filter_map(|line| line.strip_prefix("| `levelcup ")?.split([' ', '`']).next());
    let named: Vec<&str> = named.collect();
    assert!(named.len() >= 8, "{named:?}");
    for command in named {
        levelcup(folder.path(), &[command, "--help"], "").exits(0);
    }
}
