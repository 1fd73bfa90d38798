//! The notices of all that is linked into the program, and of its typeface, are those in `src/commands/notices.txt`.
//! After a change of `Cargo.lock`: `cargo test notices -- --ignored` writes the file anew, for every platform.

use std::collections::{BTreeMap, BTreeSet};
use std::error::Error;
use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::Value;

/// Beginnings of the names of files that hold notices.
const NOTICES: [&str; 6] = ["license", "licence", "copying", "copyright", "notice", "unlicense"];

/// The crate that the typeface comes from; it is a part of the build alone, its fonts are not.
const TYPEFACE: &str = "typst-assets";

/// A crate with its licence as it states it.
type Crate = (String, String);

/// The file that the program prints.
const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/src/commands/notices.txt");

/// What is linked: crates, each notice with the crates that it is of, and the notice of the typeface.
#[derive(Default)]
struct Linked {
    crates: BTreeSet<Crate>,
    texts: BTreeMap<String, BTreeSet<String>>,
    typeface: String,
}

#[test]
fn the_notices_are_of_all_that_is_linked_here() -> Result<(), Box<dyn Error>> {
    let written = fs::read_to_string(FILE)?;
    let linked = of(&metadata(&["--offline", "--filter-platform", &host()?])?)?;
    assert!(linked.crates.len() > 50, "{} crates", linked.crates.len());
    for (name, licence) in &linked.crates {
        assert!(written.contains(&format!("\n{name} ({licence})\n")), "{name} is not in {FILE}");
    }
    for (text, crates) in &linked.texts {
        assert!(written.contains(text.as_str()), "the notice of {crates:?} is not in {FILE}");
    }
    assert!(written.contains(&linked.typeface) && linked.typeface.contains("Libertinus"));
    Ok(())
}

#[test]
fn the_notices_are_of_nothing_else() -> Result<(), Box<dyn Error>> {
    let written = fs::read_to_string(FILE)?;
    let lock = fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/Cargo.lock"))?;
    let listed = written.lines().skip(2).take_while(|line| !line.is_empty());
    for (name, version) in listed.filter_map(|line| line.split(" (").next()?.split_once(' ')) {
        let entry = format!("name = \"{name}\"\nversion = \"{version}\"");
        assert!(lock.contains(&entry), "{name} {version} is not in Cargo.lock");
    }
    Ok(())
}

#[test]
#[ignore = "writes src/commands/notices.txt, and fetches the crates of other platforms"]
fn notices_are_written() -> Result<(), Box<dyn Error>> {
    Ok(fs::write(FILE, of(&metadata(&[])?)?.written())?)
}

impl Linked {
    /// The file as it is printed.
    fn written(&self) -> String {
        let mut written = String::from(
            "levelcup is under the MIT licence. It is built of the Rust standard library (MIT or Apache-2.0) and of these:\n\n",
        );
        for (name, licence) in &self.crates {
            written.push_str(&format!("{name} ({licence})\n"));
        }
        let rule = "-".repeat(80);
        for (text, crates) in &self.texts {
            let names: Vec<&str> = crates.iter().map(String::as_str).collect();
            written.push_str(&format!("\n{rule}\nOf {}:\n\n{text}\n", names.join(", ")));
        }
        written.push_str(&format!("\n{rule}\nOf the typeface of cards:\n\n{}\n", self.typeface));
        written
    }
}

/// What is linked, by cargo's own account of it and the files that lie in each crate.
fn of(metadata: &Value) -> Result<Linked, Box<dyn Error>> {
    let mut found = Linked::default();
    for package in linked(metadata) {
        let text = |key: &str| package[key].as_str().unwrap_or_default().to_owned();
        let name = format!("{} {}", text("name"), text("version"));
        let folder = text("manifest_path");
        let folder = Path::new(&folder).parent().ok_or("a package lies in a folder")?;
        if text("name") == TYPEFACE {
            found.typeface = of_typeface(&fs::read_to_string(folder.join("NOTICE"))?);
            continue;
        }
        found.crates.insert((name.clone(), text("license")));
        for notice in files(folder)? {
            let notice = fs::read_to_string(notice)?.trim().replace("\r\n", "\n");
            found.texts.entry(notice).or_default().insert(name.clone());
        }
    }
    Ok(found)
}

