use std::path::Path;

use clap::Args;

use crate::kitchen::Kitchen;
use crate::measure::Dictionary;
use crate::pantry::Pantry;
use crate::recipe::LineReader;
use crate::workspace::{Cups, Site, Workspace, WorkspaceError};

/// Settings of the workspace that a command line can change for once.
#[derive(Debug, Args)]
pub(super) struct Settings {
    /// The cup: customary, label, metric, uk, australian or imperial
    #[arg(long, value_name = "CUP", value_parser = cups)]
    cups: Option<Cups>,
    /// The language of units: en-US, en-GB or fr
    #[arg(long, value_name = "TAG")]
    language: Option<String>,
    /// The egg: region and size, such as "EU medium"
    #[arg(long, value_name = "EGG")]
    eggs: Option<String>,
}

/// The names that `site.yaml` knows.
fn cups(name: &str) -> Result<Cups, String> {
    serde_json::from_value(name.into())
        .map_err(|_| "there are customary, label, metric, uk, australian and imperial".to_string())
}

impl Settings {
    /// The workspace's kitchen, or one with the usual settings where there is no workspace; with these settings.
    pub(super) fn kitchen(&self, folder: &Path) -> Result<(Kitchen, LineReader), WorkspaceError> {
        let (pantry, mut site) = match Workspace::find(folder) {
            Ok(workspace) => (workspace.pantry()?, workspace.site().clone()),
            Err(WorkspaceError::NotFound(_)) => (Pantry::embedded(), Site::default()),
            Err(error) => return Err(error),
        };
        self.apply(&mut site);
        let reader = LineReader::new(Dictionary::of(&site.language)?, site.cups.into());
        Ok((Kitchen::new(pantry, &site)?, reader))
    }

    fn apply(&self, site: &mut Site) {
        site.cups = self.cups.unwrap_or(site.cups);
        if let Some(language) = &self.language {
            site.language.clone_from(language);
        }
        if let Some((region, size)) = self.eggs.as_deref().and_then(|egg| egg.trim().split_once(' ')) {
            (site.eggs.region, site.eggs.size) = (region.into(), size.trim().into());
        } else if let Some(size) = &self.eggs {
            site.eggs.size.clone_from(size);
        }
    }
}
