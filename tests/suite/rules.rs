//! Every rule: a file that it finds fault with, marked in place, and one near it that is right.
//!
//! `# warning[rule] 13-20: message` stands above the line that it is about, columns from 1, both included. A finding
//! without a mark fails, and so does a mark without a finding. `LEVELCUP_ACCEPT=1 cargo test` writes the marks anew.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock};

use levelcup::facts::Facts;
use levelcup::kitchen::Kitchen;
use levelcup::language::{Dictionary, Language};
use levelcup::pantry::Pantry;
use levelcup::photo::{Album, Photos};
use levelcup::proof::{Archive, Levels, Surroundings, explained, proof, reference};
use levelcup::recipe::{LineReader, Recipe, read};
use levelcup::render::{Environment, description};
use levelcup::sheet::sheet;
use levelcup::source::{Finding, Gate, Source};
use levelcup::trace::Trace;
use levelcup::workspace::Site;

/// The day of every check.
const TODAY: jiff::civil::Date = jiff::civil::date(2026, 8, 1);

static TEMPLATES: LazyLock<Environment> =
    LazyLock::new(|| Environment::new(None, &Gate::anywhere(), &Language::default()).unwrap());

fn accepting() -> bool {
    std::env::var_os("LEVELCUP_ACCEPT").is_some()
}

/// The fixtures: a file is an archive of one recipe, a folder one of several.
fn fixtures() -> Vec<(String, Vec<PathBuf>)> {
    let list = |folder: &Path| {
        let mut paths: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        paths.sort();
        paths
    };
    let yaml = |path: &PathBuf| path.extension().is_some_and(|e| e == "yaml");
    let name = |path: &Path| path.file_stem().unwrap().to_str().unwrap().to_owned();
    let folder = Path::new("tests/rules");
    let of = |path: PathBuf| match path.is_dir() {
        true => (path.file_name().unwrap().to_str().unwrap().to_owned(), walk(&path)),
        false => (name(&path), vec![path]),
    };
    let paths = list(folder).into_iter().filter(|path| yaml(path) || (path.is_dir() && !path.ends_with("photos")));
    paths.map(of).collect()
}

fn walk(folder: &Path) -> Vec<PathBuf> {
    let entries = walkdir::WalkDir::new(folder).sort_by_file_name().into_iter().map(Result::unwrap);
    entries.map(walkdir::DirEntry::into_path).filter(|path| path.is_file()).collect()
}

/// `# site: {...}` in the first line holds settings.
fn site(text: &str) -> Site {
    let settings = text.lines().next().and_then(|line| line.strip_prefix("# site: "));
    settings.map_or_else(Site::default, |yaml| serde_yaml::from_str(yaml).unwrap())
}

/// Reads and proofs the recipes of one fixture.
fn findings(paths: &[PathBuf]) -> Vec<(PathBuf, Source, Vec<Finding>)> {
    let texts: Vec<String> = paths.iter().map(|path| std::fs::read_to_string(path).unwrap()).collect();
    let site = site(&texts[0]);
    let kitchen = kitchen(&site);
    let lines = LineReader::new(Dictionary::of(&site.language).unwrap(), site.cups.into());
    let mut archive = Archive::default();
    archive.reserve(levelcup::archive::reserved());
    let mut recipes: Vec<(PathBuf, Source, Option<Recipe>, Vec<Finding>)> = Vec::new();
    for (path, text) in paths.iter().zip(texts) {
        let slug = path.file_stem().unwrap().to_str().unwrap().to_lowercase();
        let source = Source::new(path.to_str().unwrap(), text);
        let (recipe, found) = read(source.clone(), &slug, &lines);
        archive.add(&slug, source.name(), recipe.as_ref());
        recipes.push((path.clone(), source, recipe, found));
    }
    let shortened = |facts: &Facts<'_>| {
        let described = description(&TEMPLATES, &site, &sheet(facts)).unwrap();
        described.dropped.iter().map(|part| part.name()).collect()
    };
    let photos = Photos::new("tests/rules/photos".into(), Gate::anywhere(), Album::default());
    let around = Surroundings {
        site: &site,
        archive: &archive,
        photos: Some(&photos),
        today: Some(TODAY),
        shortened: Some(&shortened),
        trace: &Trace::default(),
    };
    let levels = Levels::of_site(&site);
    let proofed = recipes.into_iter().map(|(path, source, recipe, mut found)| {
        found.extend(recipe.iter().flat_map(|recipe| proof(&Facts::of(recipe, &kitchen), around, &levels)));
        (path, source, found)
    });
    proofed.collect()
}

/// A kitchen under settings; the usual one is made once.
fn kitchen(site: &Site) -> Arc<Kitchen> {
    static USUAL: LazyLock<Arc<Kitchen>> = LazyLock::new(|| of(&Site::default()));
    fn of(site: &Site) -> Arc<Kitchen> {
        Arc::new(Kitchen::new(Pantry::embedded(), site).unwrap())
    }
    if *site == Site::default() { USUAL.clone() } else { of(site) }
}

