use std::sync::Arc;

use serde::Serialize;
use tera::{Error, Kwargs, State, TeraResult, Value};

use super::choice::choice;
use super::inline::{inline_html, inline_markdown};
use super::script::script_json;
use super::text;
use crate::language::Language;
use crate::text::{is_linkable, web_address};

/// Registers the filters and tests that templates have beside the template language's own; see `templates/README.md`.
pub(super) fn register(tera: &mut tera::Tera, language: &Arc<Language>) {
    let speaker = Arc::clone(language);
    tera.register_function("say", move |words: Kwargs, _: &State| said(&speaker, &words));
    let speaker = Arc::clone(language);
    tera.register_filter("plain", |value: &str, _: Kwargs, _: &State| text::plain_text(value));
    tera.register_filter("clean", |value: &str, _: Kwargs, _: &State| text::clean_text(value));
    tera.register_filter("capital", |value: &str, _: Kwargs, _: &State| text::capitalized(value));
    tera.register_filter("stop", |value: &str, _: Kwargs, _: &State| text::with_stop(value));
    tera.register_filter("sentence", |value: &str, _: Kwargs, _: &State| text::sentence(value));
    tera.register_filter("day", move |value: &str, _: Kwargs, _: &State| day(&speaker, value));
    tera.register_filter("markdown", |value: &str, _: Kwargs, _: &State| text::markdown_text(value));
    tera.register_filter("inline", |value: &str, _: Kwargs, _: &State| inline_markdown(value));
    tera.register_filter("inline_html", |value: &str, _: Kwargs, _: &State| Value::safe_string(&inline_html(value)));
    tera.register_filter("href", |value: &str, _: Kwargs, _: &State| web_address(value).unwrap_or_default());
    tera.register_filter("hashtag", |value: &str, _: Kwargs, _: &State| text::hashtag(value).unwrap_or_default());
    tera.register_filter("json", |value: Value, _: Kwargs, _: &State| json(&value));
    tera.register_test("web", |value: &str, _: Kwargs, _: &State| is_linkable(value.trim()));
}

/// What the language says in the place of `key`, the other arguments filled in.
fn said(language: &Language, words: &Kwargs) -> TeraResult<String> {
    let text = |value: &Value| value.as_str().map_or_else(|| value.to_string(), str::to_owned);
    let with: Vec<(String, String)> = words.iter().map(|(name, value)| (name.to_string(), text(value))).collect();
    let with: Vec<(&str, &str)> = with.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
    let key: &str = words.must_get("key")?;
    language.find(key, &with).ok_or_else(|| {
        let help = choice(key, language.keys());
        Error::message(format!("No words are kept under `{key}`; {help}"))
    })
}

/// A date for reading; as written where it is none.
fn day(language: &Language, iso: &str) -> String {
    language.day(iso).unwrap_or_else(|| text::clean_text(iso))
}

fn json(value: &impl Serialize) -> TeraResult<Value> {
    script_json(value).map(|text| Value::safe_string(&text)).map_err(Error::message)
}
