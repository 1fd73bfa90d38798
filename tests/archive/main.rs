//! The archive as a whole: its files, its links, and text that means harm.

#![allow(clippy::disallowed_methods, reason = "tests lay out their own files")]

mod edited;
mod edits;
mod fixtures;
mod harm;
mod links;
#[path = "../many/mod.rs"]
mod many;
mod rebuild;
mod together;
#[path = "../told/mod.rs"]
mod told;

use std::collections::BTreeMap;
use std::path::Path;

use levelcup::archive::{ArchiveError, Material, Memory, Pending, Ready, Recipes, Writing, build};
use levelcup::language::Language;
use levelcup::output::{Held, Output};
use levelcup::pantry::Pantry;
use levelcup::photo::{Album, Photos};
use levelcup::render::Environment;
use levelcup::sheet::Sheet;
use levelcup::source::{Finding, Gate};
use levelcup::trace::Key;
use levelcup::workspace::Site;

/// Builds the archive of `sheets` with one writing and a card for the tart into `archive/` of an output.
fn build_into(output: &Output, site: &Site, sheets: &[Sheet], memory: Memory) -> Result<Memory, ArchiveError> {
    let writings = [Writing {
        slug: "about".into(),
        markdown: "# About the quay\n\nWe bake at four. [The tart](../apricot-tart/index.html)\n".into(),
    }];
    let card = |sheet: &Sheet| (sheet.slug == "apricot-tart").then(|| "cards/apricot-tart.pdf".to_owned());
    let environment = Environment::new(None, &Gate::anywhere(), &Language::default())
        .expect("the built-in templates are well formed");
    let pantry = Pantry::embedded();
    let photos = Photos::new("tests/archive/photos".into(), Gate::anywhere(), Album::default()).printing();
    let material = Material {
        site,
        writings: &writings,
        unread: &[],
        environment: &environment,
        pantry: &pantry,
        photos: &photos,
    };
    let key = |sheet: &Sheet| Key::of_value(&format!("{sheet:?}"));
    let pending = |sheet: &Sheet| Pending { slug: sheet.slug.clone(), key: Some(key(sheet)), card: card(sheet) };
    let pending: Vec<Pending> = sheets.iter().map(pending).collect();
    let ready = |at: usize| {
        let sheet = sheets[at].clone();
        Ok::<_, ArchiveError>(Ready { key: key(&sheet), card: card(&sheet), sheet: Some(sheet) })
    };
    let failed = |_: usize, fault: Finding| panic!("{fault:?}");
    let recipes = Recipes { pending: &pending, ready: &ready, failed: &failed };
    build(&material, &recipes, (output, "archive"), memory).map(|(memory, _)| memory)
}

/// Every file of the archive of `sheets`.
fn archive(site: &Site, sheets: &[Sheet]) -> Result<BTreeMap<String, String>, ArchiveError> {
    let folder = tempfile::TempDir::new().expect("a temporary folder");
    let output = Output::open(folder.path(), Held::Refuse)?;
    build_into(&output, site, sheets, Memory::default())?;
    output.finish()?;
    Ok(files(&folder.path().join("archive")))
}

/// Every file in a folder by path.
fn contents(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let found = walkdir::WalkDir::new(folder).into_iter().map(|entry| entry.expect("a readable folder"));
    let bytes = |entry: walkdir::DirEntry| {
        let path = entry.path().strip_prefix(folder).expect("inside").display().to_string();
        (path, std::fs::read(entry.path()).expect("a readable file"))
    };
    found.filter(|entry| entry.file_type().is_file()).map(bytes).collect()
}

/// Text of every file in a folder by path.
fn files(folder: &Path) -> BTreeMap<String, String> {
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("the archive is all text");
    contents(folder).into_iter().map(|(path, bytes)| (path, text(bytes))).collect()
}

fn tern_quay() -> BTreeMap<String, String> {
    archive(&fixtures::site(), &fixtures::sheets()).unwrap()
}

#[test]
fn the_archive_is_whole() {
    told::same_list(
        "the archive of tests/archive/fixtures.rs, by path:",
        tern_quay().into_keys(),
        [
            "404.html",
            "about/index.html",
            "all/index.html",
            "apricot-tart/index.html",
            "components/index.html",
            "corrections/index.html",
            "feed.json",
            "feed.xml",
            "ferry-buns/index.html",
            "icon.svg",
            "index.html",
            "ingredients/apricots/index.html",
            "ingredients/buckwheat-flour/index.html",
            "ingredients/butter/index.html",
            "ingredients/caster-sugar/index.html",
            "ingredients/cold-butter/index.html",
            "ingredients/cornflour/index.html",
            "ingredients/egg-yolk/index.html",
            "ingredients/eggs/index.html",
            "ingredients/fine-salt/index.html",
            "ingredients/index.html",
            "ingredients/light-brown-sugar/index.html",
            "ingredients/plain-flour/index.html",
            "ingredients/quay-honey/index.html",
            "ingredients/strong-flour/index.html",
            "ingredients/thyme/index.html",
            "ingredients/vanilla/index.html",
            "ingredients/whole-milk-yoghurt/index.html",
            "ingredients/whole-milk/index.html",
            "robots.txt",
            "script.js",
            "search.js",
            "search/index.html",
            "search/p0.js",
            "search/t0.js",
            "search/words.js",
            "sitemap.xml",
            "style.css",
            "tags/bread/index.html",
            "tags/index.html",
            "tags/make-ahead/index.html",
            "tags/summer/index.html",
            "tags/tart/index.html",
            "toast/index.html",
            "years/2026/index.html",
        ],
    );
}

