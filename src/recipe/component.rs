use super::file::{ComponentEntry, IngredientEntry, RatioEntry, Short, StepEntry, WrittenText};
use super::reader::Reader;
use super::recipe::{Component, ComponentUse, Ingredient, Ratio, Step};
use super::{Amount, Degrees, DegreesError, Line, LineError, TimeError, degrees};
use crate::measure::{Duration, Number};
use crate::text::only_number;
use crate::yaml::Node;

/// Understands the components of a recipe in order, so that each can name the earlier ones.
pub(super) fn components(reader: &mut Reader<'_>, entries: Vec<ComponentEntry>, node: &Node) -> Vec<Component> {
    let names: Vec<String> = entries.iter().map(|entry| entry.name.0.clone()).collect();
    let mut components = Vec::new();
    for (index, entry) in entries.into_iter().enumerate() {
        let node = node.item(index);
        let span = node.key("name").span.clone();
        if names[..index].iter().any(|earlier| same_name(earlier, &names[index])) {
            let message = format!("two components are called `{}`", names[index]);
            reader.error("repeated-name", span.clone(), message, "give each its own name");
        }
        let ingredients = ingredients(reader, entry.ingredients, node.key("ingredients"));
        let steps = entry.steps.into_iter().enumerate();
        let steps = steps.filter_map(|(at, step)| self::step(reader, step, node.key("steps").item(at), &names, index));
        let steps = steps.collect();
        components.push(Component {
            uses: uses(reader, &entry.uses.0, node.key("uses"), &names, index),
            ratio: entry.ratio.and_then(|entry| ratio(reader, entry, node.key("ratio"))),
            name: reader.filled(entry.name, node.key("name")),
            span,
            ingredients,
            steps,
        });
    }
    components
}

fn same_name(one: &str, other: &str) -> bool {
    one.to_lowercase() == other.to_lowercase()
}

/// Component names as indices; a name that is none is a finding.
fn uses(
    reader: &mut Reader<'_>,
    wanted: &[WrittenText],
    node: &Node,
    names: &[String],
    own: usize,
) -> Vec<ComponentUse> {
    let mut uses = Vec::new();
    for (index, name) in wanted.iter().enumerate() {
        let span = node.item(index).span.clone();
        match names.iter().position(|known| same_name(known, &name.0)) {
            Some(component) if component != own => uses.push(ComponentUse { component, span }),
            Some(_) => {
                let message = format!("`{}` uses itself", name.0);
                reader.error("unknown-component", span, message, "name an earlier component");
            }
            None => {
                let message = format!("no component is called `{}`", name.0);
                let help = format!("the components are: {}", names.join(", "));
                reader.error("unknown-component", span, message, &help);
            }
        }
    }
    uses
}

fn ingredients(reader: &mut Reader<'_>, entries: Vec<Short<IngredientEntry>>, node: &Node) -> Vec<Ingredient> {
    let mut ingredients = Vec::new();
    for (index, entry) in entries.into_iter().enumerate() {
        let node = node.item(index);
        ingredients.extend(match entry {
            Short::Line(text) => short(reader, &text, node),
            Short::Long(entry) => long(reader, *entry, node),
        });
    }
    ingredients
}

fn short(reader: &mut Reader<'_>, text: &str, node: &Node) -> Option<Ingredient> {
    let line = match reader.lines.read(text) {
        Ok(line) => line,
        Err(error) => {
            unreadable(reader, &error, node, text);
            return None;
        }
    };
    let amounts = line.amounts.iter().map(|amount| node.part(reader.source, amount.span.clone())).collect();
    Some(Ingredient { line, span: node.span.clone(), amounts })
}

fn unreadable(reader: &mut Reader<'_>, error: &LineError, node: &Node, text: &str) {
    let span = node.part(reader.source, error.span.clone());
    let shown: String = text.chars().take(80).collect();
    reader.error("unreadable-line", span, format!("{error} in `{shown}`"), error.fault.help());
}

fn long(reader: &mut Reader<'_>, entry: IngredientEntry, node: &Node) -> Option<Ingredient> {
    let mut line = Line {
        name: reader.filled(entry.name, node.key("name")),
        prep: entry.prep.map(|text| text.0),
        note: entry.note.map(|text| text.0),
        optional: entry.optional,
        ..Line::default()
    };
    line.link = entry.link.and_then(|link| reader.url(&link.0, node.key("link")));
    let mut spans = Vec::new();
    for (key, text) in [("amount", entry.amount), ("stated", entry.stated)] {
        let Some(text) = text else { continue };
        let node = node.key(key);
        if key == "amount" && reader.lines.is_to_taste(&text.0) {
            line.to_taste = true;
            continue;
        }
        for part in stated_parts(&text.0) {
            line.amounts.push(amount(reader, part, node)?);
            spans.push(node.span.clone());
        }
    }
    Some(Ingredient { line, span: node.span.clone(), amounts: spans })
}

