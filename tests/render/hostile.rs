use std::collections::BTreeSet;
use std::sync::OnceLock;

use levelcup::language::Language;
use levelcup::render::{
    DESCRIPTION_LIMIT, Environment, TemplateError, bench_card, card, clean_text, description, html_post, markdown_post,
};
use levelcup::sheet::Sheet;
use levelcup::source::Gate;
use proptest::prelude::*;
use pulldown_cmark::{Event, Options, Parser, Tag};

use crate::fixture::{bench, poisoned, site};

/// What has been used to break out of text, links, tables, scripts, front matter and templates.
const FRAGMENTS: [&str; 32] = [
    "<script>alert(1)</script>",
    "</script><img src=x onerror=alert(1)>",
    "<!-- ",
    "]]>",
    "\" onmouseover=\"alert(1)",
    "' autofocus onfocus='x",
    "javascript:alert(1)",
    "[x](javascript:alert(1))",
    "![x](https://a.example/x.png)",
    "<https://a.example/>",
    "{{ site.name }}",
    "{% include \"card.md\" %}",
    "{# gone #}",
    "${HOME}",
    "{{< raw >}}",
    "|",
    "\n\n# Heading\n\n",
    "\n---\n",
    "\r\n- item\n1. item\n> quote\n",
    "```\ncode\n```",
    "&lt;b&gt;",
    "&#x3c;b&#x3e;",
    "\\",
    "`",
    "***",
    "__",
    "~~",
    "\u{202E}gnp.",
    "\u{2028}\u{2029}",
    "\u{0}\u{7}\u{1b}[31m",
    "\u{FFFE}",
    "rye & pears, 1. then 2) and 140 g",
];

fn environment() -> &'static Environment {
    static ENVIRONMENT: OnceLock<Environment> = OnceLock::new();
    ENVIRONMENT.get_or_init(|| {
        Environment::new(None, &Gate::anywhere(), &Language::default()).expect("the built-in templates are well formed")
    })
}

fn hostile_text() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        4 => prop::sample::select(FRAGMENTS.to_vec()).prop_map(str::to_owned),
        1 => any::<String>(),
        1 => prop::sample::select(vec!["!".to_owned(), " ".to_owned(), "a".to_owned(), "1.".to_owned(), "-".to_owned()]),
    ];
    prop::collection::vec(piece, 1..5).prop_map(|pieces| pieces.concat())
}

/// The kinds of element in an HTML text with the names of their attributes, and all link targets.
fn elements(html: &str) -> (BTreeSet<String>, Vec<String>) {
    let mut kinds = BTreeSet::new();
    let mut targets = Vec::new();
    // Inside style and script no element begins, and the script is looked at by itself.
    let without_script = html.split("<script").next().unwrap_or_default();
    for tag in without_script.split('<').skip(1) {
        let tag = tag.split('>').next().unwrap_or_default();
        let mut parts = tag.split('"');
        let mut kind = String::new();
        while let Some(outside) = parts.next() {
            kind.push_str(outside);
            let value = parts.next().unwrap_or_default();
            if outside.ends_with("href=") || outside.ends_with("src=") {
                targets.push(value.to_owned());
            }
        }
        kinds.insert(kind);
    }
    (kinds, targets)
}

fn script(html: &str) -> &str {
    let (_, script) = html.split_once("<script type=\"application/ld+json\">").expect("the post has a script");
    let (script, rest) = script.split_once("</script>").expect("the script ends");
    assert_eq!(rest.trim(), "</article>");
    script
}

/// The kinds of event in a Markdown text other than text, and all link targets.
fn structure(markdown: &str) -> (Vec<String>, Vec<String>) {
    let mut blocks = Vec::new();
    let mut targets = Vec::new();
    for event in Parser::new_ext(markdown, Options::all() - Options::ENABLE_SMART_PUNCTUATION) {
        match event {
            Event::Html(html) | Event::InlineHtml(html) => panic!("raw HTML {html:?} in {markdown}"),
            Event::Start(Tag::Link { dest_url, .. } | Tag::Image { dest_url, .. }) => {
                targets.push(dest_url.to_string())
            }
            Event::Start(Tag::Emphasis | Tag::Strong) => {}
            Event::Start(tag) => blocks.push(format!("{tag:?}")),
            Event::InlineMath(_) | Event::DisplayMath(_) | Event::Rule | Event::FootnoteReference(_) => {
                panic!("{event:?} in {markdown}")
            }
            _ => {}
        }
    }
    (blocks, targets)
}

