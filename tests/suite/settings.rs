//! `site/site.yaml` and `pantry.yaml`: every fault with its place, all of them at once, and nothing said of sound files.

use levelcup::pantry;
use levelcup::proof::{explain, names};
use levelcup::source::{Finding, Source};
use levelcup::workspace::{self, Site};
use proptest::prelude::*;

use crate::told::same_list;
use crate::workspace::{CLEAN, Workspace};

/// `line:column rule: message (help)` of every finding, in order.
fn said(text: &str, findings: Vec<Finding>) -> Vec<String> {
    let source = Source::new("a.yaml", text);
    let one = |finding: Finding| {
        assert!(explain(finding.rule).is_some(), "{}", finding.rule);
        let (place, help) = (source.place(finding.span.start), finding.help.unwrap_or_default());
        format!("{}:{} {}: {} ({help})", place.line, place.column, finding.rule, finding.message)
    };
    findings.into_iter().map(one).collect()
}

fn site(text: &str) -> Result<Site, Vec<String>> {
    workspace::read(&Source::new("a.yaml", text), &names()).map_err(|findings| said(text, findings))
}

fn rows(text: &str) -> Result<pantry::OwnPantry, Vec<String>> {
    pantry::read(&Source::new("a.yaml", text)).map_err(|findings| said(text, findings))
}

/// Asserts that each text has one fault, said in these words.
#[track_caller]
fn each_has_one<T: std::fmt::Debug>(read: fn(&str) -> Result<T, Vec<String>>, cases: &[(&str, &str)]) {
    for (text, wanted) in cases {
        let said = read(text).expect_err(text);
        assert_eq!(said.len(), 1, "{text}: {said:#?}");
        assert!(said[0].contains(wanted), "{text}:\n{}\nis not\n{wanted}", said[0]);
    }
}

