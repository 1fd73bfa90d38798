//! The archive of 1,000 and of 10,000 recipes: whole, unchanged, and with one recipe edited.
//!
//! `cargo bench --bench archive`; with `-- --lay-out FOLDER COUNT` it only writes a workspace.

#![allow(clippy::disallowed_methods, reason = "a bench lays out its own files")]

#[path = "../tests/many/mod.rs"]
mod many;

use std::error::Error;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).filter(|argument| argument != "--bench").collect();
    if let [flag, folder, count] = &arguments[..]
        && flag == "--lay-out"
    {
        many::workspace(Path::new(folder), count.parse()?)?;
        return Ok(());
    }
    for count in [10_000, 1_000] {
        let folder = tempfile::TempDir::new()?;
        many::workspace(folder.path(), count)?;
        let whole = archive(folder.path())?;
        let unchanged = archive(folder.path())?;
        let (name, text) = many::recipe(count / 2);
        let edited = text.replacen("made over two days", "made in one day", 1);
        fs::write(folder.path().join("recipes").join(name), edited)?;
        let one = archive(folder.path())?;
        println!("{count} recipes: whole {whole:.2?}, unchanged {unchanged:.2?}, one edited {one:.2?}");
    }
    Ok(())
}

fn archive(workspace: &Path) -> Result<Duration, Box<dyn Error>> {
    let start = Instant::now();
    let mut command = Command::new(env!("CARGO_BIN_EXE_levelcup"));
    let status = command.arg("archive").arg("--workspace").arg(workspace).stderr(Stdio::null()).status()?;
    // Findings end with 1; only 2 says that nothing could be built.
    if status.code().is_none_or(|code| code > 1) {
        return Err("the archive could not be built".into());
    }
    Ok(start.elapsed())
}
