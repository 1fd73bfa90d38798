//! Writes the notices of all that is linked into the program, and of its typeface, into `OUT_DIR`.

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

/// Writes `notices.txt`.
///
/// # Errors
/// The crates' own files cannot be found or read.
#[allow(clippy::disallowed_methods, reason = "the build reads the crates it is of, and writes to its own folder")]
pub(crate) fn notices(out: &Path) -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=build/notices.rs");
    println!("cargo::rerun-if-changed=Cargo.lock");
    let metadata = metadata()?;
    let mut texts: BTreeMap<String, BTreeSet<Crate>> = BTreeMap::new();
    let mut all: BTreeSet<Crate> = BTreeSet::new();
    let mut typeface = String::new();
    for package in linked(&metadata) {
        let text = |key: &str| package[key].as_str().unwrap_or_default().to_owned();
        let name = format!("{} {}", text("name"), text("version"));
        let folder = text("manifest_path");
        let folder = Path::new(&folder).parent().ok_or("a package lies in a folder")?;
        if text("name") == TYPEFACE {
            typeface = of_typeface(&fs::read_to_string(folder.join("NOTICE"))?);
            continue;
        }
        all.insert((name.clone(), text("license")));
        for notice in files(folder)? {
            texts
                .entry(fs::read_to_string(notice)?.trim().replace("\r\n", "\n"))
                .or_default()
                .insert((name.clone(), text("license")));
        }
    }
    let mut written = String::from(
        "levelcup is under the MIT licence. It is built of the Rust standard library (MIT or Apache-2.0) and of these:\n\n",
    );
    for (name, licence) in &all {
        written.push_str(&format!("{name} ({licence})\n"));
    }
    for (text, crates) in &texts {
        let names: Vec<&str> = crates.iter().map(|(name, _)| name.as_str()).collect();
        written.push_str(&format!("\n{}\nOf {}:\n\n{text}\n", "-".repeat(80), names.join(", ")));
    }
    written.push_str(&format!("\n{}\nOf the typeface of cards:\n\n{typeface}\n", "-".repeat(80)));
    fs::write(out.join("notices.txt"), written)?;
    Ok(())
}

/// What cargo knows of the packages that this one is built of.
fn metadata() -> Result<Value, Box<dyn Error>> {
    let cargo = std::env::var_os("CARGO").ok_or("cargo sets CARGO for build scripts")?;
    let target = std::env::var("TARGET")?;
    let arguments = ["metadata", "--format-version", "1", "--offline", "--locked", "--filter-platform", &target];
    let output = Command::new(cargo).args(arguments).output()?;
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
