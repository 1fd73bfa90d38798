//! The files of a folder as one list of names and texts, so that a further one is a file and no line of code.

use std::error::Error;
use std::fs;
use std::path::Path;

/// Writes a slice of every file's name and text, by name. Passed over is what a workspace's folder of templates may hold
/// too: hidden files, editors' copies and `README.md`.
#[allow(clippy::disallowed_methods, reason = "the build writes to its own folder")]
pub(crate) fn texts(folder: &Path, list: &Path) -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=build/texts.rs");
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut names = Vec::new();
    walk(folder, "", &mut names)?;
    names.sort();
    let root = fs::canonicalize(folder)?;
    let row = |name: &String| format!("    ({name:?}, include_str!({:?})),\n", root.join(name).display().to_string());
    let rows: String = names.iter().map(row).collect();
    fs::write(list, format!("&[\n{rows}]\n"))?;
    Ok(())
}

fn walk(folder: &Path, under: &str, names: &mut Vec<String>) -> Result<(), Box<dyn Error>> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.starts_with('.') || name.ends_with('~') || name == "README.md" {
            continue;
        }
        if entry.file_type()?.is_dir() {
            walk(&entry.path(), &format!("{under}{name}/"), names)?;
        } else {
            names.push(format!("{under}{name}"));
        }
    }
    Ok(())
}
