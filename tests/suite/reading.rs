//! Recipe files: what is read, and what is said of what cannot be read.

use levelcup::language::Dictionary;
use levelcup::measure::Standard;
use levelcup::recipe::{LineReader, Recipe, read};
use levelcup::source::{Finding, Source};

fn read_text(text: &str) -> (Option<Recipe>, Vec<Finding>) {
    let lines = LineReader::new(Dictionary::of("en-US").unwrap(), Standard::Customary);
    read(Source::new("recipes/test.yaml", text), "test", &lines)
}

/// The rule and the underlined text of the only finding.
fn only_finding(text: &str) -> (&'static str, String) {
    let (_, findings) = read_text(text);
    assert_eq!(findings.len(), 1, "{findings:?}");
    (findings[0].rule, text[findings[0].span.clone()].to_string())
}

#[test]
fn every_demo_recipe_reads_without_a_finding() {
    for entry in std::fs::read_dir("recipes").unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|e| e == "yaml") {
            let (recipe, findings) = read_text(&std::fs::read_to_string(&path).unwrap());
            assert!(recipe.is_some() && findings.is_empty(), "{path:?}: {findings:#?}");
        }
    }
}

#[test]
fn faults_are_found_where_they_stand() {
    let whole = |part: &str| {
        format!("title: T\n{part}\ncomponents:\n  - name: A\n    ingredients: [1 g salt]\n    steps: [Mix.]\n")
    };
    let step = |keys: &str| {
        format!(
            "title: T\ncomponents:\n  - name: A\n    ingredients: [1 g salt]\n    steps:\n      - {{do: Mix., {keys}}}\n"
        )
    };
    let line = |line: &str| {
        format!("title: T\ncomponents:\n  - name: A\n    ingredients:\n      - {line}\n    steps: [Mix.]\n")
    };
    let case =
        |text: &str, rule: &str, under: &str| assert_eq!(only_finding(text), (rule_name(rule), under.into()), "{text}");
    case(&whole("sumary: x"), "unknown-key", "sumary");
    case(&whole("published: soon"), "unreadable-date", "soon");
    case(&whole("serves: many"), "unreadable-servings", "many");
    case("title: !include notes.txt\n", "yaml-tag", "!include notes.txt");
    case("- title: Toast\n", "wrong-kind", "- title: Toast\n");
    case(&whole("video: javascript:alert(1)"), "unsafe-link", "javascript:alert(1)");
    case(&whole("photo: {file: ../../etc/passwd, alt: x}"), "path-outside-workspace", "../../etc/passwd");
    case(&step("oven: 180"), "temperature-scale-missing", "180");
    case(&step("oven: hot"), "unreadable-temperature", "hot");
    case(&step("time: soon"), "unreadable-time", "soon");
    case(&step("at: \"99\""), "unreadable-time", "\"99\"");
    case(&step("uses: Glaze"), "unknown-component", "Glaze");
    case(&line("200 g"), "unreadable-line", "200 g");
    case(&line("1/0 cup flour"), "unreadable-line", "1/0");
    case(&line("{amount: lots, name: flour}"), "unreadable-line", "lots");
    case(&line("\u{2212}1 g flour"), "unreadable-line", "\u{2212}1");
    case(&line("{amount: -1 g, name: flour}"), "unreadable-line", "-1");
    case("title: T\n", "missing-key", "t");
}

fn rule_name(rule: &str) -> &'static str {
    Box::leak(rule.to_string().into_boxed_str())
}

#[test]
fn scalars_are_what_stands_there() {
    let text = "title: 1.50\nserves: 8\ntags: [2026-07-04, 'null', true]\nsummary: ~\nphoto:\n  file: a.jpg\n  alt: \"~\"\n\
                components:\n  - name: 007\n    ingredients: [1 g salt]\n    steps: [Mix.]\n";
    let (recipe, findings) = read_text(text);
    let recipe = recipe.unwrap_or_else(|| panic!("{findings:?}"));
    assert_eq!(
        (recipe.title.as_str(), recipe.serves.map(|serves| serves.low), recipe.summary),
        ("1.50", Some(8), None)
    );
    assert_eq!(recipe.tags, ["2026-07-04", "null", "true"]);
    assert_eq!(recipe.components[0].name, "007");
    assert_eq!(only_finding("title: x\nserves: eight\ncomponents:\n  - name: A\n").0, "unreadable-servings");
}

/// A link to a file of the workspace is a recipe; one that leads out of it shows nothing of what it leads to.
#[cfg(unix)]
#[test]
fn links_are_followed_inside_the_workspace() {
    use crate::workspace::{CLEAN, Workspace};
    let workspace = Workspace::with(CLEAN);
    let elsewhere = tempfile::NamedTempFile::new().unwrap();
    std::fs::write(elsewhere.path(), CLEAN.replace("title: ", "title: Elsewhere ")).unwrap();
    workspace.file("drafts/buns.yaml", CLEAN);
    let link = |to: &std::path::Path, name: &str| {
        std::os::unix::fs::symlink(to, workspace.path("recipes").join(name)).unwrap();
    };
    link(&workspace.path("drafts/buns.yaml"), "buns.yaml");
    link(elsewhere.path(), "elsewhere.yaml");
    link(std::path::Path::new("/dev/zero"), "endless.yaml");
    let ran = workspace.run(&["archive"]).exits(1);
    for name in ["elsewhere", "endless"] {
        let wanted =
            format!("the file leads out of the workspace; nothing outside it is read\n --> recipes/{name}.yaml:1:1");
        assert!(ran.stderr.contains(&wanted), "{}", ran.stderr);
    }
    let made = |name: &str| workspace.path("out/archive").join(name).is_dir();
    assert!(made("toast") && made("buns") && !made("elsewhere") && !made("endless"));
}

/// An unknown or a missing key hides nothing else that is wrong with the file.
#[test]
fn all_that_is_wrong_is_told_at_once() {
    let text = "sumary: x\npublished: 4 July\nphoto: {file: a.jpg}\nlinks: [{what: ring}]\ncomponents:\n  - name: A\n    \
                ingredients: [1/0 cup flour, {amont: 3 g, name: salt}]\n    steps: [{time: soon}, {do: Mix., oven: hot}]\n";
    let (recipe, findings) = read_text(text);
    assert!(recipe.is_none());
    let told: Vec<(&str, &str)> =
        findings.iter().map(|f| (f.rule, text.get(f.span.clone()).unwrap_or_default())).collect();
    assert_eq!(
        told,
        [
            ("unknown-key", "sumary"),
            ("missing-key", "s"),
            ("unreadable-date", "4 July"),
            ("missing-key", "{"),
            ("missing-key", "{"),
            ("unreadable-line", "1/0"),
            ("unknown-key", "amont"),
            ("missing-key", "{"),
            ("unreadable-time", "soon"),
            ("unreadable-temperature", "hot"),
        ]
    );
}
