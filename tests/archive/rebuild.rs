//! Building again: what changed is made, the rest is kept, and the result is that of a first build.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use assert_cmd::Command;
use tempfile::TempDir;

use crate::{files, many};

const RECIPES: u32 = 40;

fn workspace() -> TempDir {
    let folder = TempDir::new().expect("a temporary folder");
    many::workspace(folder.path(), RECIPES).expect("a writable folder");
    folder
}

/// Builds, and returns the number of files written.
fn build(folder: &Path) -> usize {
    let output =
        Command::cargo_bin("levelcup").unwrap().arg("archive").arg("--workspace").arg(folder).output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.code().is_some_and(|code| code < 2), "{said}");
    let written = said.lines().last().and_then(|line| line.split(": ").nth(1)?.split(' ').next()?.parse().ok());
    written.unwrap_or_else(|| panic!("{said}"))
}

/// Every file of the archive as a first build makes it.
fn anew(folder: &Path) -> BTreeMap<String, String> {
    let fresh = TempDir::new().expect("a temporary folder");
    let mut command = Command::cargo_bin("levelcup").unwrap();
    command.args(["archive", "--workspace"]).arg(folder).arg("--out").arg(fresh.path());
    command.output().unwrap();
    files(&fresh.path().join("archive"))
}

fn assert_whole(folder: &Path) {
    assert_eq!(files(&folder.join("out").join("archive")), anew(folder));
}

fn recipe(folder: &Path, number: u32) -> (std::path::PathBuf, String) {
    let (name, text) = many::recipe(number);
    (folder.join("recipes").join(name), text)
}

#[test]
fn nothing_is_written_where_nothing_changed() {
    let folder = workspace();
    assert!(build(folder.path()) > RECIPES as usize);
    assert_eq!(build(folder.path()), 0);
    assert_whole(folder.path());
}

#[test]
fn an_edited_step_changes_one_page() {
    let folder = workspace();
    build(folder.path());
    let (path, text) = recipe(folder.path(), 7);
    fs::write(&path, text.replacen("steps:\n", "steps:\n      - Read all of it first.\n", 1)).unwrap();
    assert_eq!(build(folder.path()), 1);
    assert_whole(folder.path());
    fs::write(&path, text).unwrap();
    assert_eq!(build(folder.path()), 1);
    assert_whole(folder.path());
}

#[test]
fn a_pantry_row_touches_what_uses_it() {
    let folder = workspace();
    build(folder.path());
    let uses = (0..RECIPES).filter(|number| many::recipe(*number).1.contains(" walnuts\n")).count();
    assert!((1..RECIPES as usize).contains(&uses));
    let row = "- id: walnuts\n  names: [walnuts]\n  class: flavour\n  family: nut\n  measures: [{of: cup, grams: 90, source: common practice}]\n";
    fs::write(folder.path().join("pantry.yaml"), row).unwrap();
    let written = build(folder.path());
    assert!(written >= uses && written < RECIPES as usize, "{written} for {uses}");
    assert_whole(folder.path());
}

#[test]
fn a_template_touches_its_own_pages() {
    let folder = workspace();
    build(folder.path());
    fs::create_dir(folder.path().join("templates")).unwrap();
    fs::create_dir(folder.path().join("templates").join("archive")).unwrap();
    let template =
        include_str!("../../templates/archive/tags.html").replace("<h1>{{ say(key=\"tags\") }}</h1>", "<h1>Words</h1>");
    fs::write(folder.path().join("templates").join("archive").join("tags.html"), template).unwrap();
    assert_eq!(build(folder.path()), 1);
    assert_whole(folder.path());
}

#[test]
fn the_site_touches_every_page() {
    let folder = workspace();
    build(folder.path());
    fs::write(folder.path().join("site").join("site.yaml"), "name: Ferry Kitchen\n").unwrap();
    assert!(build(folder.path()) > RECIPES as usize);
    assert_whole(folder.path());
}

#[test]
fn a_removed_recipe_goes_and_a_renamed_one_is_found_at_both_addresses() {
    let folder = workspace();
    build(folder.path());
    let (path, text) = recipe(folder.path(), 3);
    let slug = path.file_stem().unwrap().to_str().unwrap().to_owned();
    fs::remove_file(&path).unwrap();
    build(folder.path());
    let page = folder.path().join("out").join("archive").join(&slug).join("index.html");
    assert!(!page.exists());
    let moved = text.replacen("tags:", &format!("was: {slug}\ntags:"), 1);
    fs::write(path.with_file_name("a-new-name.yaml"), moved).unwrap();
    build(folder.path());
    assert!(fs::read_to_string(&page).unwrap().contains("../a-new-name/index.html"));
    assert_whole(folder.path());
}

