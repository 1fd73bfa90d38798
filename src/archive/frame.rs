use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use serde::Serialize;
use tera::Context;

use super::{ArchiveError, File, Material, writing};
use crate::render::{Environment, is_web_address};
use crate::workspace::Site;

/// What stands unescaped in a part of an address (RFC 3986, section 2.3).
const UNRESERVED: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~');

/// Sets pages into the frame they share.
pub(super) struct Framer<'a> {
    pub(super) site: &'a Site,
    environment: &'a Environment,
    menu: Menu,
}

/// What the frame links to.
#[derive(Serialize)]
struct Menu {
    writings: Vec<Item>,
    corrections: bool,
    feed: bool,
    tags: bool,
}

#[derive(Serialize)]
struct Item {
    slug: String,
    href: String,
    title: String,
}

/// What the frame needs to know of a page.
#[derive(Serialize)]
pub(super) struct Head<'a> {
    pub(super) title: &'a str,
    pub(super) description: &'a str,
    /// Which entry of the menu is current: `home`, `tags`, `all`, `corrections`, or a writing's slug.
    pub(super) here: &'a str,
    /// `website` or `article`, as Open Graph has it.
    pub(super) kind: &'static str,
}

impl<'a> Framer<'a> {
    pub(super) fn new(material: &Material<'a>) -> Self {
        let item = |writing: &super::Writing| Item {
            slug: writing.slug.clone(),
            href: folder_address(&writing.slug),
            title: writing::title(writing),
        };
        let menu = Menu {
            writings: material.writings.iter().map(item).collect(),
            corrections: material.sheets.iter().any(|sheet| !sheet.corrections.is_empty()),
            feed: is_web_address(material.site.url.trim())
                && material.sheets.iter().any(|sheet| sheet.published.is_some()),
            tags: material.sheets.iter().any(|sheet| !sheet.tags.is_empty()),
        };
        Self { site: material.site, environment: material.environment, menu }
    }

    /// Address of the archive with its trailing slash.
    pub(super) fn url(&self) -> String {
        let url = self.site.url.trim();
        if url.ends_with('/') { url.into() } else { format!("{url}/") }
    }

    /// Whether the site says where it is, without which there is no feed, site map or canonical link.
    pub(super) fn has_address(&self) -> bool {
        is_web_address(&self.url())
    }

    /// A page at `folder/index.html`; `folder` is empty for the home page.
    pub(super) fn page(
        &self,
        folder: &str,
        template: &str,
        head: &Head<'_>,
        context: Context,
    ) -> Result<File, ArchiveError> {
        let depth = folder.split('/').filter(|part| !part.is_empty()).count();
        let path = if folder.is_empty() { "index.html".into() } else { format!("{folder}/index.html") };
        self.set(path, template, head, &"../".repeat(depth), &folder_address(folder), context)
    }

    fn set(
        &self,
        path: String,
        template: &str,
        head: &Head<'_>,
        root: &str,
        address: &str,
        mut context: Context,
    ) -> Result<File, ArchiveError> {
        context.insert("head", head);
        context.insert("root", root);
        context.insert("canonical", &format!("{}{address}", self.url()));
        context.insert("menu", &self.menu);
        self.render(path, template, context)
    }

    /// A file outside the frame, such as a feed.
    pub(super) fn render(&self, path: String, template: &str, mut context: Context) -> Result<File, ArchiveError> {
        context.insert("site", self.site);
        context.insert("url", &self.url());
        match self.environment.render_context(template, &context) {
            Ok(text) => Ok((path, text.into_bytes())),
            Err(source) => Err(ArchiveError::Template { path, source }),
        }
    }
}

/// The page for addresses that lead nowhere. It is served at any depth, so its links start at the host's root.
pub(super) fn not_found(framer: &Framer<'_>) -> Result<File, ArchiveError> {
    let head = Head { title: "No such page", description: "", here: "", kind: "website" };
    framer.set("404.html".into(), "archive/404.html", &head, &root_path(&framer.url()), "", Context::new())
}

/// The path of an address: `/` or `/recipes/`.
fn root_path(url: &str) -> String {
    let after_scheme = url.split_once("://").map_or(url, |(_, rest)| rest);
    after_scheme.find('/').map_or("/", |slash| &after_scheme[slash..]).into()
}

/// The address of a folder relative to the archive's root: escaped, with its trailing slash; empty for the root.
pub(super) fn folder_address(folder: &str) -> String {
    let parts = folder.split('/').filter(|part| !part.is_empty());
    parts.map(|part| format!("{}/", utf8_percent_encode(part, UNRESERVED))).collect()
}

#[cfg(test)]
mod tests {
    use super::{folder_address, root_path};

    #[test]
    fn folders_are_escaped_part_by_part() {
        assert_eq!(folder_address(""), "");
        assert_eq!(folder_address("tags/make-ahead"), "tags/make-ahead/");
        assert_eq!(folder_address("tarte à l'\"orange\"?"), "tarte%20%C3%A0%20l%27%22orange%22%3F/");
    }

    #[test]
    fn the_root_is_the_path_of_the_address() {
        assert_eq!(root_path("https://tern-quay.example/"), "/");
        assert_eq!(root_path("https://quay.example/recipes/"), "/recipes/");
        assert_eq!(root_path(""), "/");
    }
}
