#![allow(clippy::disallowed_methods, reason = "tests look at what was written")]

use std::fs;
use std::path::Path;

use tempfile::TempDir;

use super::manifest::{Listed, Time};
use super::{Differing, Fingerprint, Held, Output, OutputError, Written, compare, strangers};

fn open(folder: &Path) -> Result<Output, OutputError> {
    Output::open(folder, Held::Refuse)
}

/// Writes `files` as one whole run.
fn run(folder: &Path, files: &[(&str, &str)]) -> Result<Written, OutputError> {
    let output = open(folder)?;
    for (path, text) in files {
        output.put(path, text.as_bytes())?;
    }
    output.finish()
}

fn read(folder: &Path, path: &str) -> Option<String> {
    fs::read_to_string(folder.join(path)).ok()
}

/// Everything in the folder but the list and the lock, in order.
fn contents(folder: &Path) -> Vec<String> {
    let entries = walkdir::WalkDir::new(folder).min_depth(1).sort_by_file_name();
    let paths = entries.into_iter().map(|entry| entry.expect("a readable folder").into_path());
    let inside = paths.map(|path| path.strip_prefix(folder).expect("inside").display().to_string());
    inside.filter(|path| ![".levelcup-files.json", ".levelcup-lock"].contains(&path.as_str())).collect()
}

fn put_by_hand(folder: &Path, path: &str, text: &str) {
    super::write(&folder.join(path), text.as_bytes()).expect("a writable folder");
}

/// Leaves a folder as a killed run does: staging stays, the lock goes.
fn kill(mut output: Output) {
    let staging = output.folder.join(".levelcup-new-1-0");
    fs::rename(output.staging.folder(), staging).expect("a folder that can be renamed");
    output.put = std::sync::Mutex::default();
}

fn folder() -> TempDir {
    TempDir::new().expect("a temporary folder")
}

#[test]
fn writes_and_leaves_no_staging() {
    let folder = folder();
    let written = run(folder.path(), &[("index.html", "home"), ("tart/index.html", "tart")]).unwrap();
    assert_eq!(written, Written { written: 2, ..Written::default() });
    assert_eq!(contents(folder.path()), ["index.html", "tart", "tart/index.html"]);
}

#[test]
fn unchanged_files_are_not_rewritten() {
    let folder = folder();
    run(folder.path(), &[("a", "1"), ("b", "1")]).unwrap();
    let before = fs::metadata(folder.path().join("a")).unwrap().modified().unwrap();
    let written = run(folder.path(), &[("a", "1"), ("b", "2")]).unwrap();
    assert_eq!(written, Written { written: 1, unchanged: 1, ..Written::default() });
    assert_eq!(fs::metadata(folder.path().join("a")).unwrap().modified().unwrap(), before);
}

#[test]
fn files_of_a_removed_recipe_go_and_foreign_files_stay() {
    let folder = folder();
    run(folder.path(), &[("old/index.html", "old"), ("shared/page", "old"), ("a", "1")]).unwrap();
    put_by_hand(folder.path(), "shared/notes.txt", "mine");
    put_by_hand(folder.path(), "CNAME", "mine");
    let written = run(folder.path(), &[("a", "1")]).unwrap();
    assert_eq!(written, Written { unchanged: 1, removed: 2, ..Written::default() });
    assert_eq!(contents(folder.path()), ["CNAME", "a", "shared", "shared/notes.txt"]);
}

#[test]
fn a_part_leaves_the_rest() {
    let folder = folder();
    run(folder.path(), &[("a", "1"), ("b", "1")]).unwrap();
    let output = open(folder.path()).unwrap();
    output.put("a", b"2").unwrap();
    output.finish_part().unwrap();
    assert_eq!(contents(folder.path()), ["a", "b"]);
    assert_eq!(run(folder.path(), &[("a", "2")]).unwrap().removed, 1);
}

#[test]
fn a_leftover_changed_by_hand_is_kept_and_then_foreign() {
    let folder = folder();
    run(folder.path(), &[("a", "1"), ("b", "1")]).unwrap();
    put_by_hand(folder.path(), "b", "edited");
    assert_eq!(run(folder.path(), &[("a", "1")]).unwrap().kept, 1);
    assert_eq!(read(folder.path(), "b").as_deref(), Some("edited"));
    let error = run(folder.path(), &[("a", "1"), ("b", "1")]).unwrap_err();
    assert!(matches!(error, OutputError::InTheWay { .. }), "{error}");
}

