//! The commands, run as a cook runs them.

use levelcup::language::Language;

use crate::told::same_list;
use crate::workspace::{CLEAN, Workspace, levelcup};

fn json(text: &str) -> Vec<serde_json::Value> {
    text.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

#[test]
fn weigh_answers_a_line_in_the_other_system() {
    let folder = tempfile::tempdir().unwrap();
    let ran = levelcup(folder.path(), &["weigh", "--json", "1 2/3 cups icing sugar", "122 g (1/2 cup) whole milk"], "")
        .exits(0);
    let answers = json(&ran.stdout);
    // USDA SR28 19336: a cup of unsifted powdered sugar is 120 g.
    assert_eq!(answers[0]["grams"], serde_json::json!({"low": 200.0, "high": 200.0}));
    assert_eq!(answers[0]["level"], "1 2/3 cups");
    assert_eq!(answers[0]["ingredient"], "powdered-sugar");
    assert_eq!(answers[0]["source"], "USDA SR28 19336, cup unsifted");
    assert_eq!(answers[0]["problem"], serde_json::Value::Null);
    assert_eq!(answers[1]["amounts"][0], serde_json::json!({"low": 122.0, "high": 122.0, "unit": "g"}));
    assert_eq!(answers[1]["amounts"][1], serde_json::json!({"low": 0.5, "high": 0.5, "unit": "cup"}));
    let keys: Vec<&String> = answers[0].as_object().unwrap().keys().collect();
    let wanted = "line amounts name note ingredient grams level count error_percent source problem";
    assert_eq!(keys, wanted.split(' ').collect::<Vec<_>>());
}

#[test]
fn weigh_names_what_does_the_same_work() {
    let folder = tempfile::tempdir().unwrap();
    let said = levelcup(folder.path(), &["weigh", "12 g silver gelatine", "20 g fresh yeast"], "").exits(0).stdout;
    // 12 × 160 / 225 and 12 × √(160 / 225).
    assert!(said.contains("or 8.5 g gelatin powder, "), "{said}");
    assert!(said.contains("(mass × bloom, the trade's rule)\n  or 10 g gelatin powder, "), "{said}");
    assert!(said.contains("or 8 g active dry yeast, 6.5 g instant yeast (common practice"), "{said}");
}

#[test]
fn every_command_takes_cups_language_and_eggs() {
    let folder = tempfile::tempdir().unwrap();
    levelcup(folder.path(), &["start", "--cups", "metric", "--eggs", "EU medium", "kitchen"], "").exits(0);
    let kitchen = folder.path().join("kitchen");
    let settings = std::fs::read_to_string(kitchen.join("site/site.yaml")).unwrap();
    assert!(settings.contains("\ncups: metric\n") && settings.contains("\neggs: {region: EU, size: medium}\n"));
    let described = |more: &[&str]| {
        let arguments = [&["describe", "--stdout", "lemon-drizzle-squares"], more].concat();
        levelcup(&kitchen, &arguments, "").exits(0).stdout
    };
    let own = described(&[]);
    assert_eq!(own, described(&["--cups", "metric", "--eggs", "EU medium"]));
    assert_ne!(own, described(&["--cups", "imperial"]));
    assert!(described(&["--language", "fr"]).contains("c. à"));
    let weighed = levelcup(&kitchen, &["weigh", "--eggs", "US extra large", "2 eggs"], "").exits(0).stdout;
    assert!(weighed.contains("112 g"), "{weighed}");
    for wrong in [["--eggs", "huge"], ["--language", "xx"], ["--cups", "mug"]] {
        levelcup(&kitchen, &[&["proof"], &wrong[..]].concat(), "").exits(2);
    }
}

#[test]
fn weigh_reads_standard_input_in_order_and_never_stops() {
    let folder = tempfile::tempdir().unwrap();
    let ran =
        levelcup(folder.path(), &["weigh", "--json", "-"], "1 tsp salt\n\n1/0 cup flour\n3 glurps\n2 eggs\n").exits(1);
    let answers = json(&ran.stdout);
    let lines: Vec<&str> = answers.iter().map(|answer| answer["line"].as_str().unwrap()).collect();
    assert_eq!(lines, ["1 tsp salt", "", "1/0 cup flour", "3 glurps", "2 eggs"]);
    let problems: Vec<bool> = answers.iter().map(|answer| answer["problem"].is_string()).collect();
    assert_eq!(problems, [false, true, true, true, false]);
}

#[test]
fn a_file_outside_any_workspace_is_read_with_the_usual_settings() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("toast.yaml"), CLEAN).unwrap();
    levelcup(folder.path(), &["proof", "toast.yaml"], "").exits(0);
    assert!(levelcup(folder.path(), &["describe", "toast.yaml", "--stdout"], "").exits(0).stdout.starts_with("Toast"));
    levelcup(folder.path(), &["proof"], "").exits(2);
}

