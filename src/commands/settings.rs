use std::path::PathBuf;

use clap::Args;

use super::CommandError;
use crate::kitchen::Kitchen;
use crate::language::{Dictionary, Language};
use crate::pantry::{EggSize, Pantry, REGIONS};
use crate::proof;
use crate::recipe::LineReader;
use crate::workspace::{Cups, Site, Workspace, WorkspaceError};

/// The workspace, and those of its settings that a command line can change for once.
#[derive(Debug, Args)]
pub(super) struct Settings {
    /// The workspace: the folder that holds `recipes/`
    #[arg(long, global = true, value_name = "DIR", default_value = ".", hide_default_value = true)]
    workspace: PathBuf,
    /// The cup: customary, label, metric, uk, australian or imperial
    #[arg(long, global = true, value_name = "CUP", help_heading = "Settings, for this run", value_parser = cups)]
    cups: Option<Cups>,
    /// The language of units
    #[arg(
        long,
        global = true,
        value_name = "TAG",
        help_heading = "Settings, for this run",
        value_parser = language,
        help = format!("The language of units: {}", Language::tags().collect::<Vec<_>>().join(", "))
    )]
    language: Option<String>,
    /// The egg: region and size, such as "EU medium"
    #[arg(long, global = true, value_name = "EGG", help_heading = "Settings, for this run", value_parser = egg)]
    eggs: Option<Egg>,
}

/// An egg of the command line; the region stays where none is said.
#[derive(Clone, Debug)]
struct Egg {
    region: Option<String>,
    size: String,
}

/// The names that `site.yaml` knows.
fn cups(name: &str) -> Result<Cups, String> {
    serde_json::from_value(name.into())
        .map_err(|_| "there are customary, label, metric, uk, australian and imperial".to_string())
}

fn language(tag: &str) -> Result<String, String> {
    Dictionary::of(tag).map(|_| tag.to_string()).map_err(|error| error.to_string())
}

fn egg(text: &str) -> Result<Egg, String> {
    let (first, rest) = text.trim().split_once(' ').unwrap_or(("", text.trim()));
    let region = REGIONS.into_iter().find(|region| first.eq_ignore_ascii_case(region));
    let size = if region.is_some() { rest.trim() } else { text.trim() };
    let mut regions = REGIONS.iter().filter(|one| region.is_none_or(|region| **one == region));
    if !regions.any(|region| EggSize::of(region, size).is_some()) {
        return Err("there are small, medium, large, extra large and (US) jumbo, of the US, EU or UK".into());
    }
    Ok(Egg { region: region.map(String::from), size: size.into() })
}

impl Settings {
    /// The workspace of the command line, else of the first file named, with these settings.
    pub(super) fn workspace(&self, files: &[PathBuf]) -> Result<Workspace, WorkspaceError> {
        let mut workspace = Workspace::of(&self.workspace, files, &proof::names())?;
        let site = workspace.site_mut();
        self.apply(site);
        site.speak(&Language::of(&site.language)?);
        Ok(workspace)
    }

    /// The workspace's kitchen, or one with the usual settings where there is no workspace; with these settings.
    pub(super) fn kitchen(&self) -> Result<(Kitchen, LineReader), CommandError> {
        let (pantry, mut site) = match Workspace::find(&self.workspace, &proof::names()) {
            Ok(workspace) => (workspace.pantry(), workspace.site().clone()),
            Err(WorkspaceError::NotFound(_)) => (Pantry::embedded(), Site::default()),
            Err(error) => return Err(error.into()),
        };
        self.apply(&mut site);
        let reader = LineReader::new(Dictionary::of(&site.language).map_err(WorkspaceError::from)?, site.cups.into());
        Ok((Kitchen::new(pantry, &site)?, reader))
    }

    /// Changes the settings that the command line names.
    pub(super) fn apply(&self, site: &mut Site) {
        site.cups = self.cups.unwrap_or(site.cups);
        if let Some(language) = &self.language {
            site.language.clone_from(language);
        }
        if let Some(egg) = &self.eggs {
            site.eggs.size.clone_from(&egg.size);
            site.eggs.region = egg.region.clone().unwrap_or(std::mem::take(&mut site.eggs.region));
        }
    }
}
