use pulldown_cmark::{Event, HeadingLevel, Options, Parser, Tag, TagEnd};

use super::Writing;

/// The first heading of level one, else the file's name with its hyphens as spaces.
pub(super) fn title(writing: &Writing) -> String {
    let mut inside = false;
    let mut title = String::new();
    for event in parser(&writing.markdown) {
        match event {
            Event::Start(Tag::Heading { level: HeadingLevel::H1, .. }) => inside = true,
            Event::End(TagEnd::Heading(HeadingLevel::H1)) => break,
            Event::Text(text) | Event::Code(text) if inside => title.push_str(&text),
            _ => {}
        }
    }
    if title.trim().is_empty() { sentence(&writing.slug) } else { title }
}

fn sentence(slug: &str) -> String {
    let words = slug.replace('-', " ");
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A reader of the Markdown of writings.
pub(super) fn parser(markdown: &str) -> Parser<'_> {
    Parser::new_ext(markdown, Options::ENABLE_TABLES | Options::ENABLE_STRIKETHROUGH)
}