/// `60 g (1/2 cup)` in one key is two measures.
fn stated_parts(text: &str) -> impl Iterator<Item = &str> {
    text.split(['(', ')']).map(str::trim).filter(|part| !part.is_empty())
}

fn amount(reader: &mut Reader<'_>, text: &str, node: &Node) -> Option<Amount> {
    match reader.lines.read_amount(text) {
        Ok(Some(amount)) if amount.low > Number::from_integer(0) => Some(amount),
        Ok(_) => {
            let message = format!("`{text}` is not an amount");
            let help = "write a number and a unit: `60 g`, `1/2 cup`, `3 large`, or `to taste`";
            reader.error("unreadable-line", node.span.clone(), message, help);
            None
        }
        Err(error) => {
            unreadable(reader, &error, node, text);
            None
        }
    }
}

fn step(reader: &mut Reader<'_>, step: Short<StepEntry>, node: &Node, names: &[String], own: usize) -> Option<Step> {
    let entry = match step {
        Short::Line(text) => {
            let text = reader.filled(WrittenText(text.trim().to_string()), node);
            let span = node.span.clone();
            let none = (None, None, None, None);
            let (oven, heat, time, wait) = none;
            return Some(Step { text, span, oven, heat, time, wait, until: None, at: None, mind: None, uses: vec![] });
        }
        Short::Long(entry) => entry,
    };
    Some(Step {
        text: reader.filled(entry.text, node.key("do")),
        span: node.span.clone(),
        oven: entry.oven.and_then(|text| temperature(reader, &text.0, node.key("oven"))),
        heat: entry.heat.and_then(|text| temperature(reader, &text.0, node.key("heat"))),
        time: entry.time.and_then(|text| duration(reader, &text.0, node.key("time"))),
        wait: entry.wait.and_then(|text| duration(reader, &text.0, node.key("wait"))),
        until: entry.until.map(|text| text.0),
        at: entry.at.and_then(|text| reader.timestamp(&text.0, node.key("at"))),
        mind: entry.mind.map(|text| text.0),
        uses: uses(reader, &entry.uses.0, node.key("uses"), names, own),
    })
}

fn duration(reader: &mut Reader<'_>, text: &str, node: &Node) -> Option<Duration> {
    let read = crate::text::duration(text, reader.lines.times());
    if read.is_none() {
        let help = "write a number and a unit: `22–25 min`, `1 h 30 min`, `overnight`";
        reader.error("unreadable-time", node.span.clone(), TimeError(text.trim().into()).to_string(), help);
    }
    read
}

fn temperature(reader: &mut Reader<'_>, text: &str, node: &Node) -> Option<Degrees> {
    match degrees::degrees(text) {
        Ok(degrees) => Some(degrees),
        Err(error) => {
            let rule = match error {
                DegreesError::NoScale(_) => "temperature-scale-missing",
                DegreesError::Unreadable(_) => "unreadable-temperature",
            };
            let help = "write the number and its scale: `180 °C`, `350 °F`, `gas mark 4`";
            reader.error(rule, node.span.clone(), error.to_string(), help);
            None
        }
    }
}

/// One number of a ratio, above nothing.
fn share(text: &str) -> Option<Number> {
    only_number(text).filter(|number| *number > Number::from_integer(0))
}

fn ratio(reader: &mut Reader<'_>, entry: RatioEntry, node: &Node) -> Option<Ratio> {
    let span = node.key("is").span.clone();
    let parts: Option<Vec<Number>> = entry.is.0.split(':').map(|part| share(part.trim())).collect();
    let of: Vec<String> = entry.of.into_iter().map(|text| text.0).collect();
    match parts {
        Some(is) if is.len() == of.len() && is.len() > 1 => Some(Ratio { of, is, span }),
        _ => {
            let message = format!("`{}` is not a ratio of {} ingredients", entry.is.0, of.len());
            reader.error("unreadable-ratio", span, message, "write one number a name, parted by colons: `\"5:3\"`");
            None
        }
    }
}
