//! Prepares what the binary embeds.

use std::error::Error;
use std::path::Path;

#[path = "build/fonts.rs"]
mod fonts;
#[path = "build/languages.rs"]
mod languages;
#[path = "build/pantry.rs"]
mod pantry;
#[path = "build/templates.rs"]
mod templates;

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=build.rs");
    fonts::fonts();
    let out = std::env::var("OUT_DIR")?;
    languages::languages(Path::new("src/language"), Path::new(&out))?;
    templates::templates(Path::new("templates"), Path::new(&out))?;
    pantry::pantry(Path::new("src/pantry/table"), Path::new(&out))
}
