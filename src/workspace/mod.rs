//! READ: a folder with `recipes/` and optionally `site/`, `templates/` and `pantry.yaml`.

mod error;
mod files;
mod folder;
mod read;
mod site;

pub use error::{Faulty, WorkspaceError};
pub use files::RecipeFile;
pub(crate) use files::is_device;
pub use folder::Workspace;
pub use read::{RuleName, read, schema};
pub(crate) use site::GRADES;
pub use site::{Authority, Cups, Eggs, RuleSetting, Site};
