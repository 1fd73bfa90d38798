//! Every link inside the archive leads to a file of the archive, and every fragment to an id.

use std::collections::{BTreeMap, BTreeSet};

/// The values of `attribute` in a page, entities of addresses undone.
fn values<'a>(page: &'a str, attribute: &str) -> Vec<&'a str> {
    let opening = format!(" {attribute}=\"");
    let rests = page.split(opening.as_str()).skip(1);
    rests.map(|rest| rest.split('"').next().expect("split yields one part at least")).collect()
}

/// The path that a relative address leads to from a page, `None` where it leaves the archive.
fn resolve(page: &str, address: &str) -> Option<String> {
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for part in address.split('/') {
        match part {
            ".." => {
                parts.pop()?;
            }
            "." | "" => {}
            name => parts.push(name),
        }
    }
    Some(parts.join("/"))
}

fn broken(files: &BTreeMap<String, String>) -> Vec<String> {
    let ids: BTreeMap<&str, BTreeSet<&str>> =
        files.iter().map(|(path, page)| (path.as_str(), values(page, "id").into_iter().collect())).collect();
    let mut broken = Vec::new();
    for (path, page) in files.iter().filter(|(path, _)| path.ends_with(".html") && *path != "404.html") {
        for address in values(page, "href").into_iter().chain(values(page, "src")) {
            if address.contains("://") || address.starts_with("mailto:") || address.ends_with(".pdf") {
                continue;
            }
            let (file, fragment) = address.split_once('#').unwrap_or((address, ""));
            let target = if file.is_empty() { Some(path.clone()) } else { resolve(path, file) };
            let found = target.as_deref().and_then(|target| ids.get(target));
            if !found.is_some_and(|ids| fragment.is_empty() || ids.contains(fragment)) {
                broken.push(format!("{path}: {address}"));
            }
        }
    }
    broken
}

#[test]
fn no_link_is_broken() {
    assert_eq!(broken(&super::tern_quay()), Vec::<String>::new());
}

#[test]
fn the_checker_finds_what_is_broken() {
    let page = "<p id=\"a\"> <a href=\"#a\"> <a href=\"#b\"> <a href=\"../x.html\"> <a href=\"no.html\">".to_owned();
    let files = BTreeMap::from([("index.html".to_owned(), page)]);
    assert_eq!(broken(&files), ["index.html: #b", "index.html: ../x.html", "index.html: no.html"]);
}

#[test]
fn no_relative_link_relies_on_a_server() {
    for (path, page) in super::tern_quay().iter().filter(|(path, _)| path.ends_with(".html") && *path != "404.html") {
        for address in values(page, "href") {
            let relative = !address.contains("://");
            assert!(!(relative && (address.starts_with('/') || address.ends_with('/'))), "{path}: {address}");
        }
    }
}

#[test]
fn ids_are_unique_on_their_page() {
    for (path, page) in super::tern_quay() {
        let ids = values(&page, "id");
        assert_eq!(ids.len(), ids.iter().collect::<BTreeSet<_>>().len(), "{path}: {ids:?}");
    }
}

#[test]
fn links_of_the_page_for_lost_addresses_start_at_the_root() {
    let page = &super::tern_quay()["404.html"];
    assert!(page.contains("href=\"/style.css\"") && page.contains("href=\"/all/index.html\""));
}
