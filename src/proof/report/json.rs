use serde::Serialize;

use crate::source::{Finding, Level, Source};

#[derive(Serialize)]
struct Object<'a> {
    file: &'a str,
    line: usize,
    column: usize,
    rule: &'a str,
    level: Level,
    message: &'a str,
    help: Option<&'a str>,
}

/// A finding as one line of JSON, without a line end.
pub fn json(source: &Source, finding: &Finding) -> String {
    let place = source.place(finding.span.start);
    let object = Object {
        file: source.name(),
        line: place.line,
        column: place.column,
        rule: finding.rule,
        level: finding.level,
        message: &finding.message,
        help: finding.help.as_deref(),
    };
    serde_json::to_string(&object).expect("an object of texts and numbers serialises")
}