#[test]
fn proof_points_at_a_pair_that_disagrees() {
    let recipe = CLEAN.replace("80 g white bread", "\"90 g (1/2 cup) buckwheat flour\"");
    let workspace = Workspace::with(&recipe);
    let ran = workspace.run(&["proof", "--json"]).exits(1);
    let findings = json(&ran.stdout);
    let pair = findings.iter().find(|f| f["rule"] == "stated-pair-disagrees").unwrap();
    assert_eq!((pair["file"].as_str(), pair["line"].as_u64()), (Some("recipes/toast.yaml"), Some(7)));
    assert_eq!(pair["column"].as_u64(), Some(20));
    let drawn = workspace.run(&["proof"]).exits(1).stdout;
    assert!(drawn.contains("recipes/toast.yaml:7:20") && drawn.contains("90 g"), "{drawn}");
}

#[test]
fn a_clean_recipe_publishes_everything() {
    let workspace = Workspace::with(CLEAN);
    workspace.run(&["publish"]).exits(0);
    for file in [
        "descriptions/toast.txt",
        "posts/toast.md",
        "posts/toast.html",
        "archive/toast/index.html",
        "archive/index.html",
    ] {
        assert!(workspace.read(&format!("out/{file}")).contains("Toast"), "{file}");
    }
    assert!(std::fs::read(workspace.path("out/cards/toast.pdf")).unwrap().starts_with(b"%PDF-1."));
}

#[test]
fn publishing_twice_gives_the_same_bytes() {
    let workspace = Workspace::with(CLEAN);
    workspace.run(&["publish"]).exits(0);
    workspace.run(&["publish", "--out", "again"]).exits(0);
    let files = |folder: &str| {
        let root = workspace.path(folder);
        let mut files: Vec<_> = walkdir::WalkDir::new(&root)
            .into_iter()
            .map(Result::unwrap)
            .filter(|entry| entry.file_type().is_file())
            // Lists of what was written, with the times of it.
            .filter(|entry| !entry.file_name().to_string_lossy().starts_with(".levelcup"))
            .map(|entry| {
                (entry.path().strip_prefix(&root).unwrap().to_path_buf(), std::fs::read(entry.path()).unwrap())
            })
            .collect();
        files.sort();
        files
    };
    assert!(files("out") == files("again"));
}

#[test]
fn exit_codes_can_be_built_on() {
    let workspace = Workspace::with(CLEAN);
    let outputs = [&["publish"][..], &["describe"], &["post"], &["card"], &["archive"]];
    let all = |code: i32, more: &[&str]| {
        for output in outputs {
            workspace.run(&[output, more].concat()).exits(code);
        }
    };
    all(0, &["--strict"]);
    workspace.run(&["proof", "--strict"]).exits(0);

    // A warning: everything goes out.
    workspace.file("recipes/toast.yaml", CLEAN.replace("80 g white bread", "80 g dust of stars"));
    all(0, &[]);
    all(1, &["--strict"]);
    workspace.run(&["proof"]).exits(1);
    workspace.run(&["proof", "--json"]).exits(1);

    // A note.
    workspace.file("site/site.yaml", "levels: {unknown-ingredient: note, ingredient-unused: note}\n");
    all(0, &["--strict"]);
    workspace.run(&["proof"]).exits(0);
    workspace.run(&["proof", "--strict"]).exits(1);

    // An error, which holds the recipe back.
    workspace.file("recipes/toast.yaml", CLEAN.replace("80 g white bread", "1/0 cup bread"));
    all(1, &[]);
    workspace.run(&["proof"]).exits(1);

    for more in [&[][..], &["--json"]] {
        workspace.run(&[&["weigh", "1 cup flour"], more].concat()).exits(0);
        workspace.run(&[&["weigh", "1/0 cup flour"], more].concat()).exits(1);
        workspace.run(&[&["pantry", "butter"], more].concat()).exits(0);
        workspace.run(&[&["pantry", "dust of stars"], more].concat()).exits(1);
    }
    let empty = tempfile::tempdir().unwrap();
    for command in ["proof", "publish", "archive"] {
        levelcup(empty.path(), &[command], "").exits(2);
    }
}

