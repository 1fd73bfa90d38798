//! Every number of the demo recipes, as a person has read and checked it: `tests/golden/`, a file a recipe.
//!
//! A line is: weight | level measure | name, then half, double and threefold in brackets where they are no plain
//! multiples to the eye. `GOLDEN=write cargo test golden` writes the files anew; read the difference before keeping it.

use std::fmt::Write;
use std::path::Path;

use levelcup::facts::Facts;
use levelcup::kitchen::Kitchen;
use levelcup::proof::names;
use levelcup::recipe::read;
use levelcup::sheet::{Sheet, SheetLine, sheet};
use levelcup::workspace::Workspace;

#[test]
fn the_sheets_are_as_they_were_read() {
    let workspace = Workspace::of(Path::new(env!("CARGO_MANIFEST_DIR")), &[], &names()).unwrap();
    let (kitchen, lines) = (Kitchen::of(&workspace).unwrap(), workspace.lines().unwrap());
    let files = workspace.recipes(&[]).unwrap();
    assert!(files.len() >= 16, "{} recipes", files.len());
    for file in files {
        let (recipe, _) = read(workspace.text(&file).unwrap(), &file.slug, &lines);
        let recipe = recipe.unwrap();
        let shown = shown(&sheet(&Facts::of(&recipe, &kitchen)));
        let golden = format!("tests/golden/{}.txt", file.slug);
        if std::env::var_os("GOLDEN").is_some() {
            std::fs::write(&golden, &shown).unwrap();
        }
        let kept = std::fs::read_to_string(&golden).unwrap_or_default();
        assert_eq!(shown, kept, "{golden}");
    }
}

fn shown(sheet: &Sheet) -> String {
    let mut text = format!("{}: {}\n", sheet.title, sheet.mass);
    for component in &sheet.components {
        writeln!(text, "\n{} ({})", component.name, component.mass.as_deref().unwrap_or("no weight")).unwrap();
        component.lines.iter().for_each(|line| writeln!(text, "{}", one(line)).unwrap());
        for step in &component.steps {
            let takes = step.takes.iter().map(|taking| {
                let line = &component.lines[taking.line];
                match (taking.share, &taking.weight) {
                    ("all", _) => line.name.clone(),
                    (share, Some(weight)) => format!("{share} of {} ({weight})", line.name),
                    (share, None) => format!("{share} of {}", line.name),
                }
            });
            let takes: Vec<String> = takes.collect();
            let heat: Vec<&str> = step.oven.iter().chain(&step.heat).map(String::as_str).collect();
            writeln!(text, "  {} takes {} [{}]", step.number, takes.join(", "), heat.join(", ")).unwrap();
        }
    }
    let times = &sheet.times;
    let times = [&times.hands_on, &times.in_the_oven, &times.waiting, &times.start_to_finish]
        .map(|time| time.as_ref().map(|t| &t.text));
    writeln!(text, "\ntimes {times:?}").unwrap();
    let topics: Vec<&str> = sheet.cautions.iter().map(|caution| caution.topic.as_str()).collect();
    writeln!(text, "cautions {}", topics.join(", ")).unwrap();
    writeln!(text, "US {} / EU {}", sheet.allergens.us.join(", "), sheet.allergens.eu.join(", ")).unwrap();
    if let Some(food) = &sheet.nutrition {
        writeln!(text, "{} kcal, fat {:?}, protein {:?} in {}", food.kcal, food.fat, food.protein, food.serving)
            .unwrap();
    }
    text
}

fn one(line: &SheetLine) -> String {
    let amount = |weight: &Option<String>, measure: &Option<String>| {
        format!("{} | {}", weight.as_deref().unwrap_or("-"), measure.as_deref().unwrap_or("-"))
    };
    let batches: Vec<String> =
        line.batches.iter().filter(|at| at.batch != "one").map(|at| amount(&at.weight, &at.measure)).collect();
    let weigh = if line.weigh { " (better weighed)" } else { "" };
    format!("{}{weigh} | {} ({})", amount(&line.weight, &line.measure), line.name, batches.join("; "))
}
