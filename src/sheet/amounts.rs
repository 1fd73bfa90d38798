use num_rational::Ratio;

use super::model::{BatchAmount, SheetLine};
use crate::facts::LineFacts;
use crate::kitchen::{Kitchen, Weighed};
use crate::measure::{Dimension, Number, Unit, Weight};
use crate::pantry::Row;
use crate::recipe::{self, Amount};

/// The batches that are computed: their key and factor.
const BATCHES: [(&str, i64, i64); 4] = [("half", 1, 2), ("one", 1, 1), ("two", 2, 1), ("three", 3, 1)];

/// A line at one batch.
#[derive(Default)]
pub(super) struct ShownLine {
    pub(super) weight: Option<String>,
    pub(super) measure: Option<String>,
    pub(super) high: Weight,
    error_percent: Option<f64>,
    source: Option<String>,
    weigh: bool,
    weigh_only: bool,
    to_taste: bool,
    vague: bool,
}

/// An ingredient line in both systems, at every batch, and its exact weight at one.
pub(super) fn line(facts: &LineFacts<'_>, kitchen: &Kitchen) -> (SheetLine, Weight) {
    let (line, row) = (&facts.ingredient.line, facts.row);
    let mut batches = Vec::with_capacity(BATCHES.len());
    let mut one = ShownLine::default();
    for (batch, numer, denom) in BATCHES {
        let shown = at(facts, Ratio::new(numer, denom), kitchen);
        batches.push(BatchAmount { batch, weight: shown.weight.clone(), measure: shown.measure.clone() });
        if batch == "one" {
            one = shown;
        }
    }
    let language = kitchen.language();
    // `3 eggs` joins nothing between, whatever the language.
    let pieces = one.weight.is_none() && line.amounts.first().is_some_and(|amount| amount.unit.is_none());
    let of = if pieces { String::new() } else { language.partitive(&line.name).to_string() };
    let weight = one.high;
    let line = SheetLine {
        name: line.name.clone(),
        prep: line.prep.as_deref().and_then(|prep| language.without_flags(prep)),
        note: line.note.as_deref().and_then(|note| language.without_flags(note)),
        optional: line.optional,
        ingredient: row.map(|row| row.id.clone()),
        link: line.link.clone(),
        batches,
        weight: one.weight,
        measure: one.measure,
        milligrams: u64::try_from(one.high.milligrams()).unwrap_or_default(),
        error_percent: one.error_percent,
        source: one.source,
        weigh: one.weigh,
        weigh_only: one.weigh_only,
        to_taste: one.to_taste,
        vague: one.vague,
        of,
    };
    (line, weight)
}

/// An ingredient line in both systems, at one batch; nothing where a number grows too large to be held exactly.
pub(super) fn at(facts: &LineFacts<'_>, factor: Number, kitchen: &Kitchen) -> ShownLine {
    let line = &facts.ingredient.line;
    if factor == Number::from_integer(1) {
        return shown(line, facts.row, facts.weighed.as_ref(), kitchen);
    }
    let Some(line) = scaled(line, factor) else { return ShownLine::default() };
    let weighed = kitchen.weigh_as(&line, facts.row).ok();
    shown(&line, facts.row, weighed.as_ref(), kitchen)
}

/// A fraction of a line, at one batch and at every batch.
pub(super) fn part(facts: &LineFacts<'_>, part: Number, kitchen: &Kitchen) -> (ShownLine, Vec<BatchAmount>) {
    let batches = BATCHES.map(|(batch, numer, denom)| {
        let factor = times(part, Ratio::new(numer, denom));
        let ShownLine { weight, measure, .. } = factor.map(|factor| at(facts, factor, kitchen)).unwrap_or_default();
        BatchAmount { batch, weight, measure }
    });
    (at(facts, part, kitchen), batches.to_vec())
}

/// A line with its amounts multiplied; contents of a container are not.
fn scaled(line: &recipe::Line, factor: Number) -> Option<recipe::Line> {
    let mut scaled = line.clone();
    let count = if line.each { 1 } else { scaled.amounts.len() };
    for amount in &mut scaled.amounts[..count.min(line.amounts.len())] {
        amount.low = times(amount.low, factor)?;
        amount.high = times(amount.high, factor)?;
    }
    Some(scaled)
}

/// The exact product, where it can be held.
fn times(one: Number, other: Number) -> Option<Number> {
    let wide = |number: Number| Ratio::new(i128::from(*number.numer()), i128::from(*number.denom()));
    let product = wide(one) * wide(other);
    Some(Ratio::new_raw(i64::try_from(*product.numer()).ok()?, i64::try_from(*product.denom()).ok()?))
}

fn shown(line: &recipe::Line, row: Option<&Row>, weighed: Option<&Weighed>, kitchen: &Kitchen) -> ShownLine {
    let words = kitchen.words();
    let Some(weighed) = weighed else {
        let stated = line.amounts.first().map(|amount| stated(amount, kitchen));
        let weight = line.amounts.first().is_some_and(is_weight);
        let to_taste = stated.is_none() && line.to_taste;
        let vague = line.amounts.first().is_some_and(is_vague);
        let said = stated.or_else(|| to_taste.then(|| words.to_taste.clone()));
        return ShownLine { measure: said.filter(|_| !weight), to_taste, vague, ..ShownLine::default() };
    };
    let mut shown = ShownLine {
        weight: Some(words.weights(weighed.low, weighed.high)),
        high: weighed.high,
        source: Some(weighed.source.clone()),
        ..ShownLine::default()
    };
    match row {
        Some(row) => measured(&mut shown, line, row, weighed, kitchen),
        None => shown.measure = other_stated(line, kitchen),
    }
    shown
}

