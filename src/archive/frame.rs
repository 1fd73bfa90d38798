use serde::Serialize;
use tera::Context;

use super::folders::{FOLDERS, Folder};
use super::page::ArchiveFile;
use super::title::title;
use super::{ArchiveError, Material};
use crate::language::Language;
use crate::render::Environment;
use crate::text::{is_linkable, path_part};
use crate::trace::Key;
use crate::workspace::Site;

/// Sets pages into the frame they share.
pub(super) struct Framer<'a> {
    pub(super) site: &'a Site,
    environment: &'a Environment,
    menu: Menu,
    /// Of all that every page shows: the site and the menu.
    key: Key,
}

/// What the frame links to. The same whatever the recipes are, so that one recipe never changes another's page.
#[derive(Serialize)]
struct Menu {
    pages: Vec<MenuItem>,
    writings: Vec<MenuItem>,
    feed: bool,
}

#[derive(Serialize)]
struct MenuItem {
    slug: String,
    href: String,
    title: String,
}

/// What the frame needs to know of a page.
#[derive(Serialize)]
pub(super) struct Head<'a> {
    pub(super) title: &'a str,
    pub(super) description: &'a str,
    /// Which entry of the menu is current: `home`, the name of a folder, or a writing's slug.
    pub(super) here: &'a str,
    /// `website` or `article`, as Open Graph has it.
    pub(super) kind: &'static str,
}

impl<'a> Framer<'a> {
    pub(super) fn new(material: &Material<'a>) -> Self {
        let item = |slug: &str, folder: &str, title: String| MenuItem {
            slug: slug.into(),
            href: folder_address(folder),
            title,
        };
        let say = |key: &str| material.environment.language().say(key, &[]);
        let page = |of: &Folder| Some(item(if of.name.is_empty() { "home" } else { of.name }, of.name, say(of.menu?)));
        let item = |writing: &super::Writing| item(&writing.slug, &writing.slug, title(writing));
        let menu = Menu {
            pages: FOLDERS.iter().filter_map(page).collect(),
            writings: material.writings.iter().map(item).collect(),
            feed: is_linkable(material.site.url.trim()),
        };
        let key = Key::of_value(&(material.site, &menu));
        Self { site: material.site, environment: material.environment, menu, key }
    }

    pub(super) fn language(&self) -> &'a Language {
        self.environment.language()
    }

    /// What the site's language says in the place of a key.
    pub(super) fn say(&self, key: &str, with: &[(&str, &str)]) -> String {
        self.environment.language().say(key, with)
    }

    /// The key of a page made by a template from what `of` stands for.
    pub(super) fn key(&self, template: &str, of: &[&[u8]]) -> Key {
        let fixed = [self.key.bytes(), self.environment.fingerprint(template)];
        Key::of(fixed.into_iter().chain(of.iter().copied()))
    }

    /// Address of the archive with its trailing slash.
    pub(super) fn url(&self) -> String {
        let url = self.site.url.trim();
        if url.ends_with('/') { url.into() } else { format!("{url}/") }
    }

    /// Whether the site says where it is, without which there is no feed, site map or canonical link.
    pub(super) fn has_address(&self) -> bool {
        is_linkable(&self.url())
    }

    /// The page at `folder/index.html`; `folder` is empty for the home page.
    pub(super) fn page(
        &self,
        folder: &str,
        template: &str,
        head: &Head<'_>,
        context: Context,
    ) -> Result<Vec<u8>, ArchiveError> {
        let depth = folder.split('/').filter(|part| !part.is_empty()).count();
        self.set(&page_path(folder), template, head, &"../".repeat(depth), &folder_address(folder), context)
    }

    fn set(
        &self,
        path: &str,
        template: &str,
        head: &Head<'_>,
        root: &str,
        address: &str,
        mut context: Context,
    ) -> Result<Vec<u8>, ArchiveError> {
        context.insert("head", head);
        context.insert("root", root);
        context.insert("canonical", &format!("{}{address}", self.url()));
        context.insert("menu", &self.menu);
        self.render(path, template, context)
    }

    /// A file outside the frame, such as a feed.
    pub(super) fn render(&self, path: &str, template: &str, mut context: Context) -> Result<Vec<u8>, ArchiveError> {
        context.insert("site", self.site);
        context.insert("url", &self.url());
        let text = self.environment.render_context(template, &context);
        text.map(String::into_bytes).map_err(|source| ArchiveError::Template { path: path.into(), source })
    }

    /// The page for addresses that lead nowhere. It is served at any depth, so its links start at the host's root.
    pub(super) fn not_found(&self) -> ArchiveFile<'_> {
        let (path, template) = ("404.html", "archive/404.html");
        ArchiveFile::new(path, self.key(template, &[]), move || {
            let title = self.say("no-such-page", &[]);
            let head = Head { title: &title, description: "", here: "", kind: "website" };
            self.set(path, template, &head, &root_path(&self.url()), "", Context::new())
        })
    }
}

/// The file of the page of a folder.
pub(super) fn page_path(folder: &str) -> String {
    if folder.is_empty() { "index.html".into() } else { format!("{folder}/index.html") }
}

/// The path of an address: `/` or `/recipes/`.
pub fn root_path(url: &str) -> String {
    let after_scheme = url.split_once("://").map_or(url, |(_, rest)| rest);
    after_scheme.find('/').map_or("/", |slash| &after_scheme[slash..]).into()
}

/// The address of a folder relative to the archive's root: escaped, with its trailing slash; empty for the root.
pub(super) fn folder_address(folder: &str) -> String {
    let parts = folder.split('/').filter(|part| !part.is_empty());
    parts.map(|part| format!("{}/", path_part(part))).collect()
}

/// The address of a file relative to the archive's root, escaped.
pub(super) fn file_address(path: &str) -> String {
    folder_address(path).trim_end_matches('/').to_owned()
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
