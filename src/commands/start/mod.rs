use std::path::PathBuf;

use clap::Args;

use super::{CommandError, Outcome, writing};
use crate::output::Output;
use crate::recipe;

const RECIPE: &str = include_str!("first-recipe.yaml");
const SITE: &str = include_str!("site.yaml");

/// Make a small workspace: one recipe that publishes, its settings, and a schema for editors
#[derive(Debug, Args)]
#[command(after_help = "Example:\n  levelcup start my-kitchen\n  levelcup --workspace my-kitchen publish")]
pub(super) struct Start {
    /// The folder; made if it does not exist
    #[arg(value_name = "DIR")]
    dir: PathBuf,
}

pub(super) fn run(command: &Start) -> Result<Outcome, CommandError> {
    let dir = &command.dir;
    if ["recipes", "site", "recipe.schema.json"].iter().any(|part| dir.join(part).exists()) {
        return Err(CommandError::NotEmpty(dir.clone()));
    }
    let output = Output::open(dir)?;
    output.put("recipes/lemon-drizzle-squares.yaml", RECIPE.as_bytes())?;
    output.put("site/site.yaml", SITE.as_bytes())?;
    output.put("recipe.schema.json", schema().as_bytes())?;
    writing::say(output.hand_over()?, dir)?;
    Ok(Outcome::Clean)
}

/// The JSON Schema of a recipe file.
fn schema() -> String {
    let text = serde_json::to_string_pretty(&recipe::schema()).expect("a schema is JSON");
    text + "\n"
}