fn is_mark(line: &str) -> bool {
    let line = line.trim_start();
    ["# error[", "# warning[", "# note["].iter().any(|start| line.starts_with(start))
}

/// A finding as a mark, and the line it is about.
fn mark(source: &Source, finding: &Finding) -> (usize, String) {
    let start = source.place(finding.span.start);
    let end = source.place(finding.span.end.max(finding.span.start + 1));
    let last = if end.line == start.line { end.column.saturating_sub(1) } else { 999 };
    let text = format!("# {}[{}] {}-{last}: {}", finding.level, finding.rule, start.column, finding.message);
    (start.line, text)
}

/// The file with its marks as the findings would have them.
fn marked(source: &Source, findings: &[Finding]) -> String {
    let marks: Vec<(usize, String)> = findings.iter().map(|finding| mark(source, finding)).collect();
    let mut text = String::new();
    for (at, line) in source.text().lines().enumerate() {
        if is_mark(line) {
            continue;
        }
        let indent = &line[..line.len() - line.trim_start().len()];
        for (_, mark) in marks.iter().filter(|(of, _)| *of == at + 1) {
            text.push_str(&format!("{indent}{mark}\n"));
        }
        text.push_str(&format!("{line}\n"));
    }
    text
}

#[test]
fn findings_stand_where_the_fixtures_mark_them() {
    let mut wrong = Vec::new();
    for (_, paths) in fixtures() {
        for (path, source, found) in findings(&paths) {
            let wanted = marked(&source, &found);
            if wanted == source.text() {
                continue;
            }
            if accepting() {
                std::fs::write(&path, wanted).unwrap();
            } else {
                wrong.push(format!("{}\n{}", path.display(), diff(source.text(), &wanted)));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Lines that only one of two texts has.
fn diff(old: &str, new: &str) -> String {
    let only = |sign: &str, one: &str, other: &str| {
        let lines = one.lines().filter(|line| !other.lines().any(|same| same == *line));
        lines.map(|line| format!("{sign}{line}\n")).collect::<String>()
    };
    only("-", old, new) + &only("+", new, old)
}

#[test]
fn every_rule_has_a_fault_and_a_near_miss() {
    let fixtures = fixtures();
    assert!(fixtures.len() >= 40, "{}", fixtures.len());
    let fires: BTreeSet<&'static str> = fixtures
        .iter()
        .flat_map(|(name, paths)| {
            let rules: Vec<&'static str> =
                findings(paths).iter().flat_map(|(.., found)| found).map(|f| f.rule).collect();
            let own = name.split('.').next().unwrap();
            assert!(rules.iter().all(|rule| *rule == own), "{name} breaks {rules:?}");
            assert_eq!(name.ends_with(".near"), rules.is_empty(), "{name} breaks {rules:?}");
            rules
        })
        .collect();
    for rule in explained().into_iter().filter(|rule| rule.optional).map(|rule| rule.name) {
        assert!(fires.contains(rule), "no file that {rule} finds fault with");
        let near = format!("{rule}.near");
        assert!(fixtures.iter().any(|(name, _)| *name == near), "no near miss of {rule}");
    }
}

/// Demo recipes are what good recipes look like.
#[test]
fn the_demo_recipes_are_clean() {
    let mut paths: Vec<PathBuf> = walk(Path::new("recipes"));
    paths.retain(|path| path.extension().is_some_and(|e| e == "yaml"));
    for (path, _, found) in findings(&paths) {
        let found: Vec<&Finding> = found.iter().filter(|finding| finding.rule != "date-in-future").collect();
        assert!(found.is_empty(), "{}: {found:#?}", path.display());
    }
}

/// The reference lists what the rules themselves say.
#[test]
fn the_readme_lists_the_rules() {
    let path = "recipes/README.md";
    let page = std::fs::read_to_string(path).unwrap();
    let (head, rest) = page.split_once("<!-- rules -->").expect("the page has the first mark");
    let (_, tail) = rest.split_once("<!-- /rules -->").expect("the page has the second mark");
    let wanted = format!("{head}<!-- rules -->\n{}\n<!-- /rules -->{tail}", reference());
    if accepting() {
        std::fs::write(path, &wanted).unwrap();
    }
    let got = std::fs::read_to_string(path).unwrap();
    let lines = || got.lines().map(Some).chain(std::iter::repeat(None));
    let differs = lines().zip(wanted.lines().map(Some).chain([None])).position(|(got, wanted)| got != wanted);
    if let Some(at) = differs {
        let (got, wanted) = (lines().nth(at).flatten(), wanted.lines().nth(at));
        panic!("{path}:{}\n  expected {wanted:?}\n  got      {got:?}\nLEVELCUP_ACCEPT=1 writes it anew", at + 1);
    }
}