#[test]
fn every_fault_of_settings_is_told_at_its_place() {
    each_has_one(
        site,
        &[
            ("nam: Quay\n", "1:1 unknown-key: `nam` is not a key of this place (did you mean `name`?)"),
            ("author: A\nname: [a]\n", "2:7 wrong-kind: `name` holds a list, and needs text (`name`: Name of the"),
            ("tagline:\n", "1:1 wrong-kind: `tagline` holds nothing, and needs text (write something behind it, or"),
            ("accent: #7a3b2e\n", "1:1 wrong-kind: `accent` holds nothing, and needs text (a `#` with a space before"),
            ("accent: teal\n", "1:9 unreadable-colour: `teal` is not a colour (write `#` and six hexadecimal digits"),
            ("accent: '#12345g'\n", "1:9 unreadable-colour: `#12345g`"),
            ("accent: \"#7a3b2e \"\n", "1:9 unreadable-colour: `#7a3b2e ` is not a colour"),
            (
                "eggs: {region: 'EU '}\n",
                "1:16 unknown-choice: `EU ` is not one of the values of `region` (did you mean `EU`?",
            ),
            ("url: ftp://quay.example/\n", "1:6 unsafe-link: `ftp://quay.example/` is not an http(s) address (write"),
            ("url: \"https://quay.example/a b\"\n", "1:6 unsafe-link"),
            (
                "cups: custmary\n",
                "1:7 unknown-choice: `custmary` is not one of the values of `cups` (did you mean `customary`?",
            ),
            ("cups: 1000\n", "there are customary, label, metric, australian, uk and imperial)"),
            ("cups: {a: 1}\n", "1:7 wrong-kind: `cups` holds keys with values, and needs customary, label, metric,"),
            (
                "authority: weight\n",
                "1:12 unknown-choice: `weight` is not one of the values of `authority` (did you mean `weights`?",
            ),
            (
                "language: en-UK\n",
                "1:11 unknown-choice: `en-UK` is not one of the values of `language` (did you mean `en-US`?",
            ),
            (
                "gelatin: slver\n",
                "1:10 unknown-choice: `slver` is not one of the values of `gelatin` (did you mean `silver`?",
            ),
            ("gelatine: gold\n", "1:1 unknown-key: `gelatine` is not a key of this place (did you mean `gelatin`?)"),
            (
                "eggs: {region: UE}\n",
                "1:16 unknown-choice: `UE` is not one of the values of `region` (did you mean `EU`?",
            ),
            (
                "eggs: {size: lage}\n",
                "1:14 unknown-choice: `lage` is not one of the values of `size` in the US (did you mean `large`?",
            ),
            (
                "eggs:\n  region: EU\n  size: jumbo\n",
                "3:9 unknown-choice: `jumbo` is not one of the values of `size` in the EU",
            ),
            (
                "eggs: large\n",
                "1:7 wrong-kind: `eggs` holds `large`, and needs keys with values (`eggs`: The eggs bought)",
            ),
            (
                "levels: {oven-to-hot: off}\n",
                "1:10 unknown-rule: no rule is called `oven-to-hot` (did you mean `oven-too-hot`?",
            ),
            ("levels: {yaml-syntax: off}\n", "1:10 unknown-rule: `yaml-syntax` cannot be changed"),
            (
                "levels: {oven-too-hot: of}\n",
                "1:24 unknown-choice: `of` is not one of the values of `oven-too-hot` (did you mean `off`?",
            ),
            ("levels: off\n", "1:9 wrong-kind: `levels` holds `off`, and needs keys with values"),
            ("name: A\nname: B\n", "2:1 repeated-key: `name` is given twice (keep one of them)"),
            ("- name: A\n", "1:1 wrong-kind: the file holds a list, and needs keys with values (settings are keys"),
            ("name: A\n---\nname: B\n", "2:1 yaml-syntax: a second document starts here"),
            ("name: &a A\nauthor: *a\n", "2:9 yaml-alias: aliases are not read in a file of settings"),
            ("name: !include a\n", "1:7 yaml-tag: tags are not read in a file of settings"),
            ("name: \"Quay\nauthor: A\n", "1:7 yaml-syntax: this is not YAML: this `\"` is never closed"),
            ("eggs: {region: EU\nname: A\n", "1:7 yaml-syntax: this is not YAML: this `{` is never closed"),
            ("eggs:\n\tregion: EU\n", "2:1 yaml-syntax: this is not YAML: a tab stands here"),
            ("name:Quay\nauthor: A\n", "1:1 yaml-syntax: this is not YAML: no space stands behind `name:`"),
            ("name: a\u{7}\n", "1:8 yaml-syntax: this is not YAML: a control character, U+0007"),
        ],
    );
}

