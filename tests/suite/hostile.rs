//! Input that means harm, or is only broken: a clear finding or an inert rendering, never a panic.

use proptest::prelude::*;

use crate::soup::{recipe, words};
use crate::workspace::{CLEAN, Workspace};

/// The rules found in a recipe.
fn rules(recipe: impl AsRef<[u8]>) -> Vec<String> {
    let ran = Workspace::with(recipe).run(&["proof", "--json"]).exits(1);
    let rule =
        |line: &str| serde_json::from_str::<serde_json::Value>(line).unwrap()["rule"].as_str().unwrap().to_string();
    ran.stdout.lines().map(rule).collect()
}

#[test]
fn broken_files_are_findings() {
    let bomb = format!("a: &a [x]\nb: &b [{}]\ntitle: *b\n", ["*a"; 50].join(", "));
    let case = |recipe: &[u8], rule: &str| assert_eq!(rules(recipe), [rule]);
    case(bomb.as_bytes(), "yaml-alias");
    case(b"title: caf\xe9\n", "unreadable-file");
    case(format!("title: {}\n", "x".repeat(10 << 20)).as_bytes(), "unreadable-file");
    case(format!("title: {}{}\n", "[".repeat(200), "]".repeat(200)).as_bytes(), "nested-too-deep");
    case(CLEAN.replace("Toast\nsummary", "Toast\nvideo: javascript:alert(1)\nsummary").as_bytes(), "unsafe-link");
    case(
        CLEAN.replace("Toast\nsummary", "Toast\nphoto: {file: ../../secret, alt: x}\nsummary").as_bytes(),
        "path-outside-workspace",
    );
    case(CLEAN.replace("80 g", "99999999999999999999 g").as_bytes(), "unreadable-line");
    case(b"", "empty-file");
    case(b"\x00\x01", "yaml-syntax");
}

#[test]
fn text_that_means_harm_is_inert() {
    let harm =
        r#"<script>alert(1)</script> {{ site.name }} {% raw %} <img src=x onerror=alert(1)> [x](javascript:alert(1))"#;
    let quoted = serde_json::to_string(harm).unwrap();
    let recipe = CLEAN
        .replace("title: Toast", &format!("title: {quoted}"))
        .replace("Bread, browned.", &quoted)
        .replace("do: Brown the bread and spread the butter.", &format!("do: {quoted}"));
    let workspace = Workspace::with(&recipe);
    workspace.run(&["publish"]);
    let page = workspace.read("out/archive/toast/index.html");
    let post = workspace.read("out/posts/toast.html");
    let description = workspace.read("out/descriptions/toast.txt");
    for output in [&page, &post] {
        assert!(!output.contains("<script>alert") && !output.contains("<img src=x"), "{output}");
        assert!(!output.contains("href=\"javascript:"), "{output}");
        assert!(output.contains("{{ site.name }}") || output.contains("site.name"), "shown as written");
    }
    assert!(!description.contains(['<', '>']), "{description}");
}

proptest! {
    #[test]
    fn no_words_bring_it_down(line in words(), step in words(), until in words(), makes in words()) {
        recipe(&line, &step, &until, &makes);
    }
}

/// More than any recipe has is told at once, and worked on by nobody.
#[test]
fn too_much_is_a_finding() {
    let many = |piece: &str, count: usize| piece.repeat(count);
    let components = |parts: &str| CLEAN.split("components:").next().unwrap().to_owned() + "components:\n" + parts;
    let part = |lines: usize, steps: usize| {
        let (lines, steps) = (many("      - 1 g salt\n", lines), many("      - Mix.\n", steps));
        format!("  - name: A\n    ingredients:\n{lines}    steps:\n{steps}")
    };
    let case = |recipe: String| assert_eq!(rules(recipe), ["too-much"]);
    case(CLEAN.replace("makes:", &format!("tags: [{}]\nmakes:", many("a, ", 130_000))));
    case(CLEAN.replace("makes:", &format!("was: [{}]\nmakes:", many("a, ", 101))));
    case(format!("{CLEAN}links:\n{}", many("  - {what: a, url: \"https://a.example/\"}\n", 101)));
    case(format!("{CLEAN}corrections:\n{}", many("  - {on: 2026-01-01, what: x}\n", 201)));
    case(format!("{CLEAN}allow:\n{}", many("  - {rule: a, because: b}\n", 51)));
    case(CLEAN.replace("Bread, browned.", &many("½", 10_001)));
    case((0..90_000).fold(CLEAN.to_owned(), |text, key| format!("{text}k{key}: x\n")));
    case(components(&part(101, 1)));
    case(components(&part(1, 101)));
    case(components(&many(&part(1, 1), 51)));
}

/// What brought it down once.
#[test]
fn words_that_did_no_longer_do() {
    for step in ["Bake at gas 4/180C.", "gas 4C", "gas½/130 °C", "Bake at 180/160C fan/gas 4/350F"] {
        assert!(recipe("1 g salt", step, step, "1 loaf"), "{step}");
    }
    let workspace = Workspace::with(CLEAN.replace("Brown the bread", "Bake at gas 4/180C."));
    workspace.run(&["publish"]).exits(0);
}
