//! The card command, and the batches of its bench cards.

use std::path::Path;

use levelcup::facts::Facts;
use levelcup::kitchen::Kitchen;
use levelcup::proof::names;
use levelcup::recipe::read;
use levelcup::sheet::{Factor, bench, sheet};

use crate::workspace::{CLEAN, Workspace};

/// The scaled amounts of a bench card are those that the sheet computes for its own batches.
#[test]
fn a_bench_card_scales_as_the_sheet_does() {
    let workspace = levelcup::workspace::Workspace::of(Path::new(env!("CARGO_MANIFEST_DIR")), &[], &names()).unwrap();
    let (kitchen, lines) = (Kitchen::of(&workspace).unwrap(), workspace.lines().unwrap());
    let factors: Vec<Factor> = ["1/2", "1", "2", "3"].map(|text| text.parse().unwrap()).into();
    let mut compared = 0;
    for file in workspace.recipes(&[]).unwrap() {
        let (recipe, _) = read(workspace.text(&file).unwrap(), &file.slug, &lines);
        let recipe = recipe.unwrap();
        let facts = Facts::of(&recipe, &kitchen);
        let (sheet, bench) = (sheet(&facts), bench(&facts, &factors));
        assert_eq!(bench.mass[1], sheet.mass, "{}", file.name);
        for (component, scaled) in sheet.components.iter().zip(&bench.components) {
            assert_eq!(component.mass.as_ref(), scaled.mass.get(1), "{}", component.name);
            for (line, scaled) in component.lines.iter().zip(&scaled.lines) {
                for (batch, amount) in line.batches.iter().zip(&scaled.amounts) {
                    assert_eq!((&batch.weight, &batch.measure), (&amount.weight, &amount.measure), "{}", line.name);
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 300, "{compared}");
}

#[test]
fn a_bench_card_takes_any_batches() {
    let workspace = Workspace::with(CLEAN);
    workspace.run(&["card", "--bench", "--batch", "1/2, 2.5,1 1/3,1000", "--size", "a4"]).exits(0);
    assert!(std::fs::read(workspace.path("out/cards/toast-bench.pdf")).unwrap().starts_with(b"%PDF-1."));
    workspace.run(&["card", "--bench", "--batch", "0"]).exits(2);
    workspace.run(&["card", "--bench", "--batch", "1,2,3,4,5,6,7"]).exits(2);
    workspace.run(&["card", "--batch", "2"]).exits(2);
}

#[test]
fn small_cards_go_on_sheets() {
    let workspace = Workspace::with(CLEAN);
    workspace.file("recipes/tea.yaml", CLEAN.replace("Toast", "Tea"));
    workspace.run(&["card", "--size", "a6", "--sheet", "a4"]).exits(0);
    workspace.run(&["card", "--bench", "--size", "a6", "--sheet", "letter", "--flip", "short", "tea"]).exits(0);
    for file in ["a6-on-a4.pdf", "a6-bench-on-letter.pdf"] {
        let path = workspace.path("out/cards/sheets").join(file);
        assert!(std::fs::read(path).unwrap().starts_with(b"%PDF-1."), "{file}");
    }
    workspace.run(&["card", "--size", "a4", "--sheet", "a4"]).exits(2);
    workspace.run(&["card", "--size", "a6", "--sheet", "a5"]).exits(2);
    workspace.run(&["card", "--size", "a6", "--flip", "short"]).exits(2);
}