#[test]
fn a_foreign_file_in_the_way_stops_the_run_before_anything_changes() {
    let folder = folder();
    run(folder.path(), &[("a", "1")]).unwrap();
    put_by_hand(folder.path(), "index.html", "mine");
    let error = run(folder.path(), &[("a", "2"), ("index.html", "home")]).unwrap_err();
    assert!(error.to_string().contains("index.html` is in the way"), "{error}");
    assert_eq!(contents(folder.path()), ["a", "index.html"]);
    assert_eq!(read(folder.path(), "a").as_deref(), Some("1"));
    assert_eq!(read(folder.path(), "index.html").as_deref(), Some("mine"));
}

#[test]
fn a_run_that_stops_before_the_end_leaves_the_last_good_output() {
    let folder = folder();
    run(folder.path(), &[("a", "1")]).unwrap();
    let output = open(folder.path()).unwrap();
    output.put("a", b"2").unwrap();
    output.put("b", b"2").unwrap();
    kill(output);
    assert!(folder.path().join(".levelcup-new-1-0").exists());
    assert_eq!(read(folder.path(), "a").as_deref(), Some("1"));
    assert_eq!(read(folder.path(), "b"), None);
    run(folder.path(), &[("a", "3")]).unwrap();
    assert_eq!(contents(folder.path()), ["a"]);
}

#[test]
fn a_run_killed_while_files_move_is_repaired() {
    let folder = folder();
    run(folder.path(), &[("a", "1")]).unwrap();
    let mut output = open(folder.path()).unwrap();
    output.put("b", b"2").unwrap();
    output.manifest.add("b", Listed { mark: Fingerprint::of(b"2"), time: None });
    output.manifest.write(&output.folder, output.staging.folder()).unwrap();
    put_by_hand(folder.path(), "b", "2");
    kill(output);
    run(folder.path(), &[("a", "1"), ("b", "3")]).unwrap();
    assert_eq!(read(folder.path(), "b").as_deref(), Some("3"));
}

#[test]
fn a_file_that_did_not_move_is_not_taken_for_the_new_one() {
    let folder = folder();
    run(folder.path(), &[("a", "1")]).unwrap();
    let mut output = open(folder.path()).unwrap();
    output.put("a", b"2").unwrap();
    output.manifest.add("a", Listed { mark: Fingerprint::of(b"2"), time: None });
    output.manifest.write(&output.folder, output.staging.folder()).unwrap();
    kill(output);
    let output = open(folder.path()).unwrap();
    assert!(!output.keep("a", None).unwrap());
    drop(output);
    assert_eq!(run(folder.path(), &[("a", "2")]).unwrap().written, 1);
    assert_eq!(read(folder.path(), "a").as_deref(), Some("2"));
}

#[test]
fn what_an_earlier_run_wrote_is_kept_unless_it_was_touched() {
    let folder = folder();
    run(folder.path(), &[("a", "1"), ("b/c", "1"), ("d", "1")]).unwrap();
    put_by_hand(folder.path(), "d", "22");
    let output = open(folder.path()).unwrap();
    assert!(output.keep("a", Some(&Fingerprint::of(b"1").hash)).unwrap());
    assert!(!output.keep("b/c", Some(&Fingerprint::of(b"2").hash)).unwrap());
    assert!(!output.keep("d", None).unwrap());
    assert!(!output.keep("unknown", None).unwrap());
    assert_eq!(output.finish_folder("b").unwrap(), Written { unchanged: 1, removed: 1, ..Written::default() });
    assert_eq!(contents(folder.path()), ["a", "d"]);
}

#[test]
fn paths_that_leave_the_folder_are_refused() {
    let folder = folder();
    let output = open(&folder.path().join("out")).unwrap();
    for path in ["../x", "/x", "a/../../x"] {
        assert!(matches!(output.put(path, b""), Err(OutputError::Outside { .. })), "{path}");
    }
    output.put("a", b"").unwrap();
    assert!(matches!(output.put("a", b""), Err(OutputError::Twice { .. })));
}

