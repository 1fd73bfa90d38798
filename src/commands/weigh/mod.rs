mod answer;
mod table;

use std::io::{BufRead, Write};

use clap::Args;

use super::screen::stdout;
use super::settings::Settings;
use super::{CommandError, Outcome};

use answer::Answer;

/// Read ingredient lines and give each in the other system
///
/// Lines come as arguments, or one a line from standard input. The workspace's cups, eggs and pantry are used where
/// there is a workspace. Exit code 1 when a line could not be read or weighed.
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  levelcup weigh \"1 2/3 cups icing sugar\" \"150 g egg\"\n  levelcup weigh --json - < lines.txt"
)]
pub(super) struct WeighArguments {
    /// One JSON object a line, in input order; a line that cannot be read says so in `problem`
    #[arg(long)]
    json: bool,
    /// Ingredient lines; `-` or none reads standard input
    #[arg(value_name = "LINE")]
    lines: Vec<String>,
}

pub(super) fn run(command: &WeighArguments, settings: &Settings) -> Result<Outcome, CommandError> {
    let (kitchen, reader) = settings.kitchen()?;
    let from_input = command.lines.is_empty() || command.lines == ["-"];
    let mut out = stdout();
    if command.json {
        let mut unread = false;
        let mut answer = |line: &str| {
            let answer = Answer::to(line, &kitchen, &reader);
            // An empty line asks for nothing.
            unread |= answer.problem.is_some() && !line.trim().is_empty();
            out.json(&answer.json())
        };
        if from_input {
            for line in std::io::stdin().lock().split(b'\n') {
                answer(&text(line?))?;
            }
        } else {
            command.lines.iter().try_for_each(|line| answer(line))?;
        }
        out.flush()?;
        return Ok(Outcome::held_back(unread));
    }
    let lines: Vec<String> = match from_input {
        true => std::io::stdin().lock().split(b'\n').map(|line| line.map(text)).collect::<Result<_, _>>()?,
        false => command.lines.clone(),
    };
    let filled = lines.iter().filter(|line| !line.trim().is_empty());
    let answers: Vec<Answer> = filled.map(|line| Answer::to(line, &kitchen, &reader)).collect();
    out.write_all(table::table(&answers).as_bytes())?;
    out.flush()?;
    Ok(Outcome::held_back(answers.iter().any(|answer| answer.problem.is_some())))
}

/// A line as text: what is not UTF-8 is replaced, so that one bad line spoils no other.
fn text(line: Vec<u8>) -> String {
    let line = String::from_utf8(line).unwrap_or_else(|error| String::from_utf8_lossy(error.as_bytes()).into_owned());
    line.strip_suffix('\r').map(str::to_string).unwrap_or(line)
}
