//! Two runs into one folder: one of them writes, the other is told so, and no page is another recipe's.

use std::fs;
use std::path::Path;
use std::process::{Child, Command, Output, Stdio};
use std::time::Duration;

use tempfile::TempDir;

use crate::{files, many};

const PAIRS: u64 = 20;
const RECIPES: u32 = 12;

fn start(folder: &Path, more: &[&str]) -> Child {
    let mut command = Command::new(assert_cmd::cargo::cargo_bin("levelcup"));
    command.arg("archive").args(more).arg("--workspace").arg(folder);
    command.stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap()
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// Changes a recipe, so that there is something to write.
fn edit(folder: &Path, pair: u64) {
    let (name, text) = many::recipe(u32::try_from(pair).unwrap() % RECIPES);
    let step = format!("steps:\n      - Think of it {pair} times.\n");
    fs::write(folder.join("recipes").join(name), text.replacen("steps:\n", &step, 1)).unwrap();
}

fn assert_whole(folder: &Path) {
    let fresh = TempDir::new().unwrap();
    let made = start(folder, &["--out", fresh.path().to_str().unwrap()]).wait_with_output().unwrap();
    assert_eq!(made.status.code(), Some(0), "{}", said(&made));
    assert_eq!(files(&folder.join("out").join("archive")), files(&fresh.path().join("archive")));
}

#[test]
fn twenty_pairs_of_runs() {
    let folder = TempDir::new().unwrap();
    many::workspace(folder.path(), RECIPES).unwrap();
    let mut refused = 0;
    for pair in 0..PAIRS {
        edit(folder.path(), pair);
        let first = start(folder.path(), &[]);
        std::thread::sleep(Duration::from_millis(pair * 150 / PAIRS));
        let second = start(folder.path(), &[]);
        let both = [first, second].map(|run| run.wait_with_output().unwrap());
        for run in &both {
            match run.status.code() {
                Some(0) => {}
                Some(2) => {
                    refused += 1;
                    assert!(said(run).contains("of levelcup is writing into"), "{}", said(run));
                }
                code => panic!("{code:?}: {}", said(run)),
            }
        }
        assert!(both.iter().any(|run| run.status.success()), "{both:?}");
        assert_whole(folder.path());
    }
    assert!(refused > 0, "no two runs met");
}

#[test]
fn a_run_that_may_wait_does_its_work_after_the_other() {
    let folder = TempDir::new().unwrap();
    many::workspace(folder.path(), RECIPES).unwrap();
    for pair in 0..3 {
        edit(folder.path(), pair);
        let runs = [start(folder.path(), &["--wait"]), start(folder.path(), &["--wait"])];
        for run in runs.map(|run| run.wait_with_output().unwrap()) {
            assert!(run.status.success(), "{}", said(&run));
        }
        assert_whole(folder.path());
    }
}
