use serde::Serialize;
use tera::{Error, Kwargs, State, TeraResult, Value};

use super::address::{is_web_address, web_address};
use super::inline::{inline_html, inline_markdown};
use super::jsonld::script_json;
use super::text;

/// Registers the filters and tests that templates have beside the template language's own; see `templates/README.md`.
pub(super) fn register(tera: &mut tera::Tera) {
    tera.register_filter("plain", |value: &str, _: Kwargs, _: &State| text::plain_text(value));
    tera.register_filter("clean", |value: &str, _: Kwargs, _: &State| text::clean_text(value));
    tera.register_filter("capital", |value: &str, _: Kwargs, _: &State| text::capitalized(value));
    tera.register_filter("stop", |value: &str, _: Kwargs, _: &State| text::with_stop(value));
    tera.register_filter("sentence", |value: &str, _: Kwargs, _: &State| text::sentence(value));
    tera.register_filter("day", |value: &str, _: Kwargs, _: &State| text::day_text(value));
    tera.register_filter("markdown", |value: &str, _: Kwargs, _: &State| text::markdown_text(value));
    tera.register_filter("inline", |value: &str, _: Kwargs, _: &State| inline_markdown(value));
    tera.register_filter("inline_html", |value: &str, _: Kwargs, _: &State| Value::safe_string(&inline_html(value)));
    tera.register_filter("href", |value: &str, _: Kwargs, _: &State| web_address(value).unwrap_or_default());
    tera.register_filter("hashtag", |value: &str, _: Kwargs, _: &State| text::hashtag(value).unwrap_or_default());
    tera.register_filter("json", |value: Value, _: Kwargs, _: &State| json(&value));
    tera.register_test("web", |value: &str, _: Kwargs, _: &State| is_web_address(value.trim()));
}

fn json(value: &impl Serialize) -> TeraResult<Value> {
    script_json(value).map(|text| Value::safe_string(&text)).map_err(Error::message)
}
