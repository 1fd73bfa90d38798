//! One recipe file, written by weight, becomes everything that goes out.
//!
//! Data flows one way: read, understand, check, convert, compose, write.

pub mod archive;
pub mod commands;
pub mod facts;
pub mod kitchen;
pub mod language;
pub mod measure;
pub mod output;
pub mod pantry;
pub mod photo;
pub mod proof;
pub mod recipe;
pub mod render;
pub mod sheet;
pub mod source;
pub mod text;
pub mod trace;
pub mod typeset;
pub mod workspace;
pub mod yaml;
