use pulldown_cmark::{Event, HeadingLevel, Tag, TagEnd, html};
use tera::Context;

use super::Writing;
use super::frame::{Framer, Head, page_path};
use super::page::ArchiveFile;
use super::title::{parser, title};
use crate::text::is_linkable;

/// The page of a writing.
pub(super) fn page<'a>(framer: &'a Framer<'a>, writing: &'a Writing) -> ArchiveFile<'a> {
    let template = "archive/writing.html";
    let key = framer.key(template, &[writing.slug.as_bytes(), writing.markdown.as_bytes()]);
    ArchiveFile::new(page_path(&writing.slug), key, move || {
        let title = title(writing);
        let mut context = Context::new();
        context.insert("html", &to_html(&writing.markdown));
        let head = Head { title: &title, description: "", here: &writing.slug, kind: "website" };
        framer.page(&writing.slug, template, &head, context)
    })
}

/// HTML of the Markdown without its title, raw HTML, pictures and links to anything but the web, mail and the archive.
fn to_html(markdown: &str) -> String {
    let mut events = Vec::new();
    let mut titled = false;
    let mut skipping = false;
    // Whether each open link is kept, so that its end is treated alike.
    let mut links = Vec::new();
    for event in parser(markdown) {
        match event {
            Event::Start(Tag::Heading { level: HeadingLevel::H1, .. }) if !titled => (titled, skipping) = (true, true),
            Event::End(TagEnd::Heading(HeadingLevel::H1)) if skipping => skipping = false,
            _ if skipping => {}
            Event::Html(_) | Event::InlineHtml(_) => {}
            Event::Start(Tag::HtmlBlock | Tag::Image { .. }) | Event::End(TagEnd::HtmlBlock | TagEnd::Image) => {}
            Event::Start(Tag::Link { dest_url, .. }) if !is_safe(&dest_url) => links.push(false),
            Event::Start(Tag::Link { .. }) => {
                links.push(true);
                events.push(event);
            }
            Event::End(TagEnd::Link) => {
                if links.pop().unwrap_or(false) {
                    events.push(event);
                }
            }
            // The page's title is the one heading of level one.
            Event::Start(Tag::Heading { level: HeadingLevel::H1, id, classes, attrs }) => {
                events.push(Event::Start(Tag::Heading { level: HeadingLevel::H2, id, classes, attrs }));
            }
            Event::End(TagEnd::Heading(HeadingLevel::H1)) => events.push(Event::End(TagEnd::Heading(HeadingLevel::H2))),
            other => events.push(other),
        }
    }
    let mut text = String::new();
    html::push_html(&mut text, events.into_iter());
    text
}

/// Web and mail addresses, and relative ones, which stay in the archive.
fn is_safe(url: &str) -> bool {
    let relative = !url.starts_with(['/', '\\']) && !url.contains([':', '\\']) && !url.chars().any(char::is_control);
    is_linkable(url) || relative
}

#[cfg(test)]
mod tests {
    use super::{Writing, title, to_html};

    #[test]
    fn the_title_is_the_first_heading_or_the_name() {
        let of = |markdown: &str| title(&Writing { slug: "our-ovens".into(), markdown: markdown.into() });
        assert_eq!(of("# About *us*\n\nText"), "About us");
        assert_eq!(of("Text\n\n## Small"), "Our ovens");
    }

    #[test]
    fn raw_html_and_unsafe_links_are_dropped() {
        let html = to_html(
            "# T\n\n<script>alert(1)</script>\n\nOn <b onclick=x>quay</b> [in](javascript:alert(1)) [out](https://a.example/) ![p](x.png)\n",
        );
        assert_eq!(html, "<p>On quay in <a href=\"https://a.example/\">out</a> p</p>\n");
    }

    #[test]
    fn one_heading_of_level_one_a_page() {
        assert_eq!(to_html("# T\n\n# Second\n"), "<h2>Second</h2>\n");
    }

    #[test]
    fn links_within_the_archive_stay() {
        assert!(to_html("[t](../tart/index.html)").contains("href=\"../tart/index.html\""));
        for url in ["//x.example", "/etc", "vbscript:x"] {
            assert!(!to_html(&format!("[t]({url})")).contains("href"), "{url}");
        }
    }
}
