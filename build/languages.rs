//! The languages' YAML files as one JSON text, so that the program starts without reading YAML.

use std::collections::BTreeMap;
use std::error::Error;
use std::fs;
use std::path::Path;

/// Writes `languages.json` from every file of the folder, by the tags that their names are.
#[allow(clippy::disallowed_methods, reason = "the build writes to its own folder")]
pub(crate) fn languages(folder: &Path, out: &Path) -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=build/languages.rs");
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut all: BTreeMap<String, serde_json::Value> = BTreeMap::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let Some(tag) = path.file_stem().filter(|_| path.extension().is_some_and(|end| end == "yaml")) else {
            continue;
        };
        let text = fs::read_to_string(&path)?;
        let section = serde_yaml::from_str(&text).map_err(|error| format!("{}: {error}", path.display()))?;
        all.insert(tag.to_string_lossy().into_owned(), section);
    }
    fs::write(out.join("languages.json"), serde_json::to_string(&all)?)?;
    Ok(())
}
