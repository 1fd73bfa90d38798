use serde::Serialize;

use crate::proof::explain::explained;
use crate::source::{Finding, Level, Source, Span};
use crate::text::path_part;

/// Findings as one SARIF 2.1.0 log (OASIS standard of 2020), with all rules described; columns count characters.
pub fn sarif<'a>(findings: impl Iterator<Item = (&'a Source, &'a Finding)>) -> String {
    let rules: Vec<SarifRule> = explained().into_iter().map(rule).collect();
    let results = findings.map(|(source, finding)| result(source, finding, &rules)).collect();
    let driver = Driver { name: "levelcup", version: env!("CARGO_PKG_VERSION"), rules };
    let run = SarifRun { tool: Tool { driver }, column_kind: "unicodeCodePoints", results };
    let log = Log { schema: "https://json.schemastore.org/sarif-2.1.0.json", version: "2.1.0", runs: [run] };
    serde_json::to_string_pretty(&log).expect("a log of texts and numbers serialises")
}

fn rule(explained: crate::proof::Explained) -> SarifRule {
    let finds = explained.parts.first().map_or("", String::as_str);
    let short = finds.strip_prefix("What it finds: ").unwrap_or(finds).to_string();
    SarifRule {
        id: explained.name,
        short_description: SarifText { text: short },
        full_description: SarifText { text: explained.parts.join("\n\n") },
        default_configuration: Configuration { level: level(explained.level) },
    }
}

fn result(source: &Source, finding: &Finding, rules: &[SarifRule]) -> SarifOutcome {
    let text = match &finding.help {
        Some(help) => format!("{}; {help}", finding.message),
        None => finding.message.clone(),
    };
    let related = finding.others.iter().map(|other| {
        let text = Some(SarifText { text: other.text.clone() }).filter(|text| !text.text.is_empty());
        Location { physical_location: physical(source, &other.span), message: text }
    });
    let fixes = finding.mend.iter().map(|mend| Fix {
        artifact_changes: [SarifChange {
            artifact_location: artifact(source),
            replacements: [Replacement {
                deleted_region: region(source, &mend.span),
                inserted_content: SarifText { text: mend.replacement.clone() },
            }],
        }],
    });
    SarifOutcome {
        rule_id: finding.rule,
        rule_index: rules.iter().position(|rule| rule.id == finding.rule),
        level: level(finding.level),
        message: SarifText { text },
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
    let parts: Vec<String> = source.name().split(['/', '\\']).map(path_part).collect();
    Artifact { uri: parts.join("/") }
}

fn region(source: &Source, span: &Span) -> SarifRegion {
    let (start, end) = (source.place(span.start), source.place(span.end.max(span.start)));
    SarifRegion { start_line: start.line, start_column: start.column, end_line: end.line, end_column: end.column }
}

#[derive(Serialize)]
struct Log {
    #[serde(rename = "$schema")]
    schema: &'static str,
    version: &'static str,
    runs: [SarifRun; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct SarifRun {
    tool: Tool,
    column_kind: &'static str,
    results: Vec<SarifOutcome>,
}

#[derive(Serialize)]
struct Tool {
    driver: Driver,
}

#[derive(Serialize)]
struct Driver {
    name: &'static str,
    version: &'static str,
    rules: Vec<SarifRule>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct SarifRule {
    id: &'static str,
    short_description: SarifText,
    full_description: SarifText,
    default_configuration: Configuration,
}

#[derive(Serialize)]
struct Configuration {
    level: &'static str,
}

#[derive(Serialize)]
struct SarifText {
    text: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct SarifOutcome {
    rule_id: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    rule_index: Option<usize>,
    level: &'static str,
    message: SarifText,
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
    message: Option<SarifText>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Physical {
    artifact_location: Artifact,
    region: SarifRegion,
}

#[derive(Serialize)]
struct Artifact {
    uri: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct SarifRegion {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    end_column: usize,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Fix {
    artifact_changes: [SarifChange; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct SarifChange {
    artifact_location: Artifact,
    replacements: [Replacement; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Replacement {
    deleted_region: SarifRegion,
    inserted_content: SarifText,
}
