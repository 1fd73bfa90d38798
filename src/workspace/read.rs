use std::sync::LazyLock;

use schemars::Schema;
use serde_json::json;

use super::site::Site;
use crate::language::Language;
use crate::pantry::{EggSize, REGIONS, sizes};
use crate::source::{Finding, Source};
use crate::text::is_web_address;
use crate::yaml::{Document, Entry, Format, Node, beginning, nearest, unknown_choice};

static FORMAT: LazyLock<Format> = LazyLock::new(|| {
    let start = "settings are keys with values, such as `name: Our kitchen`; every key may be left out";
    Format::new(&schemars::schema_for!(Site), "a file of settings", start)
});

/// A rule whose level a site may ask for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RuleName {
    /// The fault, in words joined by hyphens.
    pub name: &'static str,
    /// Whether a site can set it; there is nothing to read of a file that breaks another.
    pub optional: bool,
}

/// The JSON Schema (draft 2020-12) of `site/site.yaml`, for completion in editors.
pub fn schema(rules: &[RuleName]) -> Schema {
    let mut schema = schemars::schema_for!(Site);
    let names = rules.iter().filter(|rule| rule.optional).map(|rule| json!(rule.name));
    let names: Vec<_> = names.collect();
    let levels = schema.pointer_mut("/properties/levels").and_then(serde_json::Value::as_object_mut);
    levels.map(|levels| levels.insert("propertyNames".into(), json!({ "enum": names })));
    schema
}

/// Reads `site/site.yaml`; an empty one leaves everything as usual.
///
/// # Errors
/// All that is wrong with it, in the order of the places.
pub fn read(source: &Source, rules: &[RuleName]) -> Result<Site, Vec<Finding>> {
    let document = Document::read(source, &FORMAT).map_err(|finding| vec![*finding])?;
    let root = &document.root;
    let text = |key: &str| root.get(key).and_then(|node| Some((node, node.text(source)?)));
    let mut findings: Vec<Finding> = Vec::new();
    findings.extend(text("url").and_then(|(node, url)| bad_url(node, url)));
    findings.extend(text("accent").and_then(|(node, accent)| bad_accent(node, accent)));
    findings.extend(root.get("eggs").into_iter().flat_map(|eggs| bad_eggs(eggs, source)));
    findings.extend(root.get("levels").map_or(&[][..], Node::entries).iter().filter_map(|entry| {
        let known = rules.iter().find(|rule| rule.name == entry.key);
        bad_rule(&entry.key, known, rules)
            .map(|(message, help)| Finding::error("unknown-rule", entry.span.clone(), message).help(help))
    }));
    findings.extend(bad_words(root.get("words").map_or(&[][..], Node::entries)));
    document.sound(source, findings)
}

/// Words of the site's own under keys that nothing asks for.
fn bad_words(entries: &[Entry]) -> Vec<Finding> {
    let english = Language::default();
    let unknown = entries.iter().filter(|entry| english.find(&entry.key, &[]).is_none());
    let told = unknown.map(|entry| {
        let message = format!("no words are kept under `{}`", beginning(&entry.key));
        let help =
            format!("did you mean `{}`? templates/README.md says where all keys are", english.nearest(&entry.key));
        Finding::error("unknown-key", entry.span.clone(), message).help(help)
    });
    told.collect()
}

fn bad_url(node: &Node, url: &str) -> Option<Finding> {
    if url.is_empty() || is_web_address(url) {
        return None;
    }
    let message = format!("`{}` is not an http(s) address", beginning(url));
    let help = "write the whole address of the archive: `https://kitchen.example/`; or `\"\"` where there is none";
    Some(Finding::error("unsafe-link", node.span.clone(), message).help(help))
}

fn bad_accent(node: &Node, accent: &str) -> Option<Finding> {
    let digits = accent.strip_prefix('#').unwrap_or_default();
    if digits.len() == 6 && digits.bytes().all(|byte| byte.is_ascii_hexdigit()) {
        return None;
    }
    let message = format!("`{}` is not a colour", beginning(accent));
    let help = "write `#` and six hexadecimal digits, in quotes: `\"#7a3b2e\"`";
    Some(Finding::error("unreadable-colour", node.span.clone(), message).help(help))
}

/// Of region and size each that is none; a size is one of its region's.
fn bad_eggs(eggs: &Node, source: &Source) -> Vec<Finding> {
    let usual = Site::default().eggs;
    let part = |key: &str| eggs.get(key).and_then(|node| Some((node, node.text(source)?)));
    let region = part("region").map_or(usual.region.as_str(), |(_, region)| region);
    let of_region = sizes(region);
    let mut findings = Vec::new();
    if let (Some((node, region)), None) = (part("region"), of_region) {
        findings.push(unknown_choice(region, node.span.clone(), "`region`", &REGIONS));
    }
    if let Some((node, size)) = part("size") {
        let (region, of, all) = match of_region {
            Some(sizes) => (region, format!("`size` in the {}", region.to_uppercase()), sizes),
            None => ("US", "`size`".to_string(), sizes("US").unwrap_or_default()),
        };
        if EggSize::of(region, size).is_none() {
            findings.push(unknown_choice(size, node.span.clone(), &of, all));
        }
    }
    findings
}

/// What is wrong with a name in `levels`, and what to do about it.
fn bad_rule(name: &str, known: Option<&RuleName>, rules: &[RuleName]) -> Option<(String, String)> {
    match known {
        Some(rule) if rule.optional => None,
        Some(_) => Some((
            format!("`{name}` cannot be changed: without it the file cannot be used"),
            "take the line out".into(),
        )),
        None => {
            let near = nearest(name, rules.iter().filter(|rule| rule.optional).map(|rule| rule.name));
            let near = near.map(|near| format!("did you mean `{near}`? ")).unwrap_or_default();
            Some((
                format!("no rule is called `{}`", beginning(name)),
                format!("{near}`levelcup proof --explain` lists the rules"),
            ))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::Dictionary;

    /// The choices that the schema gives are those that the other rooms know.
    #[test]
    fn every_choice_is_one() {
        let schema = schemars::schema_for!(Site).to_value();
        let languages = schema.pointer("/properties/language/enum").unwrap().as_array().unwrap();
        assert_eq!(languages.len(), Language::tags().count());
        for language in languages {
            assert!(Dictionary::of(language.as_str().unwrap()).is_ok(), "{language}");
        }
        for region in REGIONS {
            for size in sizes(region).unwrap() {
                assert!(EggSize::of(region, size).is_some(), "{region} {size}");
            }
        }
    }
}