#[test]
fn a_manifest_cannot_point_outside() {
    let folder = folder();
    put_by_hand(folder.path(), "precious", "mine");
    let out = folder.path().join("out");
    fs::create_dir(&out).unwrap();
    for list in [r#"{"files":{"../precious":""}}"#, "[]", "{"] {
        put_by_hand(&out, ".levelcup-files.json", list);
        assert!(matches!(run(&out, &[]), Err(OutputError::Manifest { .. })), "{list}");
    }
    assert_eq!(read(folder.path(), "precious").as_deref(), Some("mine"));
}

#[cfg(unix)]
#[test]
fn links_are_not_followed() {
    use std::os::unix::fs::symlink;

    let folder = folder();
    let (out, elsewhere) = (folder.path().join("out"), folder.path().join("elsewhere"));
    fs::create_dir(&elsewhere).unwrap();
    put_by_hand(&elsewhere, "file", "mine");
    fs::create_dir(&out).unwrap();
    symlink(&elsewhere, out.join("tart")).unwrap();
    symlink(elsewhere.join("file"), out.join("a")).unwrap();
    for path in ["tart/file", "tart/new/file", "a"] {
        let error = run(&out, &[(path, "x")]).unwrap_err();
        assert!(matches!(error, OutputError::Linked { .. }), "{path}: {error}");
    }
    symlink(&elsewhere, out.join(".levelcup-new")).unwrap();
    run(&out, &[("b", "1")]).unwrap();
    fs::remove_file(out.join(".levelcup-lock")).unwrap();
    symlink(elsewhere.join("file"), out.join(".levelcup-lock")).unwrap();
    assert!(matches!(run(&out, &[("b", "2")]), Err(OutputError::Linked { .. })));
    assert_eq!(contents(&elsewhere), ["file"]);
    assert_eq!(read(&elsewhere, "file").as_deref(), Some("mine"));
}

#[test]
fn errors_name_the_path_and_the_action() {
    let folder = folder();
    put_by_hand(folder.path(), "file", "mine");
    let error = open(&folder.path().join("file")).unwrap_err();
    assert!(error.to_string().starts_with("cannot create `"), "{error}");
    assert!(error.to_string().contains("file`"), "{error}");
}

/// A new folder goes into place as a whole; one that somebody makes meanwhile is filled file by file.
#[test]
fn a_folder_made_meanwhile_is_filled() {
    let folder = tempfile::tempdir().unwrap();
    let output = open(folder.path()).unwrap();
    for path in ["x/y/a.txt", "x/b.txt", "c.txt"] {
        output.put(path, path.as_bytes()).unwrap();
    }
    fs::create_dir(folder.path().join("x")).unwrap();
    put_by_hand(folder.path(), "x/foreign.txt", "theirs");
    assert_eq!(output.finish().unwrap().written, 3);
    for path in ["x/y/a.txt", "x/b.txt", "c.txt"] {
        assert_eq!(fs::read_to_string(folder.path().join(path)).unwrap(), path);
    }
    assert_eq!(fs::read_to_string(folder.path().join("x/foreign.txt")).unwrap(), "theirs");
    assert!(contents(folder.path()).iter().all(|path| !path.contains("levelcup-new")));
}

#[test]
fn somebody_elses_file_with_the_name_of_staging_is_left_alone() {
    let folder = folder();
    let own = format!(".levelcup-new-{}-0", std::process::id());
    for name in [".levelcup-new", own.as_str()] {
        put_by_hand(folder.path(), name, "mine");
    }
    assert_eq!(run(folder.path(), &[("a", "1")]).unwrap().written, 1);
    for name in [".levelcup-new", own.as_str()] {
        assert_eq!(read(folder.path(), name).as_deref(), Some("mine"));
    }
}

#[test]
fn a_second_run_is_refused_and_told_who_holds_the_folder() {
    let folder = folder();
    let first = open(folder.path()).unwrap();
    let error = open(folder.path()).unwrap_err();
    let wanted = format!("process {} of levelcup is writing into", std::process::id());
    assert!(error.to_string().starts_with(&wanted), "{error}");
    first.put("a", b"1").unwrap();
    first.finish().unwrap();
    assert_eq!(run(folder.path(), &[("a", "1")]).unwrap().unchanged, 1);
}