#[test]
fn nothing_is_written_from_a_recipe_with_an_error_and_the_last_good_output_stays() {
    let workspace = Workspace::with(CLEAN);
    workspace.file("recipes/tea.yaml", CLEAN.replace("Toast", "Tea"));
    workspace.run(&["publish"]).exits(0);
    let before = workspace.read("out/posts/toast.md");
    workspace.file("recipes/toast.yaml", CLEAN.replace("80 g white bread", "1/0 cup bread"));
    workspace.file("recipes/tea.yaml", CLEAN.replace("Toast", "Green tea"));
    let ran = workspace.run(&["publish"]).exits(1);
    assert!(ran.stderr.contains("recipes/toast.yaml:7:"), "{}", ran.stderr);
    assert_eq!(workspace.read("out/posts/toast.md"), before);
    assert!(workspace.read("out/posts/tea.md").contains("Green tea"));
}

#[test]
fn one_output_can_be_printed() {
    let workspace = Workspace::with(CLEAN);
    assert!(workspace.run(&["describe", "toast", "--stdout"]).exits(0).stdout.starts_with("Toast\n"));
    assert!(workspace.run(&["post", "recipes/toast.yaml", "--stdout"]).exits(0).stdout.starts_with("---\n"));
    assert!(workspace.run(&["card", "toast", "--stdout", "--size", "a6"]).exits(0).stdout.starts_with("%PDF"));
    workspace.run(&["describe", "--stdout"]).exits(2);
    workspace.run(&["card", "--size", "a3"]).exits(2);
    workspace.run(&["describe", "nothing-here"]).exits(2);
}

#[test]
fn a_started_workspace_publishes_and_its_schema_knows_every_key() {
    let folder = tempfile::tempdir().unwrap();
    levelcup(folder.path(), &["start", "kitchen"], "").exits(0);
    let kitchen = folder.path().join("kitchen");
    levelcup(&kitchen, &["proof"], "").exits(0);
    levelcup(&kitchen, &["publish"], "").exits(0);
    let schema = std::fs::read_to_string(kitchen.join("recipe.schema.json")).unwrap();
    let schema: serde_json::Value = serde_json::from_str(&schema).unwrap();
    let keys =
        |schema: &serde_json::Value| schema["properties"].as_object().unwrap().keys().cloned().collect::<Vec<_>>();
    same_list("recipe.schema.json", keys(&schema), keys(&levelcup::recipe::schema().to_value()));
    let documented = std::fs::read_to_string("recipes/README.md").unwrap();
    for key in keys(&schema) {
        let row = format!("\n| `{key}` |");
        assert!(documented.contains(&row), "recipes/README.md: expected a row of `{key}`, got none");
    }
    for (name, place, kind) in
        [("site.schema.json", "/type", "object"), ("pantry.schema.json", "/anyOf/0/type", "array")]
    {
        let schema: serde_json::Value =
            serde_json::from_str(&std::fs::read_to_string(kitchen.join(name)).unwrap()).unwrap();
        assert_eq!(schema.pointer(place).and_then(|kind| kind.as_str()), Some(kind), "{name}");
    }
    assert!(levelcup(folder.path(), &["start", "kitchen"], "").exits(2).stderr.contains("nothing was changed"));
}

