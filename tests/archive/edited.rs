//! What is put into a workspace, one at a time, to see that a build follows.

/// Lines of `site.yaml`, each with other values; together every key of the schema, which a test holds.
pub(crate) const SITE: [&[&str]; 15] = [
    &["name: Ferry Kitchen", "name: Quay &amp; Tern"],
    &["tagline: By the water"],
    &["url: https://ferry.example/", "url: ''"],
    &["author: The crew"],
    &["language: en-GB", "language: fr"],
    &["cups: metric", "cups: australian", "cups: imperial"],
    &["eggs: {region: EU, size: medium}"],
    &["gelatin: gold"],
    &["authority: cups"],
    &["accent: '#884422'"],
    &["disclosure: We earn by the marked ones."],
    &["words: {need: Get ready}"],
    &["levels: {unknown-ingredient: note}", "levels: {unknown-ingredient: off, ingredient-unused: off}"],
    &["levels: {gelatine-not-bloomed: note}"],
    &["levels: {times-missing: 'off', yield-missing: note}"],
];

/// Rows of `pantry.yaml`: one that lines use, one with a name that was unknown, one with a name that meant another.
pub(crate) const PANTRY: [&str; 5] = [
    "- {id: walnuts, names: [walnuts], class: flavour, family: nut, measures: [{of: cup, grams: 90, source: weighed here}]}\n",
    "- {id: star-dust, names: [dust of stars], class: leavening, measures: [{of: tsp, grams: 3, source: weighed here}]}\n",
    "- {id: quay-flour, names: [plain flour, quay flour], class: structure, measures: [{of: cup, grams: 111, source: weighed here}]}\n",
    "- {id: butter, names: [butter], class: structure, family: butter, measures: [{of: cup, grams: 200, source: weighed here}]}\n",
    "- {id: unsalted-butter, names: [unsalted butter, sweet butter], class: structure, measures: []}\n",
];

/// Templates with a change that shows on what they make.
pub(crate) const TEMPLATES: [(&str, &str, &str); 5] = [
    ("archive/tags.html", "<h1>{{ say(key=\"tags\") }}</h1>", "<h1>Words</h1>"),
    ("archive/recipe.html", "<h1", "<h1 data-new"),
    ("archive/base.html", "</body>", "<p>New</p></body>"),
    ("archive/404.html", "<h1", "<h1 data-new"),
    ("description.txt", "", "New\n"),
];

#[test]
fn every_key_of_settings_is_edited() {
    let schema = levelcup::workspace::schema(&levelcup::proof::names()).to_value();
    let keys = schema["properties"].as_object().expect("the schema has keys").keys();
    let edited = SITE.iter().flat_map(|lines| lines.iter()).filter_map(|line| line.split_once(':'));
    crate::told::same_list("SITE of tests/archive/edited.rs, by key:", edited.map(|(key, _)| key), keys);
}