#[test]
fn every_fault_of_a_pantry_is_told_at_its_place() {
    let row = |keys: &str| format!("- {{id: x, names: [quay x], class: flavour, {keys}}}\n");
    let measure = |keys: &str| row(&format!("measures: [{{source: me, {keys}}}]"));
    let kind = |keys: &str| format!("kinds:\n- {{name: quay biscuit, {keys}}}\n");
    let cases = [
        ("- {names: [q], class: salt}\n".to_string(), "1:3 missing-key: `id` is missing here (add `id:`"),
        ("- {id: a, class: salt}\n".into(), "1:3 missing-key: `names` is missing here (add `names:`"),
        ("- {id: a, names: [q]}\n".into(), "1:3 missing-key: `class` is missing here (add `class:`"),
        ("- {id: '', names: [q], class: salt}\n".into(), "1:8 empty-text: nothing is written here (write a short name"),
        ("- {id: ' ', names: [q], class: salt}\n".into(), "1:8 empty-text: nothing is written here"),
        ("- {id: a, names: [], class: salt}\n".into(), "1:18 missing-key: the row has no name (write what a cook"),
        ("- {id: a, names: [q, ''], class: salt}\n".into(), "1:22 empty-text: nothing is written here"),
        ("- {id: a, names: [the], class: salt}\n".into(), "1:19 unreadable-name: `the` is not a name that a line"),
        ("- {id: a, names: quay, class: salt}\n".into(), "1:18 wrong-kind: `names` holds `quay`, and needs a list"),
        (
            "- {id: a, names: [q], class: slat}\n".into(),
            "1:30 unknown-choice: `slat` is not one of the values of `class` (did you mean `salt`?",
        ),
        (
            "- {id: a, names: [q], class: salt}\n- {id: a, names: [b], class: salt}\n".into(),
            "2:8 repeated-name: two rows have the id `a` (give each row its own",
        ),
        (
            "- {id: a, names: [Quay berries], class: salt}\n- {id: b, names: [c, quay berry], class: salt}\n".into(),
            "2:22 repeated-name: `quay berry` is the name of another row (leave it to one",
        ),
        (measure("of: cup, grams: -5"), "1:84 impossible-number: `grams` cannot be -5 (write a number above 0"),
        (measure("of: cup, grams: 0"), "impossible-number: `grams` cannot be 0"),
        (measure("of: cup, grams: 1e300"), "impossible-number: `grams` cannot be 1e300"),
        (measure("of: cup, grams: .nan"), "wrong-kind: `grams` holds `.nan`, and needs a number (`grams`: Grams"),
        (measure("of: cup, grams: lots"), "wrong-kind: `grams` holds `lots`, and needs a number"),
        (
            measure("of: cup, grams: '118'"),
            "wrong-kind: `grams` holds `'118'`, and needs a number (write it without quotes)",
        ),
        (measure("of: cup, grams: 5, amount: 0"), "impossible-number: `amount` cannot be 0"),
        (measure("of: cup, grams: 5, low: 6"), "impossible-number: `low` is 6, above the `grams` (`grams` lie between"),
        (measure("of: cup, grams: 5, high: 4"), "impossible-number: `high` is 4, below the `grams`"),
        (measure("of: cp, grams: 5"), "unknown-choice: `cp` is not one of the values of `of` (did you mean `cup`?)"),
        (measure("of: cup"), "1:55 missing-key: `grams` is missing here"),
        (
            measure("of: cup, grams: 5, gram: 5"),
            "unknown-key: `gram` is not a key of this place (did you mean `grams`?)",
        ),
        (row("allergens: {usa: [milk]}"), "1:56 unknown-key: `usa` is not a key of this place (did you mean `us`?)"),
        (
            row("allergens: {eu: [glutn]}"),
            "1:61 unknown-choice: `glutn` is not one of the values of `eu` (did you mean `gluten`?",
        ),
        (row("origin: dairi"), "unknown-choice: `dairi` is not one of the values of `origin` (did you mean `dairy`?"),
        (row("alcohol: 101"), "impossible-number: `alcohol` cannot be 101"),
        (row("nutrients: {source: me, fat: -1}"), "impossible-number: `fat` cannot be -1"),
        (
            "- quay flour\n".into(),
            "1:3 wrong-kind: an entry of the file holds `quay flour`, and needs keys with values",
        ),
        ("id: a\n".into(), "1:1 unknown-key: `id` is not a key of this place"),
        (
            "text\n".into(),
            "1:1 wrong-kind: the file holds `text`, and needs a list or keys with values (a pantry is a list of rows",
        ),
        (kind("of: flower, usual: {butter: 2 %}"), "unknown-choice: `flower` is not one of the values of `of`"),
        (
            kind("of: flour, usual: {buter: 2 %}"),
            "unknown-key: `buter` is not a key of this place (did you mean `butter`?",
        ),
        (
            kind("of: flour, usual: {butter: much}"),
            "unreadable-share: `much` is not a share (write per cent, from the least",
        ),
        (kind("of: flour, usual: {butter: 80 to 60 %}"), "unreadable-share: `80 to 60 %` is not a share"),
        (kind("of: flour"), "missing-key"),
        (kind("of: flour, usual: {butter: 2 %}, called: ['12']"), "empty-text: nothing is written here"),
        (
            "- id: a\n  names: [a\n  class: salt\n".into(),
            "2:10 yaml-syntax: this is not YAML: this `[` is never closed",
        ),
    ];
    let cases: Vec<(&str, &str)> = cases.iter().map(|(text, wanted)| (text.as_str(), *wanted)).collect();
    each_has_one(rows, &cases);
}