/// In every language: nothing is found in the first recipe, and the settings say the language.
#[test]
fn a_workspace_starts_in_its_language() {
    for tag in Language::tags() {
        let folder = tempfile::tempdir().unwrap();
        levelcup(folder.path(), &["start", "--language", tag, "kitchen"], "").exits(0);
        let kitchen = folder.path().join("kitchen");
        let settings = std::fs::read_to_string(kitchen.join("site/site.yaml")).unwrap();
        assert!(settings.contains(&format!("\nlanguage: {tag}\n")), "{tag}: site/site.yaml says {settings}");
        let found = levelcup(&kitchen, &["proof", "--json"], "").exits(0).stdout;
        assert!(json(&found).is_empty(), "{tag}: {found}");
        levelcup(&kitchen, &["publish"], "").exits(0);
        for other in Language::tags().filter(|other| *other != tag) {
            assert!(settings.contains(other), "{tag}: site/site.yaml does not name {other}: {settings}");
        }
    }
}

#[test]
fn a_pantry_of_ones_own_adds_and_overrides() {
    let workspace = Workspace::with(CLEAN);
    workspace.file(
        "pantry.yaml",
        "- {id: quay-flour, names: [quay flour], class: structure, measures: [{of: cup, grams: 100, source: weighed here}]}\n",
    );
    let ran = workspace.run(&["weigh", "--json", "2 cups quay flour"]).exits(0);
    assert_eq!(json(&ran.stdout)[0]["grams"]["low"], 200.0);
    workspace
        .file("pantry.yaml", "- {id: x, names: [x], class: structure, measures: [{of: cup, grams: -1, source: y}]}\n");
    workspace.run(&["proof"]).exits(2);
}

/// What the kitchen says is usual in a component of its own counts before what is usual everywhere.
#[test]
fn a_kind_of_ones_own_is_held_against_its_own_shares() {
    let biscuit = |butter: u32, salt: u32| {
        format!(
            "title: Biscuits\nsummary: Short ones.\npublished: 2026-01-02\nmakes: 30 biscuits\ncomponents:\n  - name: Quay \
             biscuit\n    ingredients: [200 g plain flour, {butter} g butter, 60 g sugar, {salt} g salt]\n    steps:\n      - {{do: \
             Rub everything together and chill., time: 4 min}}\n      - {{do: Bake until golden., oven: 170 °C, time: 20 min}}\n"
        )
    };
    let workspace = Workspace::with(biscuit(140, 8));
    let found = workspace.run(&["proof"]);
    assert!(found.stdout.contains("salt-unusual") || found.stderr.contains("salt-unusual"), "{}", found.stdout);
    workspace.file(
        "pantry.yaml",
        "kinds:\n  - {name: quay biscuit, of: flour, usual: {butter: 60 to 80 %, sugar: 25 to 40 %, salt: 3 to 5 %}}\n",
    );
    let found = workspace.run(&["proof"]).exits(0);
    assert!(!found.stdout.contains("unusual"), "{}", found.stdout);
    for (butter, salt, wanted) in
        [(14, 8, "butter is 7.0 % of the flour; 60 to 80 % is usual in quay biscuit"), (140, 80, "salt")]
    {
        workspace.file("recipes/toast.yaml", biscuit(butter, salt));
        let found = workspace.run(&["proof"]);
        let said = found.stdout + &found.stderr;
        assert!(said.contains("amount-unusual") && said.contains(wanted), "{said}");
    }
}

#[test]
fn a_template_error_names_file_line_and_field() {
    let workspace = Workspace::with(CLEAN);
    workspace.file("templates/description.txt", "one\n{{ recipe.titel }}\n");
    let ran = workspace.run(&["describe"]).exits(2);
    assert!(ran.stderr.contains("description.txt:2:") && ran.stderr.contains("titel"), "{}", ran.stderr);
}

#[test]
fn pieces_are_counted_in_the_plural() {
    let folder = tempfile::tempdir().unwrap();
    let lines =
        ["3 peaches", "16 1/2 strawberries", "3 cherries", "2 potatoes", "1 1/2 bananas", "1/2 lemon", "4 bay leaves"];
    let said = levelcup(folder.path(), &[&["weigh"], &lines[..]].concat(), "").exits(0).stdout;
    for line in lines {
        assert_eq!(said.matches(line).count(), 2, "{line} as asked and as counted:\n{said}");
    }
}