#[test]
fn the_order_of_the_sheets_changes_nothing() {
    let mut turned = fixtures::sheets();
    turned.reverse();
    assert_eq!(archive(&fixtures::site(), &turned).unwrap(), tern_quay());
}

#[test]
fn home_lists_the_newest_first() {
    let home = &tern_quay()["index.html"];
    let place = |title: &str| home.find(&format!(">{title}</a></h3>")).unwrap_or_else(|| panic!("{title} is missing"));
    assert!(place("Apricot and thyme tart") < place("Ferry buns"));
    assert!(place("Ferry buns") < place("Toast"));
    assert!(home.contains("<time datetime=\"2026-07-04\">July 4, 2026</time>"));
}

#[test]
fn a_recipe_shows_every_batch_in_both_systems() {
    let page = &tern_quay()["apricot-tart/index.html"];
    for amounts in [
        r#"<span data-half="70 g" data-two="280 g" data-three="420 g">140 g</span>"#,
        r#"<span data-half="1/2 cup + 1 tbsp" data-two="2 1/4 cups" data-three="3 1/3 cups">1 cup + 2 tbsp</span>"#,
    ] {
        assert!(page.contains(amounts), "{amounts}");
    }
    assert!(!page.contains(">280 g<"), "without a script one batch is seen");
    for label in ["Weights", "Cups", "Side by side", "half", "one", "two", "three"] {
        assert!(page.contains(&format!("<span>{label}</span>")), "{label}");
    }
    for label in ["Hands-on", "Waiting", "Start to finish", "Method", "Mind this", "You will need", "Batch:"] {
        assert!(page.contains(&format!(">{label}<")), "{label}");
    }
}

#[test]
fn paid_links_are_marked_and_disclosed() {
    let page = &tern_quay()["apricot-tart/index.html"];
    assert!(page.contains("href=\"https://shop.example/ring-24\" rel=\"sponsored nofollow noopener\""));
    assert!(page.contains("href=\"https://shop.example/buckwheat\" rel=\"nofollow noopener\""));
    let disclosure = page.find(&fixtures::site().disclosure).expect("a disclosure");
    assert!(disclosure < page.find("shop.example").expect("a link"));
}

#[test]
fn a_correction_is_announced_at_the_top() {
    let page = &tern_quay()["apricot-tart/index.html"];
    let notice = page.find("<a href=\"#put_right\">Corrected July 9, 2026</a>").expect("a notice");
    assert!(notice < page.find("<table").expect("a table"));
    assert!(!tern_quay()["ferry-buns/index.html"].contains("Corrected"));
}

#[test]
fn allergens_say_what_is_there_and_never_what_is_not() {
    let page = tern_quay()["apricot-tart/index.html"].to_lowercase();
    // In type of their own: Regulation (EU) 1169/2011, Article 21.
    assert!(page.contains("<strong>wheat</strong>, <strong>milk</strong>, <strong>egg</strong>"));
    assert!(page.contains("quay honey"));
    for claim in ["-free", "free from", "free of", "contains no", "does not contain", "suitable for"] {
        assert!(!page.contains(claim), "{claim}");
    }
}

#[test]
fn no_page_holds_inline_script_or_style() {
    for (path, page) in tern_quay().iter().filter(|(path, _)| path.ends_with(".html")) {
        assert!(!page.contains("<style") && !page.contains(" style="), "{path}");
        assert!(!page.contains("<script>") && !page.contains(" onclick"), "{path}");
        assert!(
            page.contains("default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:"),
            "{path}"
        );
    }
}

#[test]
fn the_feed_is_dated_by_the_data() {
    let feed = &tern_quay()["feed.xml"];
    assert!(feed.contains("<id>https://tern-quay.example/</id>"));
    assert!(
        feed.contains("<link rel=\"self\" type=\"application/atom+xml\" href=\"https://tern-quay.example/feed.xml\"/>")
    );
    let (head, entries) = feed.split_once("<entry>").expect("an entry");
    assert!(head.contains("<updated>2026-07-09T00:00:00Z</updated>"));
    assert!(head.contains("<author><name>Tern Quay bakery</name></author>"));
    assert!(!entries.contains("Toast"), "an undated recipe has no place in a feed");
}

#[test]
fn a_feed_without_dated_recipes_is_empty() {
    let files = archive(&fixtures::site(), &[fixtures::bare()]).unwrap();
    assert!(files["feed.xml"].contains("<updated>1970-01-01T00:00:00Z</updated>"));
    assert!(!files["feed.xml"].contains("<entry>"));
}

