use std::io::Write;

use clap::Args;

use super::screen::stdout;
use super::settings::Settings;
use super::{CommandError, Outcome};
use crate::kitchen::Kitchen;
use crate::measure::{Class, Number, Unit, Weight};
use crate::pantry::{Measure, Nutrients, Row};

/// Show what the pantry knows of an ingredient, with every source; or list it by class
#[derive(Debug, Args)]
#[command(
    after_help = "Examples:\n  levelcup pantry \"icing sugar\"\n  levelcup pantry --class leavening\n  levelcup pantry --json butter"
)]
pub(super) struct PantryArguments {
    /// One JSON object a row
    #[arg(long)]
    json: bool,
    /// List a class: leavening, gelling, salt, structure, liquid or flavour
    #[arg(long, value_name = "CLASS", value_parser = class)]
    class: Option<Class>,
    /// Names as you would write them; none, without --class, lists every row
    #[arg(value_name = "NAME")]
    names: Vec<String>,
}

fn class(name: &str) -> Result<Class, String> {
    serde_json::from_value(name.into())
        .map_err(|_| "there are leavening, gelling, salt, structure, liquid and flavour".to_string())
}

pub(super) fn run(command: &PantryArguments, settings: &Settings) -> Result<Outcome, CommandError> {
    let (kitchen, _) = settings.kitchen()?;
    let mut out = stdout();
    let mut missing = false;
    if command.names.is_empty() {
        let of_class = |row: &&Row| command.class.is_none_or(|class| row.class == class);
        for row in kitchen.pantry().rows().iter().filter(of_class) {
            match command.json {
                true => out.json(&json(row))?,
                false => writeln!(out, "{}", listed(row, &kitchen))?,
            }
        }
    }
    for name in &command.names {
        match kitchen.pantry().find(name) {
            Some(row) if command.json => out.json(&json(row))?,
            Some(row) => writeln!(out, "{}", shown(row, &kitchen))?,
            None => {
                missing = true;
                let nearest = kitchen.pantry().nearest(name, 5).join(", ");
                let near = if nearest.is_empty() { nearest } else { format!("; the nearest names are {nearest}") };
                writeln!(out, "`{name}` is not in the pantry{near}")?;
            }
        }
    }
    out.flush()?;
    Ok(Outcome::held_back(missing))
}

fn json(row: &Row) -> String {
    serde_json::to_string(row).expect("a row of texts and numbers serialises")
}

/// One line: id, name, and the weight of a cup, spoon or piece.
fn listed(row: &Row, kitchen: &Kitchen) -> String {
    let first = row.measures.first().map(|measure| {
        let weight = kitchen.words().weight(Weight::from_milligrams(measure.milligrams()));
        format!("{weight} a {}", of(measure, kitchen))
    });
    format!("{:<32} {:<36} {}", row.id, row.name(), first.unwrap_or_default()).trim_end().to_string()
}

fn of(measure: &Measure, kitchen: &Kitchen) -> String {
    let unit = kitchen.words().unit(measure.of, Number::from_integer(1)).to_string();
    match &measure.manner {
        Some(manner) => format!("{unit}, {manner}"),
        None if measure.of == Unit::Large || measure.of == Unit::Medium || measure.of == Unit::Small => {
            format!("{unit} piece")
        }
        None => unit,
    }
}

/// Everything about a row.
fn shown(row: &Row, kitchen: &Kitchen) -> String {
    let mut text = format!("{}\n", row.name());
    let mut say = |label: &str, what: String| {
        if !what.is_empty() {
            text.push_str(&format!("  {label:<12}{what}\n"));
        }
    };
    say("id", row.id.clone());
    say("also", row.names.iter().skip(1).take(8).cloned().collect::<Vec<_>>().join(", "));
    let class = serde_json::to_value(row.class).unwrap_or_default();
    let tolerance = f64::from(row.class.tolerance_per_mille()) / 10.0;
    say("class", format!("{}, measured within {tolerance:.0} %", class.as_str().unwrap_or_default()));
    for measure in &row.measures {
        say("measure", measured(measure, kitchen));
    }
    let allergens = |list: &[String]| list.join(", ").replace('-', " ");
    say("contains", row.kind.clone().unwrap_or_default());
    say("US list", allergens(&row.allergens.us));
    say("EU list", allergens(&row.allergens.eu));
    say("alcohol", row.alcohol.map(|percent| format!("{percent} % by volume")).unwrap_or_default());
    say("in 100 g", row.nutrients.as_ref().map(nutrients).unwrap_or_default());
    text.trim_end().to_string()
}

fn measured(measure: &Measure, kitchen: &Kitchen) -> String {
    let words = kitchen.words();
    let weight = words.weight(Weight::from_milligrams(measure.milligrams()));
    let (low, high) = measure.range();
    let range = words.weights(Weight::from_milligrams(low), Weight::from_milligrams(high));
    let note = measure.note.as_ref().map(|note| format!("; {note}")).unwrap_or_default();
    format!("{:<18} {weight:<8} {range:<12} {}{note}", of(measure, kitchen), measure.citation())
}

fn nutrients(nutrients: &Nutrients) -> String {
    let said = [
        (nutrients.kcal, "kcal"),
        (nutrients.protein, "g protein"),
        (nutrients.fat, "g fat"),
        (nutrients.saturated, "g of it saturated"),
        (nutrients.carbohydrate, "g carbohydrate"),
        (nutrients.sugars, "g of it sugars"),
        (nutrients.fibre, "g fibre"),
        (nutrients.sodium_mg, "mg sodium"),
    ];
    let said: Vec<String> = said.into_iter().filter_map(|(n, of)| n.map(|n| format!("{n} {of}"))).collect();
    format!("{} ({})", said.join(", "), nutrients.source)
}