#[test]
fn help_shows_an_example_of_every_command() {
    let folder = tempfile::tempdir().unwrap();
    let listed = levelcup(folder.path(), &["--help"], "").exits(0).stdout;
    let commands = listed.lines().skip_while(|line| *line != "Commands:").skip(1).take_while(|line| !line.is_empty());
    let commands: Vec<&str> = commands.filter_map(|line| line.split_whitespace().next()).collect();
    assert!(commands.contains(&"publish"), "levelcup --help: expected the commands under `Commands:`, got {listed}");
    for command in commands.into_iter().filter(|command| *command != "help") {
        let help = levelcup(folder.path(), &[command, "--help"], "").exits(0).stdout;
        assert!(help.contains("Example"), "levelcup {command} --help: expected an example, got {help}");
    }
}

#[test]
fn licences_of_all_that_is_linked_are_printed() {
    let folder = tempfile::tempdir().unwrap();
    let said = levelcup(folder.path(), &["--licences"], "").exits(0).stdout;
    for part in
        ["printpdf ", "mimalloc ", "libmimalloc-sys ", "SIL OPEN FONT LICENSE", "The Libertinus Project Authors"]
    {
        assert!(said.contains(part), "{part}");
    }
    // What only tests and builds need is not linked.
    assert!(!said.contains("proptest ") && !said.contains("typst-assets ") && !said.contains("serde_derive "));
    let listed = said.lines().skip(2).take_while(|line| !line.is_empty());
    let bare: Vec<&str> = listed.filter(|line| line.ends_with("()")).collect();
    assert!(bare.is_empty(), "{bare:?}");
    levelcup(folder.path(), &["--workspace", "."], "").exits(2);
    levelcup(folder.path(), &[], "").exits(2);
}

#[test]
fn what_readers_would_find_changed_is_said() {
    let workspace = Workspace::with(CLEAN);
    let said = |workspace: &Workspace| {
        let ran = workspace.run(&["publish"]).exits(0);
        ran.stderr.lines().filter(|line| line.starts_with("since the last build")).map(String::from).collect::<Vec<_>>()
    };
    assert!(said(&workspace).is_empty());
    let less = CLEAN.replace("80 g white bread", "8 g white bread");
    workspace.file("recipes/toast.yaml", &less);
    let told = said(&workspace);
    assert!(told.len() == 1 && told[0].contains("8 g, was 80 g") && told[0].contains("corrections"), "{told:?}");
    assert!(said(&workspace).is_empty(), "it is said once");
    // A correction tells the readers.
    let corrected = format!("{CLEAN}corrections:\n  - {{on: 2026-01-03, what: 80 g of bread and not 8 g.}}\n");
    workspace.file("recipes/toast.yaml", &corrected);
    assert!(said(&workspace).is_empty());
    // Another title stands at the same address.
    workspace.file("recipes/toast.yaml", corrected.replace("title: Toast", "title: Dry toast"));
    let told = said(&workspace);
    assert!(told.len() == 1 && told[0].contains("called `Dry toast`, was `Toast`"), "{told:?}");
    workspace.file("recipes/toast.yaml", &corrected);
    said(&workspace);
    // Another name leads nobody on unless it says so.
    std::fs::rename(workspace.path("recipes/toast.yaml"), workspace.path("recipes/browned-bread.yaml")).unwrap();
    let told = said(&workspace);
    assert!(told.len() == 1 && told[0].contains("say `was: toast` in browned-bread"), "{told:?}");
    workspace.file("recipes/rusk.yaml", CLEAN.replace("Toast", "Rusk"));
    said(&workspace);
    std::fs::rename(workspace.path("recipes/rusk.yaml"), workspace.path("recipes/crisp.yaml")).unwrap();
    workspace.file("recipes/crisp.yaml", CLEAN.replace("Toast", "Rusk").replace("makes:", "was: rusk\nmakes:"));
    assert!(said(&workspace).is_empty());
}
