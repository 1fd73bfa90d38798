//! One recipe file, written by weight, becomes everything that goes out.
//!
//! Data flows one way: read, understand, check, convert, compose, write.

pub mod sheet;
pub mod workspace;
