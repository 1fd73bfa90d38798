//! READ: a folder with `recipes/` and optionally `site/`, `templates/` and `pantry.yaml`.

mod files;
mod folder;
mod site;

pub use files::RecipeFile;
pub(crate) use files::is_device;
pub use folder::{Workspace, WorkspaceError};
pub use site::{Authority, Cups, Eggs, Setting, Site};
