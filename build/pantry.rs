//! The pantry's YAML files as one JSON text, so that the program starts without reading YAML.

use std::error::Error;
use std::fs;
use std::path::Path;

/// Writes `pantry.json` from every file of the table, in the order of their names.
#[allow(clippy::disallowed_methods, reason = "the build writes to its own folder")]
pub(crate) fn pantry(table: &Path, out: &Path) -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=build/pantry.rs");
    println!("cargo::rerun-if-changed={}", table.display());
    let mut files: Vec<_> = fs::read_dir(table)?.collect::<Result<Vec<_>, _>>()?.iter().map(|e| e.path()).collect();
    files.sort();
    let mut rows: Vec<serde_json::Value> = Vec::new();
    for file in files.iter().filter(|file| file.extension().is_some_and(|e| e == "yaml")) {
        let text = fs::read_to_string(file)?;
        let of_file: Vec<serde_json::Value> =
            serde_yaml::from_str(&text).map_err(|error| format!("{}: {error}", file.display()))?;
        rows.extend(of_file);
    }
    fs::write(out.join("pantry.json"), serde_json::to_string(&rows)?)?;
    Ok(())
}
