//! Prepares what the binary embeds.

#[path = "build/fonts.rs"]
mod fonts;

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    fonts::fonts();
}
