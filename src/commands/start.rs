use std::io::Write;
use std::path::PathBuf;

use clap::Args;
use schemars::Schema;

use super::screen::stderr;
use super::settings::Settings;
use super::{CommandError, Outcome, writing};
use crate::kitchen::KitchenError;
use crate::language::Language;
use crate::output::{Held, Output};
use crate::source::Source;
use crate::workspace::{self, Site};
use crate::{pantry, proof, recipe};

/// The files of the first workspace, a folder a language: `fr/site/site.yaml`.
const FILES: &[(&str, &str)] = include!(concat!(env!("OUT_DIR"), "/start.rs"));

const SITE: &str = "site/site.yaml";

/// Make a small workspace: one recipe that publishes, its settings, and schemas for editors
#[derive(Debug, Args)]
#[command(
    after_help = "Example:\n  levelcup start my-kitchen\n  levelcup --workspace my-kitchen publish\n  levelcup start --cups metric --eggs \"EU medium\" my-kitchen"
)]
pub(super) struct StartArguments {
    /// The folder; made if it does not exist
    #[arg(value_name = "DIR")]
    dir: PathBuf,
}

pub(super) fn run(command: &StartArguments, settings: &Settings) -> Result<Outcome, CommandError> {
    let dir = &command.dir;
    if ["recipes", "site", "recipe.schema.json", "site.schema.json", "pantry.schema.json"]
        .iter()
        .any(|part| dir.join(part).exists())
    {
        return Err(CommandError::NotEmpty(dir.clone()));
    }
    let output = Output::open(dir, Held::Refuse)?;
    let mut asked = Site::default();
    settings.apply(&mut asked);
    for (name, text) in files(&Language::of(&asked.language).map_err(KitchenError::from)?) {
        let settled = (name == SITE).then(|| site(text, settings));
        output.put(name, settled.as_deref().unwrap_or(text).as_bytes())?;
    }
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

/// The files of a language: its own, else those of its base.
fn files(language: &Language) -> Vec<(&'static str, &'static str)> {
    let usual = Site::default().language;
    let tags = [Some(language.tag()), language.base(), Some(&usual)];
    let of = |tag: &str| {
        let own =
            |(name, text): &(&'static str, &'static str)| Some((name.strip_prefix(tag)?.strip_prefix('/')?, *text));
        FILES.iter().filter_map(own).collect::<Vec<_>>()
    };
    tags.into_iter().flatten().map(of).find(|files| !files.is_empty()).unwrap_or_default()
}

/// A first `site.yaml`, with the settings that the command line names.
fn site(text: &str, settings: &Settings) -> String {
    let text = text.replace("{languages}", &Language::tags().collect::<Vec<_>>().join(", "));
    let usual = workspace::read(&Source::new(SITE, text.as_str()), &proof::names());
    let usual = usual.expect("the first settings have no fault");
    let mut site = usual.clone();
    settings.apply(&mut site);
    let lines: [fn(&Site) -> String; 3] = [
        |site| format!("cups: {}", serde_json::to_value(site.cups).unwrap_or_default().as_str().unwrap_or_default()),
        |site| format!("eggs: {{region: {}, size: {}}}", site.eggs.region, site.eggs.size),
        |site| format!("language: {}", site.language),
    ];
    lines.iter().fold(text, |text, line| text.replace(&line(&usual), &line(&site)))
}

/// A JSON Schema as a file.
fn json(schema: &Schema) -> String {
    serde_json::to_string_pretty(schema).expect("a schema is JSON") + "\n"
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A spelling of another language, as British of American, has its files.
    #[test]
    fn every_language_has_first_files_of_its_own() {
        let name = |tag: &str| tag.split('-').next().unwrap_or_default().to_string();
        for tag in Language::tags() {
            let language = Language::of(tag).unwrap();
            let spelling = language.base().is_some_and(|base| name(base) == name(tag));
            let own = FILES.iter().filter(|(file, _)| file.starts_with(&format!("{tag}/"))).count();
            assert!(spelling || own > 1, "src/commands/start/{tag}/ has {own} files, and needs recipes/ and {SITE}");
            assert!(files(&language).iter().any(|(file, _)| *file == SITE), "{tag} has no {SITE}");
        }
    }
}