#[test]
fn a_faulty_recipe_keeps_its_last_good_page() {
    let folder = workspace();
    build(folder.path());
    let (path, text) = recipe(folder.path(), 3);
    fs::write(&path, "title: [").unwrap();
    assert_eq!(build(folder.path()), 0);
    fs::write(&path, text).unwrap();
    assert_eq!(build(folder.path()), 0);
    assert_whole(folder.path());
}

#[test]
fn a_page_changed_by_hand_is_made_again_and_a_foreign_file_stays() {
    let folder = workspace();
    build(folder.path());
    let archive = folder.path().join("out").join("archive");
    fs::write(archive.join("tags").join("index.html"), "mine").unwrap();
    fs::write(archive.join("CNAME"), "tern-quay.example").unwrap();
    assert_eq!(build(folder.path()), 1);
    assert_eq!(fs::read_to_string(archive.join("CNAME")).unwrap(), "tern-quay.example");
    fs::remove_file(archive.join("CNAME")).unwrap();
    assert_whole(folder.path());
}

#[test]
fn findings_are_told_again_without_reading_again() {
    let folder = workspace();
    let (path, text) = recipe(folder.path(), 3);
    fs::write(&path, text.replacen("    ingredients:\n", "    ingredients:\n      - 5 g dust of stars\n", 1)).unwrap();
    let said = || {
        let mut command = Command::cargo_bin("levelcup").unwrap();
        let output = command.args(["archive", "--workspace"]).arg(folder.path()).output().unwrap();
        let text = String::from_utf8_lossy(&output.stderr).into_owned();
        (output.status.code(), text.rsplit_once("out: ").expect("a summary").0.to_owned())
    };
    let first = said();
    assert!(first.0 == Some(0) && first.1.contains("dust of stars"), "{}", first.1);
    assert_eq!(said(), first);
}

/// A picture of one colour, wider than the archive shows.
fn photo(folder: &Path, name: &str, red: u8) {
    let photos = folder.join("site").join("photos");
    fs::create_dir_all(&photos).unwrap();
    image::RgbImage::from_pixel(1200, 900, image::Rgb([red, 90, 60])).save(photos.join(name)).unwrap();
}

#[test]
fn a_photograph_comes_in_several_widths_and_is_made_once() {
    let folder = workspace();
    photo(folder.path(), "ring.png", 180);
    let (path, text) = recipe(folder.path(), 5);
    fs::write(&path, text.replacen("tags:", "photo: {file: ring.png, alt: A ring}\ntags:", 1)).unwrap();
    build(folder.path());
    let archive = folder.path().join("out").join("archive");
    let slug = path.file_stem().unwrap();
    let page = fs::read_to_string(archive.join(slug).join("index.html")).unwrap();
    assert!(
        page.contains("srcset=\"../photos/ring-480.jpg 480w, ../photos/ring-960.jpg 960w, ../photos/ring.jpg 1200w\"")
    );
    assert!(page.contains("width=\"1200\" height=\"900\" alt=\"A ring\""));
    assert!(page.contains("<meta property=\"og:image\" content=\"https://tern-quay.example/photos/ring.jpg\">"));
    let size = |name: &str| image::image_dimensions(archive.join("photos").join(name)).unwrap();
    assert_eq!((size("ring-480.jpg"), size("ring.jpg")), ((480, 360), (1200, 900)));
    assert_eq!(build(folder.path()), 0);
    photo(folder.path(), "ring.png", 20);
    assert_eq!(build(folder.path()), 3);
}

#[test]
fn the_check_follows_every_link() {
    let folder = workspace();
    build(folder.path());
    let check = || {
        let mut command = Command::cargo_bin("levelcup").unwrap();
        let output = command.args(["archive", "--check", "--workspace"]).arg(folder.path()).output().unwrap();
        (output.status.code(), String::from_utf8_lossy(&output.stderr).into_owned())
    };
    let (code, said) = check();
    assert_eq!(code, Some(0), "{said}");
    fs::remove_file(folder.path().join("out").join("archive").join("tags").join("index.html")).unwrap();
    let (code, said) = check();
    assert_eq!(code, Some(1));
    assert!(said.contains("index.html: `tags/index.html` leads nowhere"), "{said}");
}
