//! READ: a folder with `recipes/` and optionally `site/`, `templates/` and `pantry.yaml`.

mod files;
mod folder;
mod read;
mod site;

pub use files::RecipeFile;
pub(crate) use files::is_device;
pub use folder::{Faulty, Workspace, WorkspaceError};
pub use read::{RuleName, read, schema};
pub(crate) use site::GRADES;
pub use site::{Authority, Cups, Eggs, RuleSetting, Site};
