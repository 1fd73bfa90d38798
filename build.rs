//! Prepares what the binary embeds.

use std::error::Error;
use std::path::Path;

#[path = "build/fonts.rs"]
mod fonts;
#[path = "build/languages.rs"]
mod languages;
#[path = "build/pantry.rs"]
mod pantry;
#[path = "build/texts.rs"]
mod texts;

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=build.rs");
    fonts::fonts();
    let out = std::env::var("OUT_DIR")?;
    let out = Path::new(&out);
    languages::languages(Path::new("src/language"), out)?;
    texts::texts(Path::new("templates"), &out.join("templates.rs"))?;
    texts::texts(Path::new("src/commands/start"), &out.join("start.rs"))?;
    pantry::pantry(Path::new("src/pantry/table"), out)
}
