use serde::Serialize;

use crate::proof::explain::explained;
use crate::source::{Finding, Level, Source, Span};

/// Findings as one SARIF 2.1.0 log (OASIS standard of 2020), with all rules described; columns count characters.
pub fn sarif<'a>(findings: impl Iterator<Item = (&'a Source, &'a Finding)>) -> String {
    let rules: Vec<Rule> = explained().into_iter().map(rule).collect();
    let results = findings.map(|(source, finding)| result(source, finding, &rules)).collect();
    let driver = Driver { name: "levelcup", version: env!("CARGO_PKG_VERSION"), rules };
    let run = Run { tool: Tool { driver }, column_kind: "unicodeCodePoints", results };
    let log = Log { schema: "https://json.schemastore.org/sarif-2.1.0.json", version: "2.1.0", runs: [run] };
    serde_json::to_string_pretty(&log).expect("a log of texts and numbers serialises")
}

fn rule(explained: crate::proof::Explained) -> Rule {
    let finds = explained.parts.first().map_or("", String::as_str);
    let short = finds.strip_prefix("What it finds: ").unwrap_or(finds).to_string();
    Rule {
        id: explained.name,
        short_description: Text { text: short },
        full_description: Text { text: explained.parts.join("\n\n") },
        default_configuration: Configuration { level: level(explained.level) },
    }
}

fn result(source: &Source, finding: &Finding, rules: &[Rule]) -> Outcome {
    let text = match &finding.help {
        Some(help) => format!("{}; {help}", finding.message),
        None => finding.message.clone(),
    };
    let related = finding.others.iter().map(|other| {
        let text = Some(Text { text: other.text.clone() }).filter(|text| !text.text.is_empty());
        Location { physical_location: physical(source, &other.span), message: text }
    });
    let fixes = finding.mend.iter().map(|mend| Fix {
        artifact_changes: [Change {
            artifact_location: artifact(source),
            replacements: [Replacement {
                deleted_region: region(source, &mend.span),
                inserted_content: Text { text: mend.replacement.clone() },
            }],
        }],
    });
    Outcome {
        rule_id: finding.rule,
        rule_index: rules.iter().position(|rule| rule.id == finding.rule),
        level: level(finding.level),
        message: Text { text },
        locations: [Location { physical_location: physical(source, &finding.span), message: None }],
        related_locations: related.collect(),
        fixes: fixes.collect(),
    }
}

fn level(level: Level) -> &'static str {
    match level {
        Level::Error => "error",
        Level::Warning => "warning",
        Level::Note => "note",
    }
}

fn physical(source: &Source, span: &Span) -> Physical {
    Physical { artifact_location: artifact(source), region: region(source, span) }
}

/// The file's name as a relative reference, its parts encoded.
fn artifact(source: &Source) -> Artifact {
    use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
    const KEPT: &AsciiSet = &NON_ALPHANUMERIC.remove(b'/').remove(b'-').remove(b'_').remove(b'.').remove(b'~');
    Artifact { uri: utf8_percent_encode(&source.name().replace('\\', "/"), KEPT).to_string() }
}

fn region(source: &Source, span: &Span) -> Region {
    let (start, end) = (source.place(span.start), source.place(span.end.max(span.start)));
    Region { start_line: start.line, start_column: start.column, end_line: end.line, end_column: end.column }
}

#[derive(Serialize)]
struct Log {
    #[serde(rename = "$schema")]
    schema: &'static str,
    version: &'static str,
    runs: [Run; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Run {
    tool: Tool,
    column_kind: &'static str,
    results: Vec<Outcome>,
}

#[derive(Serialize)]
struct Tool {
    driver: Driver,
}

#[derive(Serialize)]
struct Driver {
    name: &'static str,
    version: &'static str,
    rules: Vec<Rule>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Rule {
    id: &'static str,
    short_description: Text,
    full_description: Text,
    default_configuration: Configuration,
}

#[derive(Serialize)]
struct Configuration {
    level: &'static str,
}

#[derive(Serialize)]
struct Text {
    text: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Outcome {
    rule_id: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    rule_index: Option<usize>,
    level: &'static str,
    message: Text,
    locations: [Location; 1],
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related_locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    fixes: Vec<Fix>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Location {
    physical_location: Physical,
    #[serde(skip_serializing_if = "Option::is_none")]
    message: Option<Text>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Physical {
    artifact_location: Artifact,
    region: Region,
}

#[derive(Serialize)]
struct Artifact {
    uri: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    end_column: usize,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Fix {
    artifact_changes: [Change; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Change {
    artifact_location: Artifact,
    replacements: [Replacement; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Replacement {
    deleted_region: Region,
    inserted_content: Text,
}
