use std::io::{self, BufWriter, IsTerminal, Write};

use anstream::AutoStream;

use crate::proof::report;
use crate::source::{shown, shown_in_json};
use crate::workspace::Faulty;

/// The one way to standard output and standard error. What would act on a terminal instead of being seen is shown:
/// texts, names of files and messages may come from anywhere.
pub(super) struct Screen<W: Write> {
    stream: W,
    terminal: bool,
    colour: bool,
}

/// Standard output.
#[allow(clippy::disallowed_methods, reason = "this is where it is written to")]
pub(super) fn stdout() -> Screen<impl Write> {
    let stream = anstream::stdout();
    let colour = stream.current_choice() != anstream::ColorChoice::Never;
    Screen { stream: BufWriter::new(stream.lock()), terminal: io::stdout().is_terminal(), colour }
}

/// Standard error.
#[allow(clippy::disallowed_methods, reason = "this is where it is written to")]
pub(super) fn stderr() -> Screen<AutoStream<io::StderrLock<'static>>> {
    let stream = anstream::stderr();
    let colour = stream.current_choice() != anstream::ColorChoice::Never;
    Screen { stream: stream.lock(), terminal: io::stderr().is_terminal(), colour }
}

impl<W: Write> Screen<W> {
    /// Whether colours are seen.
    pub(super) fn has_colour(&self) -> bool {
        self.colour
    }

    /// Writes a line that was drawn for a screen, colours and all, by what shows other texts' controls itself.
    pub(super) fn drawn(&mut self, line: &str) -> io::Result<()> {
        self.stream.write_all(line.as_bytes())?;
        self.stream.write_all(b"\n")
    }

    /// Writes a line of JSON.
    pub(super) fn json(&mut self, json: &str) -> io::Result<()> {
        self.drawn(&shown_in_json(json))
    }

    /// Writes an output: as it is into a file or another program, shown on a terminal.
    ///
    /// # Errors
    /// Bytes that are no text, on a terminal.
    pub(super) fn output(&mut self, bytes: &[u8]) -> io::Result<()> {
        if !self.terminal {
            return self.stream.write_all(bytes);
        }
        let no_text = |_| io::Error::other("this is no text for a terminal; send it to a file with `>`");
        self.write_all(std::str::from_utf8(bytes).map_err(no_text)?.as_bytes())
    }
}

/// Plain text. Every piece that is written is whole characters, as formatting gives them.
impl<W: Write> Write for Screen<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.stream.write_all(shown(&String::from_utf8_lossy(bytes)).as_bytes())?;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        self.stream.flush()
    }
}

/// Findings of one file that are drawn, at most; who has so many looks at the first ones.
const MOST_DRAWN: usize = 50;

/// Draws what is wrong with files of the workspace.
pub(super) fn draw(files: &[Faulty]) {
    let mut err = stderr();
    let colour = err.has_colour();
    for Faulty { source, findings } in files {
        for finding in findings.iter().take(MOST_DRAWN) {
            // Nothing can be done where standard error is gone.
            let _ = err.drawn(&report::terminal(source, finding, colour)).and_then(|()| writeln!(err));
        }
        if let Some(more) = findings.len().checked_sub(MOST_DRAWN).filter(|more| *more > 0) {
            let _ = writeln!(err, "and {more} more in `{}`\n", source.name());
        }
    }
}

/// Tells why the program could not run.
pub(super) fn complain(why: &str) {
    // Nothing can be done where standard error is gone.
    let _ = writeln!(stderr(), "levelcup: {}", why.trim_end());
}
