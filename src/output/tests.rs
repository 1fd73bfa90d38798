use std::fs;
use std::path::Path;

use tempfile::TempDir;

use super::{Output, OutputError, Written};

/// Writes `files` as one whole run.
fn run(folder: &Path, files: &[(&str, &str)]) -> Result<Written, OutputError> {
    let output = Output::open(folder)?;
    for (path, text) in files {
        output.put(path, text.as_bytes())?;
    }
    output.finish()
}

fn read(folder: &Path, path: &str) -> Option<String> {
    fs::read_to_string(folder.join(path)).ok()
}

/// Everything in the folder but the list, in order.
fn contents(folder: &Path) -> Vec<String> {
    let entries = walkdir::WalkDir::new(folder).min_depth(1).sort_by_file_name();
    let paths = entries.into_iter().map(|entry| entry.expect("a readable folder").into_path());
    let inside = paths.map(|path| path.strip_prefix(folder).expect("inside").display().to_string());
    inside.filter(|path| path != ".levelcup-files.json").collect()
}

fn put_by_hand(folder: &Path, path: &str, text: &str) {
    super::write(&folder.join(path), text.as_bytes()).expect("a writable folder");
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
    let output = Output::open(folder.path()).unwrap();
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
    let output = Output::open(folder.path()).unwrap();
    output.put("a", b"2").unwrap();
    output.put("b", b"2").unwrap();
    // A killed run drops nothing; its staging is cleared by the next one.
    std::mem::forget(output);
    assert_eq!(read(folder.path(), "a").as_deref(), Some("1"));
    assert_eq!(read(folder.path(), "b"), None);
    run(folder.path(), &[("a", "3")]).unwrap();
    assert_eq!(contents(folder.path()), ["a"]);
}

#[test]
fn a_run_killed_while_files_move_is_repaired() {
    let folder = folder();
    run(folder.path(), &[("a", "1")]).unwrap();
    let mut output = Output::open(folder.path()).unwrap();
    output.put("b", b"2").unwrap();
    output.manifest.add("b", super::Mark::of(b"2").unsure());
    output.manifest.write(&output.folder, output.staging.folder()).unwrap();
    put_by_hand(folder.path(), "b", "2");
    std::mem::forget(output);
    run(folder.path(), &[("a", "1"), ("b", "3")]).unwrap();
    assert_eq!(read(folder.path(), "b").as_deref(), Some("3"));
}

#[test]
fn a_file_that_did_not_move_is_not_taken_for_the_new_one() {
    let folder = folder();
    run(folder.path(), &[("a", "1")]).unwrap();
    let mut output = Output::open(folder.path()).unwrap();
    output.put("a", b"2").unwrap();
    output.manifest.add("a", super::Mark::of(b"2").unsure());
    output.manifest.write(&output.folder, output.staging.folder()).unwrap();
    std::mem::forget(output);
    let output = Output::open(folder.path()).unwrap();
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
    let output = Output::open(folder.path()).unwrap();
    assert!(output.keep("a", Some(&super::Mark::of(b"1").hash)).unwrap());
    assert!(!output.keep("b/c", Some(&super::Mark::of(b"2").hash)).unwrap());
    assert!(!output.keep("d", None).unwrap());
    assert!(!output.keep("unknown", None).unwrap());
    assert_eq!(output.earlier("b/").collect::<Vec<_>>(), ["b/c"]);
    assert_eq!(output.finish_folder("b").unwrap(), Written { unchanged: 1, removed: 1, ..Written::default() });
    assert_eq!(contents(folder.path()), ["a", "d"]);
}

#[test]
fn paths_that_leave_the_folder_are_refused() {
    let folder = folder();
    let output = Output::open(folder.path().join("out")).unwrap();
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
    let _ = run(&out, &[("b", "1")]);
    assert_eq!(contents(&elsewhere), ["file"]);
    assert_eq!(read(&elsewhere, "file").as_deref(), Some("mine"));
}

#[test]
fn errors_name_the_path_and_the_action() {
    let folder = folder();
    put_by_hand(folder.path(), "file", "mine");
    let error = Output::open(folder.path().join("file")).unwrap_err();
    assert!(error.to_string().starts_with("cannot create `"), "{error}");
    assert!(error.to_string().contains("file`"), "{error}");
}

/// A new folder goes into place as a whole; one that somebody makes meanwhile is filled file by file.
#[test]
fn a_folder_made_meanwhile_is_filled() {
    let folder = tempfile::tempdir().unwrap();
    let output = Output::open(folder.path()).unwrap();
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
    assert!(!folder.path().join(".levelcup-new").exists());
}