#[test]
fn sound_files_give_nothing() {
    for text in ["", "# nothing yet\n", "---\n", "~\n", "{}\n", "name: Our kitchen\n"] {
        assert_eq!(site(text), Ok(Site::default()), "{text}");
    }
    for text in [
        "url: ''\ntagline: \"\"\n",
        "url: HTTP://localhost:8000/kitchen/\naccent: '#AbCdEf'\n",
        "name: 1900\nauthor: true\n",
        "eggs: {region: eu, size: XL}\neggz: 1\n".trim_end_matches("eggz: 1\n"),
        "eggs: {size: Extra Large}\nlevels: {}\n",
        "levels: {oven-too-hot: 'off', salt-unusual: error}\n",
        "disclosure: >\n  Two lines\n  of it.\n",
    ] {
        assert!(site(text).is_ok(), "{text}: {:?}", site(text));
    }
    for text in ["", "# none\n", "[]\n", "null\n"] {
        assert_eq!(rows(text), Ok(pantry::OwnPantry::default()), "{text}");
    }
    for text in [
        "- {id: a, names: [quay a, quay as], class: salt}\n",
        "- {id: a, names: [plain flour], class: structure, alcohol: , kind: ~, measures: []}\n",
        "- {id: a, names: [milk x, x milk], class: liquid}\n- {id: b, names: [x cream], class: liquid}\n",
        "- {id: 7, names: [7], class: salt, measures: [{of: fl_oz, grams: .5, low: 0.5, high: +0.5, source: 1}]}\n",
    ] {
        assert!(rows(text).is_ok(), "{text}: {:?}", rows(text));
    }
    for path in ["site/site.yaml", "src/commands/start/en-US/site/site.yaml", "src/commands/start/fr/site/site.yaml"] {
        let text = std::fs::read_to_string(path).unwrap();
        assert!(site(&text).is_ok(), "{path}: {:?}", site(&text));
    }
    let documented = include_str!("../../recipes/README.md");
    let mut shown = documented.split("```yaml\n").skip(1).map(|rest| rest.split("```").next().unwrap());
    let shown = shown.find(|block| block.contains("id: quay-mill-flour")).unwrap();
    assert_eq!(rows(shown).unwrap().ingredients.len(), 1);
}

#[test]
fn all_faults_of_both_files_are_drawn_at_once() {
    let workspace = Workspace::with(CLEAN);
    workspace.file("site/site.yaml", "nam: Quay\ncups: mug\naccent: teal\nlevels: {oven-to-hot: off}\nname: [a]\n");
    workspace.file(
        "pantry.yaml",
        "- {id: a, names: [q], class: slat, measures: [{of: cp, grams: -1, source: me}]}\n- {id: a, class: salt}\n",
    );
    let said = workspace.run(&["proof"]).exits(2).stderr;
    for place in ["1:1", "2:7", "3:9", "4:10", "5:7"] {
        assert!(said.contains(&format!("--> site/site.yaml:{place}\n")), "{place}\n{said}");
    }
    for place in ["1:30", "1:52", "1:63", "2:3", "2:8"] {
        assert!(said.contains(&format!("--> pantry.yaml:{place}\n")), "{place}\n{said}");
    }
    assert!(said.contains("cups: mug\n") && said.contains("^^^"), "{said}");
    assert!(
        said.contains("`site/site.yaml` cannot be used: 5 errors; `pantry.yaml` cannot be used: 5 errors"),
        "{said}"
    );
    for command in [&["weigh", "1 cup flour"][..], &["pantry", "flour"], &["publish"], &["describe"]] {
        assert_eq!(workspace.run(command).exits(2).stderr, said, "{command:?}");
    }
    workspace.file("site/site.yaml", "").file("pantry.yaml", "");
    workspace.run(&["proof"]).exits(0);
}

#[test]
fn files_that_are_no_text_or_too_much_are_told() {
    let workspace = Workspace::with(CLEAN);
    workspace.file("site/site.yaml", b"name: caf\xe9\n");
    let said = workspace.run(&["proof"]).exits(2).stderr;
    assert!(said.contains("--> site/site.yaml:1:10") && said.contains("not UTF-8"), "{said}");
    workspace.file("site/site.yaml", "a: 1\n".repeat(101));
    let said = workspace.run(&["proof"]).exits(2).stderr;
    assert!(said.contains("more than 100 keys"), "{said}");
    workspace.file("site/site.yaml", "").file("pantry.yaml", "- x\n".repeat(10_000));
    let said = workspace.run(&["proof"]).exits(2).stderr;
    assert!(said.contains("and 9950 more in `pantry.yaml`") && said.lines().count() < 500, "{}", said.len());
    workspace.file("pantry.yaml", "- x\n".repeat(10_001));
    assert!(workspace.run(&["proof"]).exits(2).stderr.contains("too-much"));
}

