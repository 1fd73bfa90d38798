//! No output of a French site has a word of ours in English.

use levelcup::language::Language;
use levelcup::render::{Environment, bench_card, card, description, html_post, markdown_post};
use levelcup::source::Gate;

use crate::fixture::{bench, site, tart};

#[test]
fn nothing_of_ours_stays_english() {
    let (english, french) = (Language::default(), Language::of("fr").expect("French is there"));
    let environment = Environment::new(None, &Gate::anywhere(), &french).expect("the built-in templates");
    let (site, tart) = (site(), tart());
    let outputs = [
        description(&environment, &site, &tart).expect("a description").text,
        markdown_post(&environment, &site, &tart).expect("a post"),
        html_post(&environment, &site, &tart).expect("a post"),
        card(&environment, &site, &tart).expect("a card"),
        bench_card(&environment, &site, &tart, &bench(&tart)).expect("a bench card"),
    ];
    // What the recipe itself says, in English, is its author's.
    let own = format!("{tart:?} {site:?}");
    let mut looked_for = 0;
    for key in english.keys() {
        // The longest part between two places to fill in.
        let said = english.say(key, &[("count", "2")]);
        let part = said.split(['{', '}', ':']).max_by_key(|part| part.len()).unwrap_or_default().trim();
        if part.len() < 5 || own.contains(part) || french.say(key, &[("count", "2")]).contains(part) {
            continue;
        }
        looked_for += 1;
        for output in &outputs {
            // The names of HTML's own attributes are English.
            let words = output.replace("class=\"", "").replace("rel=\"", "");
            let whole = words.match_indices(part).any(|(at, _)| {
                let beside = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric() || matches!(c, '-' | '_' | '"'));
                !beside(words[..at].chars().next_back()) && !beside(words[at + part.len()..].chars().next())
            });
            assert!(!whole, "`{part}` of `{key}` stands in\n{output}");
        }
    }
    assert!(looked_for > 120, "{looked_for}");
}
