//! What becomes of a sheet: the description, the post, the card and the JSON-LD.

#![allow(clippy::disallowed_methods, reason = "tests lay out their own files")]

mod fixture;
mod hostile;
mod language;
mod outputs;
mod overrides;
mod reference;
mod shortening;
mod structured;
#[path = "../told/mod.rs"]
mod told;