/// No message names a type of the program or of another library, but for what the parser says of a text that is no YAML.
fn is_plain(said: &[String]) -> bool {
    let foreign =
        ["u32", "f64", "i64", "invalid type", "invalid value", "expected ", "struct ", "variant", "internal-fault"];
    said.iter()
        .filter(|line| !line.contains(" yaml-syntax: "))
        .all(|line| !foreign.iter().any(|word| line.contains(word)))
}

/// Files that hold everything.
const WHOLE_SITE: &str = "name: Quay\ntagline: By weight\nurl: https://quay.example/\nauthor: A\nlanguage: en-GB\ncups: metric\n\
                          eggs: {region: EU, size: medium}\ngelatin: gold\nauthority: cups\naccent: \"#0b4f6c\"\n\
                          disclosure: \"We earn: a share.\"\nwords: {need: Get ready}\nlevels:\n  oven-too-hot: off\n  salt-unusual: error\n";
const WHOLE_PANTRY: &str = "- id: a\n  names: [quay a, \"quay: b\"]\n  class: flavour\n  family: nut\n  roles: [sugar]\n  measures:\n    - {of: cup, \
                            amount: 2, grams: 118.5, manner: sifted, source: me, as: 'cup, \"big\"', low: 100, high: 130, note: x}\n  \
                            allergens: {us: [wheat], eu: [gluten, milk], cereals: [wheat]}\n  kind: almond\n  origin: plant\n  alcohol: 12.5\n  \
                            nutrients: {source: me, water: 1, kcal: 5, protein: 0, fat: 0, \
                            carbohydrate: 1, fibre: 0, sugars: 1, sodium_mg: 2, saturated: 0}\n- {id: c, names: [c], class: salt}\n";

const WHOLE_KINDS: &str = "ingredients:\n- {id: c, names: [c], class: salt}\nkinds:\n- name: quay biscuit\n  called: [harbour \
                           biscuit]\n  of: flour\n  usual: {butter: 60 to 80 %, salt: 2}\n";

/// Where a text is changed, by what, and how many bytes that takes the place of.
type Changes = Vec<(usize, String, usize)>;

/// A text with some of it replaced.
fn changed(text: &str, changes: &Changes) -> String {
    let mut text: Vec<char> = text.chars().collect();
    for (at, with, over) in changes {
        let at = at % (text.len() + 1);
        let end = (at + over).min(text.len());
        text.splice(at..end, with.chars());
    }
    text.into_iter().collect()
}

fn changes() -> impl Strategy<Value = Changes> {
    let piece = prop_oneof![
        "[\\[\\]{}:,#&*!|>'\"%@`~ \\n\\t-]{1,3}",
        ".{0,3}",
        Just("-1".to_string()),
        Just("null".to_string()),
        Just("1e999".to_string()),
        Just("\n  ".to_string()),
        Just("\u{feff}".to_string()),
    ];
    prop::collection::vec((0_usize..2_000, piece, 0_usize..12), 1..5)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, ..ProptestConfig::default() })]

    /// Whatever is done to sound files, they are read or told about, in plain words.
    #[test]
    fn nothing_brings_the_reading_down(changes in changes()) {
        let said = site(&changed(WHOLE_SITE, &changes)).err().unwrap_or_default();
        prop_assert!(is_plain(&said), "{said:#?}");
        let said = rows(&changed(WHOLE_PANTRY, &changes)).err().unwrap_or_default();
        prop_assert!(is_plain(&said), "{said:#?}");
        let said = rows(&changed(WHOLE_KINDS, &changes)).err().unwrap_or_default();
        prop_assert!(is_plain(&said), "{said:#?}");
    }

    #[test]
    fn no_bytes_bring_the_reading_down(bytes in prop::collection::vec(any::<u8>(), 0..80)) {
        let text = String::from_utf8_lossy(&bytes);
        let _ = (site(&text), rows(&text));
    }
}

