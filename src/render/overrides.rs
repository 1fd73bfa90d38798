use std::collections::BTreeMap;
use std::fs::File;
use std::io::Read;
use std::path::Path;

use walkdir::{DirEntry, WalkDir};

use super::error::TemplateError;

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
/// For a symbolic link, a file that is not UTF-8, too large or unreadable, and for too many files or folders.
pub(super) fn read_overrides(folder: &Path) -> Result<BTreeMap<String, String>, TemplateError> {
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
        if entry.path_is_symlink() && entry.depth() > 0 {
            let help = Some("put the file itself into the folder".into());
            return Err(TemplateError::whole(shown, "a template may not be a link to somewhere else", help));
        }
        if entry.depth() > MAX_DEPTH {
            return Err(TemplateError::whole(shown, format!("more than {MAX_DEPTH} folders deep"), None));
        }
        if !entry.file_type().is_file() {
            continue;
        }
        if templates.len() == MAX_FILES {
            return Err(TemplateError::whole(shown, format!("more than {MAX_FILES} templates"), None));
        }
        if let Some(name) = name_in(folder, entry.path()) {
            templates.insert(name, read_bounded(entry.path())?);
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

fn read_bounded(path: &Path) -> Result<String, TemplateError> {
    let fault = |message: String| TemplateError::whole(path.display().to_string(), message, None);
    let file = File::open(path).map_err(|error| fault(format!("cannot read the template: {error}")))?;
    let mut bytes = Vec::new();
    // One byte more than allowed is enough to know that the file is too large.
    file.take(MAX_BYTES + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| fault(format!("cannot read the template: {error}")))?;
    if bytes.len() as u64 > MAX_BYTES {
        return Err(fault(format!("larger than {} KiB", MAX_BYTES / 1024)));
    }
    String::from_utf8(bytes).map_err(|_| fault("not UTF-8 text".into()))
}
