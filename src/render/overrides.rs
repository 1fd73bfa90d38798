use std::collections::BTreeMap;
use std::path::Path;

use walkdir::{DirEntry, WalkDir};

use super::error::TemplateError;
use crate::source::Gate;

/// Bytes in one template, at most.
const MAX_BYTES: u64 = 256 * 1024;
/// Templates in a workspace, at most.
const MAX_FILES: usize = 200;
/// Folders inside one another, at most.
const MAX_DEPTH: usize = 4;

/// A workspace's own templates: text by name, names relative to the folder with `/` between folders.
///
/// Empty where there is no such folder. Passed over: hidden files, editors' copies (`card.md~`) and `README.md`.
///
/// # Errors
/// For what is no plain file of the workspace, is not UTF-8, too large or unreadable, and for too many files or folders.
pub(super) fn read_overrides(folder: &Path, gate: &Gate) -> Result<BTreeMap<String, String>, TemplateError> {
    let mut templates = BTreeMap::new();
    if !folder.exists() {
        return Ok(templates);
    }
    let entries = WalkDir::new(folder).sort_by_file_name().into_iter().filter_entry(is_wanted);
    for entry in entries {
        let entry = entry.map_err(|error| {
            TemplateError::whole(folder.display().to_string(), format!("cannot read the templates: {error}"), None)
        })?;
        let shown = entry.path().display().to_string();
        if entry.depth() > MAX_DEPTH {
            return Err(TemplateError::whole(shown, format!("more than {MAX_DEPTH} folders deep"), None));
        }
        if entry.file_type().is_dir() {
            continue;
        }
        if templates.len() == MAX_FILES {
            return Err(TemplateError::whole(shown, format!("more than {MAX_FILES} templates"), None));
        }
        if let Some(name) = name_in(folder, entry.path()) {
            templates.insert(name, text(entry.path(), gate)?);
        }
    }
    Ok(templates)
}

fn is_wanted(entry: &DirEntry) -> bool {
    let name = entry.file_name().to_string_lossy();
    entry.depth() == 0 || !(name.starts_with('.') || name.ends_with('~') || name == "README.md")
}

fn name_in(folder: &Path, path: &Path) -> Option<String> {
    let parts: Option<Vec<&str>> =
        path.strip_prefix(folder).ok()?.components().map(|part| part.as_os_str().to_str()).collect();
    Some(parts?.join("/"))
}

fn text(path: &Path, gate: &Gate) -> Result<String, TemplateError> {
    let fault = |message: String| TemplateError::whole(path.display().to_string(), message, None);
    let bytes = gate.bytes(path, MAX_BYTES).map_err(|error| fault(error.fault.to_string()))?;
    String::from_utf8(bytes).map_err(|_| fault("not UTF-8 text".into()))
}