fn body(post: &str) -> (&str, &str) {
    let rest = post.strip_prefix("---\n").expect("front matter begins");
    rest.split_once("\n---\n").expect("front matter ends")
}

fn assert_targets(targets: &[String]) {
    for target in targets {
        let safe = ["http://", "https://", "mailto:", "#"].iter().any(|start| target.starts_with(start));
        assert!(safe, "link to {target:?}");
    }
}

/// A Markdown text without its blocks of shares, in which all is plain.
fn without_shares(text: &str) -> String {
    let mut inside = false;
    let mut kept = String::new();
    for line in text.lines() {
        inside = line.starts_with("```shares") || (inside && line != "```");
        kept.extend((!inside).then_some([line, "\n"]).into_iter().flatten());
    }
    kept
}

fn assert_no_syntax(text: &str) {
    for syntax in ["{{", "{%", "${", "{#", "\u{202E}", "\u{1b}", "\u{0}"] {
        assert!(!text.contains(syntax), "{syntax:?} in {text}");
    }
}

fn at_the_bench(sheet: &Sheet) -> Result<String, TemplateError> {
    bench_card(environment(), &site(), sheet, &bench(sheet))
}

fn assert_inert(sheet: &Sheet) {
    let environment = environment();
    let site = site();

    let under_video = description(environment, &site, sheet).expect("text is no template").text;
    assert!(under_video.len() <= DESCRIPTION_LIMIT, "{} bytes", under_video.len());
    assert!(!under_video.contains(['<', '>', '\u{202E}', '\u{1b}', '\u{0}', '\r', '\u{2028}']), "{under_video}");

    let html = html_post(environment, &site, sheet).expect("text is no template");
    let clean = html_post(environment, &site, &poisoned("rye")).expect("the template is right");
    let (kinds, targets) = elements(&html);
    let strangers: Vec<_> = kinds.difference(&elements(&clean).0).cloned().collect();
    // Emphasis and code are a step's own right.
    let allowed = ["em", "/em", "strong", "/strong", "code", "/code", "a href="];
    assert!(strangers.iter().all(|kind| allowed.contains(&kind.as_str())), "{strangers:?} in {html}");
    assert_targets(&targets);
    let json: serde_json::Value = serde_json::from_str(script(&html)).expect("the script is JSON");
    assert_eq!(json["@type"], "Recipe");

    for (made, clean) in [
        (card(environment, &site, sheet), card(environment, &site, &poisoned("rye"))),
        (at_the_bench(sheet), at_the_bench(&poisoned("rye"))),
        (markdown_post(environment, &site, sheet), markdown_post(environment, &site, &poisoned("rye"))),
    ] {
        let (made, clean) = (made.expect("text is no template"), clean.expect("the template is right"));
        let (made, clean) = if made.starts_with("---") { (body(&made).1, body(&clean).1) } else { (&*made, &*clean) };
        let (blocks, targets) = structure(made);
        let linkless =
            |blocks: Vec<String>| blocks.into_iter().filter(|block| !block.contains("Code")).collect::<Vec<_>>();
        assert_eq!(linkless(blocks), linkless(structure(clean).0), "{made}");
        assert_targets(&targets);
        assert_no_syntax(&without_shares(made));
    }
}

#[test]
fn each_fragment_alone_stays_text() {
    // An empty paragraph is no paragraph, so the outline would differ for what has nothing to show.
    for fragment in FRAGMENTS.iter().filter(|fragment| !clean_text(fragment).is_empty()) {
        assert_inert(&poisoned(fragment));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_stays_text(text in hostile_text()) {
        prop_assume!(!clean_text(&text).is_empty());
        assert_inert(&poisoned(&text));
    }
}

#[test]
fn front_matter_is_yaml_whatever_the_title() {
    for fragment in FRAGMENTS {
        let sheet = poisoned(fragment);
        let post = markdown_post(environment(), &site(), &sheet).expect("text is no template");
        let matter: serde_yaml::Value = serde_yaml::from_str(body(&post).0).expect("front matter is YAML");
        assert!(matter["title"].is_string(), "{post}");
    }
}

#[test]
fn the_longest_text_fits_under_the_video() {
    let mut titled = poisoned("rye");
    titled.title = "é".repeat(500_000);
    for sheet in [titled, poisoned(&"pear ".repeat(20_000))] {
        let made = description(environment(), &site(), &sheet).expect("text is no template");
        assert!(made.text.len() <= DESCRIPTION_LIMIT);
        assert!(!made.dropped.is_empty());
        assert!(made.text.contains("Local food law and licensed practice"), "{}", made.text);
    }
}
