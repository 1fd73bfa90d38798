use std::fs;
use std::path::Path;

use levelcup::language::Language;
use levelcup::render::{Environment, TemplateError, card, description, markdown_post};
use levelcup::source::Gate;
use tempfile::TempDir;

use crate::fixture::{site, tart};

fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder");
    for (name, source) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("a file is in a folder")).expect("a folder");
        fs::write(path, source).expect("a file");
    }
    folder
}

fn open(folder: &TempDir) -> Result<Environment, TemplateError> {
    Environment::new(Some(folder.path()), &Gate::to(folder.path()).unwrap(), &Language::default())
}

/// The error of a card made with the given `card.md`.
fn card_error(source: &str) -> TemplateError {
    let folder = folder(&[("card.md", source)]);
    let error = open(&folder).and_then(|environment| card(&environment, &site(), &tart())).expect_err("a fault");
    assert_eq!(Path::new(&error.file), folder.path().join("card.md"));
    error
}

#[test]
fn a_file_of_the_same_name_takes_the_templates_place() {
    let folder = folder(&[
        ("card.md", "# {{ recipe.title | markdown }}\n\n{% include 'foot.md' %}"),
        ("foot.md", "{{ site.name }}"),
    ]);
    let environment = open(&folder).expect("well formed");
    let made = card(&environment, &site(), &tart()).expect("nothing is missing");
    assert_eq!(made, "# Pear and rye tart with hazelnut brittle\n\nTern Quay\n");
    assert!(markdown_post(&environment, &site(), &tart()).expect("built in").contains("## Rye pastry"));
}

#[test]
fn no_folder_means_the_built_in_templates() {
    assert!(Environment::new(Some(Path::new("no/such/folder")), &Gate::anywhere(), &Language::default()).is_ok());
}

#[test]
fn wording_changes_in_every_output_at_once() {
    let words = [("hands-on".to_string(), "Au travail {time}".to_string())].into();
    let language = Language::default().with(&words).expect("the key is known");
    let environment = Environment::new(None, &Gate::anywhere(), &language).expect("well formed");
    assert!(card(&environment, &site(), &tart()).expect("nothing is missing").contains("Au travail 1 h 10 min"));
    assert!(
        description(&environment, &site(), &tart()).expect("nothing is missing").text.contains("Au travail 1 h 10 min")
    );
}

#[test]
fn words_that_are_not_kept_are_named_with_the_nearest() {
    let error = card_error("{{ say(key=\"hand-on\", time=\"1 h\") }}");
    assert_eq!((error.line, error.message.contains("`hand-on`")), (1, true), "{error}");
    assert!(error.to_string().contains("`hands-on`"), "{error}");
    let unknown = Language::default().with(&[("hand-on".to_string(), String::new())].into()).expect_err("no such key");
    assert_eq!(unknown.to_string(), "no words are kept under `hand-on`; the nearest key is `hands-on`");
}

#[test]
fn a_missing_field_is_named_with_its_place() {
    let error = card_error("# {{ recipe.title }}\n\n{{ recipe.sumary }}\n");
    assert_eq!((error.line, error.column), (3, 11));
    assert_eq!(error.message, "Field `sumary` is not defined");
    assert_eq!(error.help.as_deref(), Some("did you mean `summary`?"));
}

#[test]
fn a_missing_field_is_found_in_conditions_and_loops_too() {
    let error = card_error("{% if recipe.sumary %}x{% endif %}");
    assert_eq!((error.line, error.column, error.message.as_str()), (1, 14, "Field `sumary` is not defined"));
    let error = card_error(
        "{% for part in recipe.components %}\n{% for step in part.steps %}\n{% if step.tme %}x{% endif %}{% endfor %}{% endfor %}",
    );
    assert_eq!((error.line, error.column, error.message.as_str()), (3, 12, "Field `tme` is not defined"));
    let error = card_error("{% for link in recipe.link %}x{% endfor %}");
    assert_eq!(error.help.as_deref(), Some("did you mean `links`?"));
}

#[test]
fn a_template_may_ask_whether_a_field_is_there() {
    let folder = folder(&[(
        "card.md",
        "{% if recipe.price is defined %}x{% endif %}{{ recipe.price | default(value='free') }}",
    )]);
    let made = card(&open(&folder).expect("well formed"), &site(), &tart()).expect("nothing is missing");
    assert_eq!(made, "free\n");
}

#[test]
fn a_fault_of_form_is_named_with_its_place() {
    let error = card_error("# {{ recipe.title }}\n{% if recipe.summary %}");
    assert_eq!(error.line, 2);
    let error = card_error("{{ recipe.title | shout }}");
    assert_eq!((error.line, error.message.as_str()), (1, "Unknown filter `shout`"));
}

#[test]
fn a_file_that_nothing_uses_is_refused() {
    let error = open(&folder(&[("decription.txt", "x")])).expect_err("misspelt");
    assert_eq!(error.message, "nothing uses a template named `decription.txt`");
    assert_eq!(error.help.as_deref(), Some("did you mean `description.txt`?"));
    let error = open(&folder(&[("card.md", "{% include 'fot.md' %}"), ("foot.md", "x")])).expect_err("misspelt");
    assert!(error.to_string().contains("foot.md"), "{error}");
}

#[test]
fn readmes_and_editors_copies_are_passed_over() {
    assert!(open(&folder(&[("README.md", "{{"), ("card.md~", "{{"), (".card.md.swp", "{{")])).is_ok());
}

#[test]
fn only_bounded_text_inside_the_folder_is_read() {
    let error = open(&folder(&[("card.md", &"x".repeat(300 * 1024))])).expect_err("too large");
    assert_eq!(error.message, "has 307200 bytes; at most 262144 are read");

    let latin = folder(&[]);
    fs::write(latin.path().join("card.md"), b"cr\xe8me").expect("a file");
    assert_eq!(open(&latin).expect_err("not UTF-8").message, "not UTF-8 text");

    let error = open(&folder(&[("a/b/c/d/e/card.md", "x")])).expect_err("too deep");
    assert_eq!(error.message, "more than 4 folders deep");
}

#[cfg(unix)]
#[test]
fn a_link_to_a_file_elsewhere_is_refused() {
    let elsewhere = folder(&[("secret.txt", "x")]);
    let folder = folder(&[]);
    std::os::unix::fs::symlink(elsewhere.path().join("secret.txt"), folder.path().join("card.md")).expect("a link");
    assert_eq!(open(&folder).expect_err("a link").message, "leads out of the workspace; nothing outside it is read");
}
