//! Prepares what the binary embeds.

use std::error::Error;
use std::path::Path;

#[path = "build/fonts.rs"]
mod fonts;
#[path = "build/pantry.rs"]
mod pantry;

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=build.rs");
    fonts::fonts();
    let out = std::env::var("OUT_DIR")?;
    pantry::pantry(Path::new("src/pantry/table"), Path::new(&out))
}
