//! Every test of the program, a module a subject.

#![allow(clippy::disallowed_methods, reason = "tests lay out their own files")]

mod cards;
mod cautions;
mod commands;
mod dishes;
mod golden;
mod hostile;
mod isolation;
mod laws;
mod lines;
mod method;
mod mutants;
mod names;
mod notices;
mod pairs;
mod proof;
mod reading;
mod readme;
mod rules;
mod scales;
mod scores;
mod settings;
mod slips;
mod soup;
#[path = "../told/mod.rs"]
mod told;
mod workspace;