/// Without a row nothing is computed; a cup that the author states is shown as stated.
fn other_stated(line: &recipe::Line, kitchen: &Kitchen) -> Option<String> {
    line.amounts.iter().find(|amount| !is_weight(amount)).map(|amount| stated(amount, kitchen))
}

fn is_weight(amount: &Amount) -> bool {
    amount.unit.is_some_and(|unit| unit.dimension() == Dimension::Weight)
}

/// Fills in the measure: pieces as stated, else pieces or level measures by weight.
fn measured(shown: &mut ShownLine, line: &recipe::Line, row: &Row, weighed: &Weighed, kitchen: &Kitchen) {
    let amount = &line.amounts[weighed.amount.min(line.amounts.len() - 1)];
    let count = &line.amounts[0];
    let stated_count = !is_weight(count) && count.unit.is_none_or(|unit| unit.dimension() == Dimension::Count);
    let by_weight = is_weight(amount) && !line.each;
    if stated_count && (!by_weight || line.amounts.len() == 1) && is_whole_or_half(count) {
        shown.measure = Some(stated(count, kitchen));
        shown.vague = is_vague(count);
        return;
    }
    if kitchen.is_counted(row, line)
        && let Some(counted) = kitchen.count(row, line, weighed.high)
    {
        shown.measure = Some(counted.short);
        shown.error_percent = Some(counted.error_percent);
        shown.source = Some(counted.source);
        return;
    }
    if let Some(level) = kitchen.measure_range(row, line, weighed.low, weighed.high) {
        shown.error_percent = level.error_percent;
        shown.weigh = level.weigh;
        shown.weigh_only = level.measure.is_none() && level.weigh;
        shown.vague = level.measure.is_none() && !level.weigh;
        shown.source = Some(level.source).filter(|source| !source.is_empty()).or(shown.source.take());
        shown.measure = Some(level.text);
    } else if !by_weight {
        shown.measure = Some(stated(count, kitchen));
        shown.vague = is_vague(count);
    }
}

/// `a pinch`, which a reader takes between two fingers.
fn is_vague(amount: &Amount) -> bool {
    amount.unit == Some(Unit::Pinch) && amount.high <= Number::from_integer(1)
}

fn is_whole_or_half(amount: &Amount) -> bool {
    *amount.low.denom() <= 2 && *amount.high.denom() <= 2 && (amount.size.is_none() || amount.high.is_integer())
}

/// An amount as the author states it: `3 large`, `2–3 tbsp`, `a pinch`, `1/2`.
fn stated(amount: &Amount, kitchen: &Kitchen) -> String {
    let words = kitchen.words();
    if is_vague(amount) {
        return words.pinch.clone();
    }
    let mut text = words.number(amount.low);
    if amount.low != amount.high {
        text = format!("{text}–{}", words.number(amount.high));
    }
    for unit in amount.size.into_iter().chain(amount.unit) {
        text = format!("{text} {}", words.unit(unit, amount.high));
    }
    text
}

#[cfg(test)]
mod tests {
    use crate::facts::Facts;
    use crate::kitchen::Kitchen;
    use crate::language::Dictionary;
    use crate::pantry::Pantry;
    use crate::recipe::{LineReader, read};
    use crate::source::Source;
    use crate::workspace::Site;

    /// The weight and the measure of a line at one batch.
    fn shown(line: &str) -> (Option<String>, Option<String>) {
        let yaml = format!("title: T\ncomponents: [{{name: C, ingredients: [\"{line}\"], steps: [Mix.]}}]\n");
        let reader = LineReader::new(Dictionary::of("en-US").unwrap(), Site::default().cups.into());
        let recipe = read(Source::new("t.yaml", yaml), "t", &reader).0.unwrap();
        let kitchen = Kitchen::new(Pantry::embedded(), &Site::default()).unwrap();
        let line = super::line(&Facts::of(&recipe, &kitchen).lines[0][0], &kitchen).0;
        (line.weight, line.measure)
    }

    #[test]
    fn what_is_not_in_the_pantry_is_shown_as_stated() {
        let case = |line: &str, weight: Option<&str>, measure: Option<&str>| {
            assert_eq!(shown(line), (weight.map(str::to_string), measure.map(str::to_string)), "{line}");
        };
        case("100 g (1 cup) dust of stars", Some("100 g"), Some("1 cup"));
        case("100 g dust of stars", Some("100 g"), None);
        case("125 g plain flour", Some("125 g"), Some("1 cup"));
    }

    #[test]
    fn pieces_are_shown_where_they_are_meant() {
        assert_eq!(shown("2 1/2 lemons").1.as_deref(), Some("2 1/2"));
        assert_eq!(shown("100 g eggs").1.as_deref(), Some("2 large"));
        assert_eq!(shown("225 g lemons").1.as_deref(), Some("1 1/2 cups"));
    }
}
