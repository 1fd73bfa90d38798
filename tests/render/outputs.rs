use insta::assert_snapshot;
use levelcup::language::Language;
use levelcup::render::{DESCRIPTION_LIMIT, Environment, bench_card, card, description, html_post, markdown_post};
use levelcup::source::Gate;

use crate::fixture::{bench, site, tart};

fn environment() -> Environment {
    Environment::new(None, &Gate::anywhere(), &Language::default()).expect("the built-in templates are well formed")
}

#[test]
fn the_description_is_whole() {
    let made = description(&environment(), &site(), &tart()).expect("the template is right");
    assert_eq!(made.dropped, []);
    assert!(made.text.len() <= DESCRIPTION_LIMIT);
    assert_snapshot!("description", made.text);
}

#[test]
fn the_card_is_markdown() {
    assert_snapshot!("card", card(&environment(), &site(), &tart()).expect("the template is right"));
}

#[test]
fn the_bench_card_is_markdown() {
    let made = bench_card(&environment(), &site(), &tart(), &bench(&tart()));
    assert_snapshot!("bench_card", made.expect("the template is right"));
}

#[test]
fn the_post_is_markdown_under_front_matter() {
    assert_snapshot!("post_md", markdown_post(&environment(), &site(), &tart()).expect("the template is right"));
}

#[test]
fn the_post_is_one_article() {
    assert_snapshot!("post_html", html_post(&environment(), &site(), &tart()).expect("the template is right"));
}
