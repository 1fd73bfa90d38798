//! READ: a folder with `recipes/` and optionally `site/`, `templates/` and `pantry.yaml`.

mod site;

pub use site::{Authority, Cups, Eggs, Site};
