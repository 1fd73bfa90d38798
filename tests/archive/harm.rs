//! Text that means harm comes out as text.

use levelcup::archive::ArchiveError;
use levelcup::sheet::{LinkGroup, SheetLink, Tag};

use crate::{archive, fixtures};

const HARM: &str = "</title></script>\"'><script>alert(1)</script><img src=x onerror=alert(1)>&{{ 7*7 }}";

#[test]
fn text_is_escaped_everywhere() {
    let mut site = fixtures::site();
    site.tagline = HARM.into();
    site.disclosure = HARM.into();
    let mut sheet = fixtures::tart();
    sheet.title = HARM.into();
    sheet.summary = Some(HARM.into());
    sheet.makes = Some(HARM.into());
    sheet.tags = vec![Tag { name: HARM.into(), slug: "harm".into() }];
    sheet.cautions[0].text = HARM.into();
    sheet.allergens.us = vec![HARM.into()];
    sheet.corrections[0].what = HARM.into();
    sheet.links[0].links[0].what = HARM.into();
    let component = &mut sheet.components[0];
    component.name = HARM.into();
    component.ratio = Some(HARM.into());
    component.lines[0].name = HARM.into();
    component.lines[0].prep = Some(HARM.into());
    component.lines[0].note = Some(HARM.into());
    component.lines[0].batches[1].weight = Some(HARM.into());
    component.lines[0].source = Some(HARM.into());
    component.steps[0].until = Some(HARM.into());
    component.steps[0].mind = Some(HARM.into());
    for (path, text) in archive(&site, &[sheet]).unwrap() {
        assert!(!text.contains("<script>alert"), "{path}");
        assert!(!text.contains("<img"), "{path}");
        assert!(!text.contains("&49"), "{path}: a template ran what an author wrote");
    }
}

#[test]
fn addresses_that_are_not_of_the_web_do_not_become_links() {
    let mut sheet = fixtures::tart();
    let bad = "javascript:alert(1)";
    sheet.links = vec![LinkGroup {
        kind: "gear".into(),
        links: vec![SheetLink { what: "a ring".into(), url: bad.into(), paid: false }],
    }];
    sheet.components[0].lines[0].link = Some(bad.into());
    let video = sheet.video.as_mut().unwrap();
    video.url = bad.into();
    video.chapters[0].url = bad.into();
    for (path, text) in archive(&fixtures::site(), &[sheet]).unwrap() {
        assert!(!text.contains("javascript:"), "{path}");
    }
}

#[test]
fn a_hostile_file_name_is_refused_and_a_foreign_one_escaped() {
    let mut sheet = fixtures::bare();
    sheet.slug = "a \"b\" <c>".into();
    assert!(matches!(archive(&fixtures::site(), &[sheet.clone()]), Err(ArchiveError::Output(_))));
    sheet.slug = "brûlée".into();
    let files = archive(&fixtures::site(), &[sheet]).unwrap();
    assert!(files["index.html"].contains("href=\"br%C3%BBl%C3%A9e/index.html\""));
}