#[test]
fn a_run_that_waits_begins_where_the_other_ended() {
    let folder = folder();
    let first = open(folder.path()).unwrap();
    first.put("a", b"1").unwrap();
    std::thread::scope(|scope| {
        let second = scope.spawn(|| {
            let output = Output::open(folder.path(), Held::Wait).unwrap();
            output.put("a", b"1").unwrap();
            output.finish().unwrap()
        });
        std::thread::sleep(std::time::Duration::from_millis(50));
        assert!(!second.is_finished());
        first.finish().unwrap();
        assert_eq!(second.join().unwrap(), Written { unchanged: 1, ..Written::default() });
    });
}

#[test]
fn what_is_handed_over_leaves_nothing_of_ours() {
    let folder = folder();
    let output = open(folder.path()).unwrap();
    output.put("a", b"1").unwrap();
    assert_eq!(output.hand_over().unwrap().written, 1);
    let left: Vec<_> = fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert_eq!(left, ["a"]);
}

fn set_time(folder: &Path, path: &str, seconds: u64) {
    let time = std::time::UNIX_EPOCH + std::time::Duration::from_secs(seconds);
    fs::File::options().write(true).open(folder.join(path)).unwrap().set_modified(time).unwrap();
}

/// An edit of the same length whose time of writing is put back.
#[cfg(unix)]
#[test]
fn a_time_that_is_put_back_hides_no_edit() {
    let folder = folder();
    run(folder.path(), &[("a", "1")]).unwrap();
    let time = fs::metadata(folder.path().join("a")).unwrap().modified().unwrap();
    std::thread::sleep(std::time::Duration::from_millis(20));
    put_by_hand(folder.path(), "a", "0");
    fs::File::options().write(true).open(folder.path().join("a")).unwrap().set_modified(time).unwrap();
    let written = run(folder.path(), &[("a", "1")]).unwrap();
    assert_eq!(written, Written { written: 1, ..Written::default() });
    assert_eq!(read(folder.path(), "a").as_deref(), Some("1"));
}

/// A folder copied back with its times, an edit of the same length, a clock that ran ahead.
#[test]
fn a_file_of_another_time_is_read_before_it_is_taken_as_ours() {
    for seconds in [1, 1_000_000_000, 9_000_000_000] {
        let folder = folder();
        run(folder.path(), &[("a", "1"), ("b", "1")]).unwrap();
        put_by_hand(folder.path(), "a", "0");
        for path in ["a", "b"] {
            set_time(folder.path(), path, seconds);
        }
        let written = run(folder.path(), &[("a", "1"), ("b", "1")]).unwrap();
        assert_eq!(written, Written { written: 1, unchanged: 1, ..Written::default() });
        assert_eq!(read(folder.path(), "a").as_deref(), Some("1"));
        // The time found is the one that is listed from then on.
        let output = open(folder.path()).unwrap();
        let found = Time::of(&fs::metadata(folder.path().join("b")).unwrap());
        assert_eq!(output.manifest.listed("b").unwrap().time, found);
        assert!(found.is_some());
    }
}

#[test]
fn the_comparison_names_every_file_that_is_not_as_written() {
    let folder = folder();
    run(folder.path(), &[("a/1", "1"), ("a/2", "1"), ("a/3", "1"), ("b", "1")]).unwrap();
    assert_eq!(compare(folder.path(), "").unwrap(), []);
    put_by_hand(folder.path(), "a/old.html", "0");
    put_by_hand(folder.path(), "own.html", "0");
    assert_eq!(strangers(folder.path(), "a").unwrap(), ["a/old.html"]);
    let nothing = self::folder();
    assert!(matches!(compare(nothing.path(), ""), Err(OutputError::Unrecorded { .. })));
    let time = fs::metadata(folder.path().join("a/1")).unwrap().modified().unwrap();
    put_by_hand(folder.path(), "a/1", "0");
    fs::File::options().write(true).open(folder.path().join("a/1")).unwrap().set_modified(time).unwrap();
    fs::remove_file(folder.path().join("a/2")).unwrap();
    put_by_hand(folder.path(), "b", "0");
    let differing = |path: &str, missing| Differing { path: path.into(), missing };
    assert_eq!(compare(folder.path(), "a/").unwrap(), [differing("a/1", false), differing("a/2", true)]);
}
