use std::sync::{Arc, LazyLock};

use jiff::civil::Date;

use super::component;
use super::file;
use super::file::{AllowEntry, CorrectionEntry, LinkEntry, PhotoEntry, Short, VideoEntry, WrittenRecipe, WrittenText};
use super::reader::Reader;
use super::recipe::{Allow, Correction, Link, Recipe, StatedPhoto, Video};
use super::servings::Servings;
use super::{LineReader, LinkKind};
use crate::source::{Finding, Level, Source};
use crate::yaml::{Document, Format, Node};

static FORMAT: LazyLock<Format> = LazyLock::new(|| {
    let start = "a recipe starts with `title:` and has `components:`; `recipes/README.md` shows one";
    Format::new(&file::schema(), "a recipe", start).filled("start with `title:`")
});

/// Reads a recipe file.
///
/// Every fault is a finding; there is a recipe only when none of them is an error. `slug` is the file's stem.
pub fn read(source: Source, slug: &str, lines: &LineReader) -> (Option<Recipe>, Vec<Finding>) {
    let mut document = match Document::read(&source, &FORMAT) {
        Ok(document) => document,
        Err(finding) => return (None, vec![*finding]),
    };
    let Some(file) = document.typed(&source) else {
        document.findings.sort_by_key(|finding| finding.span.start);
        return (None, document.findings);
    };
    let mut reader = Reader { source: &source, lines, findings: Vec::new() };
    let recipe = reader.recipe(file, &document.root, slug);
    let mut findings = reader.findings;
    // Of what is missing nothing more is said.
    findings.retain(|finding| !document.lacks_keys_at(&finding.span));
    findings.extend(document.findings);
    findings.sort_by_key(|finding| finding.span.start);
    if findings.iter().any(|finding| finding.level == Level::Error) {
        return (None, findings);
    }
    (Some(recipe), findings)
}

impl Reader<'_> {
    fn recipe(&mut self, file: WrittenRecipe, root: &Arc<Node>, slug: &str) -> Recipe {
        if file.components.is_empty() {
            let span = root.key("components").span.clone();
            let finding = Finding::error("missing-key", span, "the recipe has no component");
            self.findings.push(finding.help("add one: `- name:` with `ingredients:` and `steps:`"));
        }
        Recipe {
            slug: slug.into(),
            source: self.source.clone(),
            root: root.clone(),
            title: self.filled(file.title, root.key("title")),
            summary: file.summary.map(|text| text.0),
            published: file.published.and_then(|text| self.date(&text.0, root.key("published"))),
            makes: file.makes.map(|text| text.0),
            serves: file.serves.and_then(|text| self.servings(&text.0, root.key("serves"))),
            was: self.earlier_slugs(file.was.0, root.key("was"), slug),
            tags: file.tags.0.into_iter().map(|tag| tag.0).filter(|tag| !tag.is_empty()).collect(),
            video: file.video.and_then(|video| self.video(video, root.key("video"))),
            photo: file.photo.and_then(|photo| self.photo(photo, root.key("photo"))),
            links: self.links(file.links, root.key("links")),
            components: component::components(self, file.components, root.key("components")),
            corrections: self.corrections(file.corrections, root.key("corrections")),
            allow: allows(file.allow, root.key("allow")),
        }
    }

    /// Earlier names, of the form that a file's may have.
    fn earlier_slugs(&mut self, names: Vec<WrittenText>, node: &Node, slug: &str) -> Vec<String> {
        let mut slugs = Vec::new();
        for (index, WrittenText(name)) in names.into_iter().enumerate() {
            let plain = !name.is_empty() && name.chars().all(|c| c.is_alphanumeric() || matches!(c, '-' | '_'));
            let name = name.to_lowercase();
            if plain && name != slug {
                slugs.push(name);
            } else {
                let message = format!("`{name}` is not an earlier name of this recipe");
                let help = "write the file name it had, without `.yaml`: letters, digits, `-` and `_`";
                self.error("unreadable-name", node.item(index).span.clone(), message, help);
            }
        }
        slugs
    }

    fn servings(&mut self, text: &str, node: &Node) -> Option<Servings> {
        let read = Servings::read(text, self.lines.times());
        if read.is_none() {
            let message = format!("`{text}` is no number of servings");
            self.error("unreadable-servings", node.span.clone(), message, "write a number or a range: `10`, `8 to 10`");
        }
        read
    }

    fn date(&mut self, text: &str, node: &Node) -> Option<Date> {
        let date = text.parse::<Date>().ok().filter(|_| text.len() == 10);
        if date.is_none() {
            let message = format!("`{text}` is not a date");
            self.error("unreadable-date", node.span.clone(), message, "write year, month and day: `2026-07-04`");
        }
        date
    }

    fn video(&mut self, video: Short<VideoEntry>, node: &Node) -> Option<Video> {
        match video {
            Short::Line(url) => Some(Video { url: self.url(&url, node)?, length: None }),
            Short::Long(video) => {
                let url = self.url(&video.url.0, node.key("url"))?;
                let length = video.length.and_then(|text| self.timestamp(&text.0, node.key("length")));
                Some(Video { url, length })
            }
        }
    }

    fn photo(&mut self, photo: PhotoEntry, node: &Node) -> Option<StatedPhoto> {
        let alt = self.filled(photo.alt, node.key("alt"));
        let file = photo.file.0;
        let parts = || std::path::Path::new(&file).components();
        let inside = !file.is_empty() && parts().all(|part| matches!(part, std::path::Component::Normal(_)));
        if !inside || file.contains(['\\', ':', '\0']) {
            let message = format!("`{file}` leads out of the photo folder");
            let help = "name a file inside `site/photos/`: `apricot-tart.jpg`";
            self.error("path-outside-workspace", node.key("file").span.clone(), message, help);
            return None;
        }
        Some(StatedPhoto { file, alt })
    }

    fn links(&mut self, links: Vec<LinkEntry>, node: &Node) -> Vec<Link> {
        let mut understood = Vec::new();
        for (index, link) in links.into_iter().enumerate() {
            let node = node.item(index);
            let what = self.filled(link.what, node.key("what"));
            let kind = link.kind.unwrap_or(LinkKind::Other);
            if let Some(url) = self.url(&link.url.0, node.key("url")) {
                understood.push(Link { what, url, kind, paid: link.paid });
            }
        }
        understood
    }

    fn corrections(&mut self, entries: Vec<CorrectionEntry>, node: &Node) -> Vec<Correction> {
        let mut corrections: Vec<Correction> = Vec::new();
        for (index, entry) in entries.into_iter().enumerate() {
            let node = node.item(index);
            let what = self.filled(entry.what, node.key("what"));
            if let Some(on) = self.date(&entry.on.0, node.key("on")) {
                corrections.push(Correction { on, what });
            }
        }
        corrections.sort_by_key(|correction| correction.on);
        corrections
    }
}

fn allows(entries: Vec<Short<AllowEntry>>, node: &Node) -> Vec<Allow> {
    let allow = |(index, entry)| {
        let node = node.item(index);
        match entry {
            Short::Line(rule) => Allow { rule: rule.trim().into(), because: None, span: node.span.clone() },
            Short::Long(entry) => {
                let AllowEntry { rule, because } = *entry;
                let because = Some(because.0).filter(|because| !because.is_empty());
                Allow { rule: rule.0, because, span: node.key("rule").span.clone() }
            }
        }
    };
    entries.into_iter().enumerate().map(allow).collect()
}