/// The platform that cargo builds for here.
fn host() -> Result<String, Box<dyn Error>> {
    let said = Command::new(env!("CARGO")).args(["--version", "--verbose"]).output()?;
    let said = String::from_utf8(said.stdout)?;
    Ok(said.lines().find_map(|line| line.strip_prefix("host: ")).ok_or("cargo names its host")?.to_owned())
}

/// What cargo knows of the packages that this one is built of.
fn metadata(arguments: &[&str]) -> Result<Value, Box<dyn Error>> {
    let known = ["metadata", "--format-version", "1", "--locked"];
    let output =
        Command::new(env!("CARGO")).args(known).args(arguments).current_dir(env!("CARGO_MANIFEST_DIR")).output()?;
    if !output.status.success() {
        return Err(String::from_utf8_lossy(&output.stderr).into());
    }
    Ok(serde_json::from_slice(&output.stdout)?)
}

/// The packages that are linked, and the one with the typeface.
fn linked(metadata: &Value) -> Vec<&Value> {
    let list = |value: &'static str, of: &Value| of[value].as_array().cloned().unwrap_or_default();
    let root = metadata["resolve"]["root"].as_str().unwrap_or_default().to_owned();
    let nodes: BTreeMap<String, Value> = list("nodes", &metadata["resolve"])
        .into_iter()
        .filter_map(|node| Some((node["id"].as_str()?.to_owned(), node)))
        .collect();
    let packages: BTreeMap<&str, &Value> = metadata["packages"]
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(|package| Some((package["id"].as_str()?, package)))
        .collect();
    let is_macro = |package: &Value| package["targets"].to_string().contains("\"proc-macro\"");
    let mut seen = BTreeSet::from([root.clone()]);
    let mut waiting = vec![root.clone()];
    while let Some(id) = waiting.pop() {
        for needed in nodes.get(&id).map(|node| list("deps", node)).unwrap_or_default() {
            let own = list("dep_kinds", &needed).iter().any(|kind| kind["kind"].is_null());
            let Some(next) = needed["pkg"].as_str().filter(|next| own || (id == root && next.contains(TYPEFACE)))
            else {
                continue;
            };
            let linked = packages.get(next).is_some_and(|package| !is_macro(package));
            if linked && seen.insert(next.to_owned()) {
                waiting.push(next.to_owned());
            }
        }
    }
    seen.iter().filter(|id| **id != root).filter_map(|id| packages.get(id.as_str()).copied()).collect()
}

/// The files with notices of a crate; of a licence that is one of two, MIT where it is there.
fn files(folder: &Path) -> Result<Vec<std::path::PathBuf>, Box<dyn Error>> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().to_lowercase();
        if entry.file_type()?.is_file() && NOTICES.iter().any(|start| name.starts_with(start)) {
            found.push(entry.path());
        }
    }
    let named = |path: &std::path::Path, word: &str| {
        path.file_name().is_some_and(|name| name.to_string_lossy().to_lowercase().contains(word))
    };
    if found.iter().any(|path| named(path, "mit")) {
        found.retain(|path| !named(path, "apache") && !named(path, "unlicense") && !named(path, "zlib"));
    }
    found.sort();
    Ok(found)
}

/// The part of the notices that is about the typeface.
fn of_typeface(notices: &str) -> String {
    let parts = notices.split("\n====");
    let part = parts.into_iter().find(|part| part.contains("Libertinus Serif")).unwrap_or_default();
    part.trim_start_matches('=').trim().to_owned()
}
