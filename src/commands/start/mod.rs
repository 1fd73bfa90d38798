use std::io::Write;
use std::path::PathBuf;

use clap::Args;
use schemars::Schema;

use super::screen::stderr;
use super::settings::Settings;
use super::{CommandError, Outcome, writing};
use crate::language::Language;
use crate::output::{Held, Output};
use crate::workspace::{self, Site};
use crate::{pantry, proof, recipe};

const RECIPE: &str = include_str!("first-recipe.yaml");
const SITE: &str = include_str!("site.yaml");

/// Make a small workspace: one recipe that publishes, its settings, and schemas for editors
#[derive(Debug, Args)]
#[command(
    after_help = "Example:\n  levelcup start my-kitchen\n  levelcup --workspace my-kitchen publish\n  levelcup start --cups metric --eggs \"EU medium\" my-kitchen"
)]
pub(super) struct Start {
    /// The folder; made if it does not exist
    #[arg(value_name = "DIR")]
    dir: PathBuf,
}

pub(super) fn run(command: &Start, settings: &Settings) -> Result<Outcome, CommandError> {
    let dir = &command.dir;
    if ["recipes", "site", "recipe.schema.json", "site.schema.json", "pantry.schema.json"]
        .iter()
        .any(|part| dir.join(part).exists())
    {
        return Err(CommandError::NotEmpty(dir.clone()));
    }
    let output = Output::open(dir, Held::Refuse)?;
    output.put("recipes/lemon-drizzle-squares.yaml", RECIPE.as_bytes())?;
    output.put("site/site.yaml", site(settings).as_bytes())?;
    let schemas = [
        ("recipe.schema.json", recipe::schema()),
        ("site.schema.json", workspace::schema(&proof::names())),
        ("pantry.schema.json", pantry::schema()),
    ];
    for (name, schema) in schemas {
        output.put(name, json(&schema).as_bytes())?;
    }
    writing::say(output.hand_over()?, dir)?;
    writeln!(stderr(), "next: `levelcup --workspace {} publish`", writing::shown(dir).display())?;
    Ok(Outcome::Done)
}

/// The first `site.yaml`, with the settings that the command line names.
fn site(settings: &Settings) -> String {
    let usual = Site::default();
    let mut site = usual.clone();
    settings.apply(&mut site);
    let lines: [fn(&Site) -> String; 3] = [
        |site| format!("cups: {}", serde_json::to_value(site.cups).unwrap_or_default().as_str().unwrap_or_default()),
        |site| format!("eggs: {{region: {}, size: {}}}", site.eggs.region, site.eggs.size),
        |site| format!("language: {}", site.language),
    ];
    let tags = Language::tags().collect::<Vec<_>>().join(", ");
    lines.iter().fold(SITE.replace("{languages}", &tags), |text, line| text.replace(&line(&usual), &line(&site)))
}

/// A JSON Schema as a file.
fn json(schema: &Schema) -> String {
    serde_json::to_string_pretty(schema).expect("a schema is JSON") + "\n"
}
