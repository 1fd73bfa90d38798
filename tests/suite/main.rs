//! Every test of the program, a module a subject.

#![allow(clippy::disallowed_methods, reason = "tests lay out their own files")]

mod laws;
mod lines;
mod reading;
