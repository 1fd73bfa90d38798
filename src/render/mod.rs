//! Sheet to text: the description, the post, the card's Markdown and the JSON-LD, by templates.
//!
//! Templates are built in; a workspace's file of the same name takes a template's place. What they may use is listed
//! in `templates/README.md`.

mod address;
mod builtin;
mod card;
mod choice;
mod context;
mod description;
mod environment;
mod error;
mod fields;
mod filters;
mod inline;
mod jsonld;
mod overrides;
mod plain;
mod post;
mod scan;
mod script;
mod text;

pub use address::{page_url, photo_url, step_anchor};
pub use card::{bench_card, card};
pub use description::{DESCRIPTION_LIMIT, Description, DescriptionPart, description};
pub use environment::{Environment, shown};
pub use error::TemplateError;
pub use inline::{inline_html, inline_markdown};
pub use jsonld::{LdRecipe as JsonLdRecipe, json_ld};
pub use plain::recipe_text;
pub use post::{html_post, markdown_post};
pub use script::script_json;
pub use text::{capitalized, clean_text, hashtag, markdown_text, plain_text, sentence, with_stop};