/// The keys of a mapping that a schema knows.
fn keys(of: &serde_json::Value) -> Vec<String> {
    of["properties"].as_object().expect("a mapping").keys().cloned().collect()
}

/// The keys that a mapping of a file has.
fn written(of: &serde_yaml::Value) -> Vec<String> {
    of.as_mapping().expect("a mapping").keys().map(|key| key.as_str().unwrap().to_string()).collect()
}

/// What is said to hold everything has every key of the schema.
#[test]
fn whole_files_are_whole() {
    let schema = workspace::schema(&names()).to_value();
    let site: serde_yaml::Value = serde_yaml::from_str(WHOLE_SITE).unwrap();
    same_list("WHOLE_SITE of tests/suite/settings.rs", written(&site), keys(&schema));
    same_list("`eggs` of WHOLE_SITE", written(&site["eggs"]), keys(&schema["$defs"]["Eggs"]));
    let schema = pantry::schema().to_value();
    let pantry: serde_yaml::Value = serde_yaml::from_str(WHOLE_PANTRY).unwrap();
    let defined = |name: &str| keys(&schema["$defs"][name]);
    same_list("the first row of WHOLE_PANTRY of tests/suite/settings.rs", written(&pantry[0]), defined("Row"));
    same_list("its measure", written(&pantry[0]["measures"][0]), defined("Measure"));
    same_list("its `allergens`", written(&pantry[0]["allergens"]), defined("AllergenLists"));
    same_list("its `nutrients`", written(&pantry[0]["nutrients"]), defined("Nutrients"));
}

#[test]
fn whole_files_are_sound() {
    assert!(site(WHOLE_SITE).is_ok(), "{:?}", site(WHOLE_SITE));
    assert!(rows(WHOLE_PANTRY).is_ok(), "{:?}", rows(WHOLE_PANTRY));
    assert!(rows(WHOLE_KINDS).is_ok(), "{:?}", rows(WHOLE_KINDS));
}

/// The reference lists every part that a kind of one's own may name.
#[test]
fn the_readme_lists_the_parts() {
    let readme: Vec<String> =
        std::fs::read_to_string("recipes/README.md").unwrap().split_whitespace().map(String::from).collect();
    let parts = format!("{}.", pantry::PARTS.join(", "));
    assert!(readme.join(" ").contains(&parts), "recipes/README.md should say: {parts}");
}

/// What an editor is given knows every key and choice that a file may hold.
#[test]
fn schemas_know_every_key_and_choice() {
    let site = workspace::schema(&names()).to_value();
    for (key, shape) in site["properties"].as_object().unwrap() {
        assert!(shape["description"].is_string(), "site.schema.json: expected a description of `{key}`, got {shape}");
    }
    assert_eq!(site["additionalProperties"], false);
    let rules = site["properties"]["levels"]["propertyNames"]["enum"].as_array().unwrap();
    assert!(rules.iter().any(|rule| rule == "oven-too-hot") && !rules.iter().any(|rule| rule == "yaml-syntax"));
    let pantry = pantry::schema().to_value();
    assert_eq!((&pantry["anyOf"][0]["type"], &pantry["title"]), (&"array".into(), &"A levelcup pantry".into()));
    for key in ["ingredients", "kinds"] {
        assert!(pantry["anyOf"][1]["properties"][key].is_object(), "{key}");
    }
    for key in ["name", "called", "of", "usual"] {
        assert!(pantry["$defs"]["OwnKind"]["properties"][key]["description"].is_string(), "{key}");
    }
    let row = &pantry["$defs"]["Row"]["properties"];
    for (key, shape) in row.as_object().unwrap() {
        let told = shape["description"].is_string() || shape["$ref"].is_string() || shape["anyOf"].is_array();
        assert!(told, "pantry.schema.json: expected a description of `{key}`, got {shape}");
    }
    assert!(pantry["$defs"]["Unit"]["enum"].as_array().unwrap().iter().any(|unit| unit == "fl_oz"));
    assert!(pantry["$defs"]["AllergenLists"]["properties"]["eu"]["items"]["enum"].is_array());
}
