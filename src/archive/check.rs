use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::Path;

use percent_encoding::percent_decode_str;
use rayon::prelude::*;
use walkdir::WalkDir;

use crate::source::Gate;

/// The largest page that is read, in bytes.
const LARGEST: u64 = 64 << 20;

/// A link, anchor or picture of a page that leads nowhere.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Broken {
    /// The page's path in the archive.
    pub page: String,
    /// The address as the page has it.
    pub address: String,
}

/// What a page has and leads to.
#[derive(Default)]
struct PageRead {
    ids: BTreeSet<String>,
    addresses: BTreeSet<String>,
}

/// What was looked at, and what of it leads nowhere.
#[derive(Debug, Default)]
pub struct Checked {
    /// Pages read.
    pub pages: usize,
    /// Addresses within the archive that were followed.
    pub addresses: usize,
    /// In order of page and address.
    pub broken: Vec<Broken>,
}

/// Follows every address of every page in a folder that leads inside it: links, anchors, pictures, styles and scripts.
///
/// `root` is the path at which a server would show the folder: `/` or `/recipes/`.
///
/// # Errors
/// A folder or page that cannot be read.
pub fn check(folder: &Path, root: &str) -> io::Result<Checked> {
    let gate = Gate::anywhere();
    let mut files = BTreeSet::new();
    for entry in WalkDir::new(folder) {
        let entry = entry?;
        if let Some(path) = entry.path().strip_prefix(folder).ok().filter(|_| entry.file_type().is_file()) {
            let parts: Vec<_> = path.components().map(|part| part.as_os_str().to_string_lossy()).collect();
            files.insert(parts.join("/"));
        }
    }
    let pages: Vec<&String> = files.iter().filter(|path| path.ends_with(".html")).collect();
    let read: BTreeMap<&str, PageRead> = pages
        .par_iter()
        .map(|path| {
            let bytes = gate.bytes(&folder.join(path.as_str()), LARGEST).map_err(io::Error::other)?;
            Ok((path.as_str(), self::read(&String::from_utf8_lossy(&bytes))))
        })
        .collect::<io::Result<_>>()?;
    let mut checked = Checked { pages: read.len(), ..Checked::default() };
    for (page, found) in &read {
        for address in found.addresses.iter().filter(|address| is_inside(address)) {
            checked.addresses += 1;
            let (path, anchor) = address.split_once('#').unwrap_or((address, ""));
            let target = if path.is_empty() { Some((*page).to_owned()) } else { resolve(page, path, root) };
            let there = target.as_deref().is_some_and(|target| files.contains(target));
            let anchored = |target: &str| read.get(target).is_none_or(|target| target.ids.contains(anchor));
            if !there || !(anchor.is_empty() || target.as_deref().is_some_and(anchored)) {
                checked.broken.push(Broken { page: (*page).to_owned(), address: address.clone() });
            }
        }
    }
    Ok(checked)
}

/// Addresses of this archive have no scheme and no host.
fn is_inside(address: &str) -> bool {
    let scheme = address.split(['/', '#', '?']).next().is_some_and(|first| first.contains(':'));
    !scheme && !address.starts_with("//")
}

/// The file that a relative address leads to from a page, `None` where it leaves the archive.
fn resolve(page: &str, address: &str, root: &str) -> Option<String> {
    let address = address.split('?').next().unwrap_or(address);
    let (mut parts, rest): (Vec<String>, &str) = match address.strip_prefix('/') {
        Some(_) => (Vec::new(), address.strip_prefix(root)?),
        None => (page.split('/').map(str::to_owned).collect(), address),
    };
    if !address.starts_with('/') {
        parts.pop();
    }
    for part in rest.split('/') {
        match part {
            ".." => drop(parts.pop()?),
            "." | "" => {}
            name => parts.push(percent_decode_str(name).decode_utf8_lossy().into_owned()),
        }
    }
    if rest.is_empty() || rest.ends_with('/') {
        parts.push("index.html".into());
    }
    Some(parts.join("/"))
}

/// Reads the attributes of a page's tags.
fn read(page: &str) -> PageRead {
    let mut read = PageRead::default();
    for tag in page.split('<').skip(1).filter(|tag| tag.starts_with(|c: char| c.is_ascii_alphabetic())) {
        // Values hold no bare `<`, and every one stands in double quotes, as the templates write them.
        let mut pieces = tag.split('"');
        while let (Some(name), Some(value)) = (pieces.next(), pieces.next()) {
            if name.contains('>') {
                break;
            }
            let value = value.replace("&amp;", "&");
            match name.trim_end_matches('=').rsplit(char::is_whitespace).next().unwrap_or_default() {
                "id" => drop(read.ids.insert(value)),
                "href" | "src" => drop(read.addresses.insert(value)),
                "srcset" => {
                    let pictures = value.split(',').filter_map(|one| one.split_whitespace().next());
                    read.addresses.extend(pictures.map(str::to_owned));
                }
                _ => {}
            }
        }
    }
    read
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn attributes_are_read() {
        let found = read(
            "<p id=\"a\">x \"y\" <a class=\"b\" href=\"../c?d=1&amp;e\">f</a><img srcset=\"p 1x, q 2x\" src=\"p\">",
        );
        assert_eq!(found.ids.into_iter().collect::<Vec<_>>(), ["a"]);
        assert_eq!(found.addresses.into_iter().collect::<Vec<_>>(), ["../c?d=1&e", "p", "q"]);
    }

    #[test]
    fn addresses_lead_to_files() {
        let case = |address: &str, wanted: Option<&str>| {
            assert_eq!(resolve("tart/index.html", address, "/recipes/").as_deref(), wanted, "{address}");
        };
        case("../buns/index.html", Some("buns/index.html"));
        case("../buns/", Some("buns/index.html"));
        case("../br%C3%BBl%C3%A9e/index.html", Some("brûlée/index.html"));
        case("/recipes/style.css", Some("style.css"));
        case("/style.css", None);
        case("../../x", None);
        assert!(!is_inside("https://a.example/") && !is_inside("mailto:a@b.example") && is_inside("#a"));
    }
}