#[test]
fn the_json_feed_has_what_its_version_asks_for() {
    let feed: serde_json::Value = serde_json::from_str(&tern_quay()["feed.json"]).unwrap();
    assert_eq!(feed["version"], "https://jsonfeed.org/version/1.1");
    assert_eq!(feed["title"], "Tern Quay");
    assert_eq!(feed["items"].as_array().map(Vec::len), Some(2));
    let first = &feed["items"][0];
    assert_eq!(first["id"], "https://tern-quay.example/apricot-tart/");
    assert_eq!(first["date_modified"], "2026-07-09T00:00:00Z");
    assert!(first["content_text"].as_str().is_some_and(|text| text.starts_with("Buckwheat pastry")));
}

#[test]
fn a_site_without_an_address_has_pages_alone() {
    for url in ["", "/", "tern-quay"] {
        let site = Site { url: url.into(), ..fixtures::site() };
        let files = archive(&site, &fixtures::sheets()).unwrap();
        assert!(!files.contains_key("feed.xml") && !files.contains_key("sitemap.xml"), "{url}");
        let page = &files["apricot-tart/index.html"];
        assert!(!page.contains("rel=\"canonical\"") && !page.contains("feed.xml"), "{url}");
    }
}

#[test]
fn an_empty_archive_still_has_its_pages() {
    let files = archive(&fixtures::site(), &[]).unwrap();
    assert!(files["index.html"].contains("No recipe is published yet."));
}

#[test]
fn the_site_map_has_dates() {
    let map = &tern_quay()["sitemap.xml"];
    assert!(map.contains("<url><loc>https://tern-quay.example/apricot-tart/</loc><lastmod>2026-07-09</lastmod></url>"));
    assert!(map.contains("<url><loc>https://tern-quay.example/toast/</loc></url>"));
    assert!(tern_quay()["robots.txt"].ends_with("Sitemap: https://tern-quay.example/sitemap.xml\n"));
}

#[test]
fn a_recipe_named_like_a_page_has_no_page() {
    for slug in ["tags", "about", "all"] {
        let mut sheets = fixtures::sheets();
        sheets[2].slug = slug.into();
        let files = archive(&fixtures::site(), &sheets).unwrap();
        assert_eq!(files, archive(&fixtures::site(), &sheets[..2]).unwrap(), "{slug}");
    }
}

#[test]
fn an_earlier_address_that_is_taken_leads_nowhere_else() {
    let mut sheets = fixtures::sheets();
    let taken = [sheets[1].slug.clone(), "about".into(), "tags".into(), "old".into()];
    sheets[0].was = taken.to_vec();
    sheets[2].was = vec!["old".into()];
    let files = archive(&fixtures::site(), &sheets).unwrap();
    let plain = archive(&fixtures::site(), &fixtures::sheets()).unwrap();
    for page in taken.iter().take(3).map(|slug| format!("{slug}/index.html")) {
        assert_eq!(files[&page], plain[&page], "{page}");
    }
    assert_eq!(files.keys().filter(|path| !plain.contains_key(*path)).collect::<Vec<_>>(), ["old/index.html"]);
}

#[test]
fn the_archive_can_be_written_and_written_again() {
    let folder = tempfile::TempDir::new().unwrap();
    let mut memory = Memory::default();
    let mut write = |sheets: &[Sheet]| {
        let output = Output::open(folder.path(), Held::Refuse).unwrap();
        memory = build_into(&output, &fixtures::site(), sheets, std::mem::take(&mut memory)).unwrap();
        output.finish_folder("archive").unwrap()
    };
    let first = write(&fixtures::sheets());
    assert_eq!((first.unchanged, first.removed), (0, 0));
    let second = write(&fixtures::sheets());
    assert_eq!((second.written, second.unchanged, second.removed), (0, first.written, 0));
    let third = write(&fixtures::sheets()[..2]);
    assert_eq!((third.removed, third.kept), (1, 0));
    assert!(!folder.path().join("archive").join("toast").exists());
    assert_eq!(files(&folder.path().join("archive")), archive(&fixtures::site(), &fixtures::sheets()[..2]).unwrap());
}

#[test]
fn an_earlier_address_leads_to_the_recipe() {
    let mut sheet = fixtures::buns();
    sheet.was = vec!["pier-buns".into()];
    let page = &archive(&fixtures::site(), &[sheet]).unwrap()["pier-buns/index.html"];
    assert!(page.contains("<meta http-equiv=\"refresh\" content=\"0; url=../ferry-buns/index.html\">"));
    assert!(page.contains("<a href=\"../ferry-buns/index.html\">Ferry buns</a>"));
}

#[test]
fn an_ingredient_tells_what_uses_it_and_how_much() {
    let page = &tern_quay()["ingredients/butter/index.html"];
    assert!(page.contains("<span class=\"amount\">80 g (1/3 cup)</span>"));
    assert!(page.contains("<a href=\"../../ferry-buns/index.html#dough\">Dough</a>"));
}
