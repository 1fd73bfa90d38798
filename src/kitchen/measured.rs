use super::Kitchen;
use crate::measure::{Dimension, LevelAnswer, LevelMeasure, Number, Unit, Weight, pieces};
use crate::pantry::Row;
use crate::recipe::Line;

/// A weight in level measures.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// `1 1/4 cups`, `a pinch`, `weigh`.
    pub text: String,
    /// The measure itself; `None` for a pinch or what must be weighed.
    pub measure: Option<LevelMeasure>,
    /// What the measure weighs.
    pub weight: Option<Weight>,
    /// Its signed error against the weight in per cent; positive when the measure is the heavier.
    pub error_percent: Option<f64>,
    /// Who published the figure.
    pub source: String,
    /// Whether weighing is advised.
    pub weigh: bool,
}

/// A weight in pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct Counted {
    /// For a column beside the name: `2 large + 2 tbsp beaten`.
    pub short: String,
    /// With the name: `2 large eggs + 2 tbsp beaten egg`.
    pub long: String,
    /// What the pieces and the remainder weigh together.
    pub weight: Weight,
    /// Its signed error against the weight in per cent.
    pub error_percent: f64,
    /// Who published the weight of a piece.
    pub source: String,
}

/// How far a number of halves may be from the weight, in thousandths. Rule of the house, as for whole pieces.
const HALVES_PER_MILLE: u32 = 80;

/// More pieces than these are weighed, unless the line counts them. Common practice.
const MOST_COUNTED: i64 = 24;

/// Nobody counts what is lighter, in nanograms: threads of saffron, seeds. Common practice.
const LEAST_PIECE: i64 = 100_000_000;

impl Kitchen {
    /// A weight of an ingredient in level measures; `None` where no measure of it is published.
    pub fn measure(&self, row: &Row, line: &Line, weight: Weight) -> Option<Measured> {
        let fill = self.fill(row, line);
        let ladder = self.ladder(fill, row.class)?;
        let source_of = |unit: Unit| {
            let (reference, _) = fill.reference(unit)?;
            self.measure_for(row, reference, line).map(|measure| measure.citation())
        };
        let bare = |text: &str, weigh| Measured {
            text: text.into(),
            measure: None,
            weight: None,
            error_percent: None,
            source: source_of(Unit::Tsp).unwrap_or_default(),
            weigh,
        };
        Some(match ladder.level(weight) {
            LevelAnswer::Pinch => bare(&self.words().pinch, false),
            LevelAnswer::Weigh => bare(&self.words().weigh, true),
            LevelAnswer::Measure { measure, weight: shown, weigh } => {
                let largest = measure.amounts().next().map_or(Unit::Cup, |(_, unit)| unit);
                Measured {
                    text: self.words().level(measure),
                    measure: Some(measure),
                    weight: Some(shown),
                    error_percent: Some(shown.error_percent(weight)),
                    source: source_of(largest).unwrap_or_default(),
                    weigh,
                }
            }
        })
    }

    /// A range of weights in level measures: `5–6 tbsp`, `1 tbsp + 1 tsp to 2 tbsp`; error and source of the higher end.
    pub fn measure_range(&self, row: &Row, line: &Line, low: Weight, high: Weight) -> Option<Measured> {
        let mut upper = self.measure(row, line, high)?;
        if low == high {
            return Some(upper);
        }
        let lower = self.measure(row, line, low)?;
        if lower.text == upper.text {
            return Some(upper);
        }
        let single = |measured: &Measured| {
            let mut amounts = measured.measure?.amounts();
            amounts.next().filter(|_| amounts.next().is_none())
        };
        upper.text = match (single(&lower), single(&upper)) {
            (Some((from, one)), Some((to, other))) if one == other => {
                format!("{}–{}", self.words().number(from), self.words().amount(to, other))
            }
            _ => format!("{} {} {}", lower.text, self.words().to, upper.text),
        };
        upper.weigh |= lower.weigh;
        Some(upper)
    }

    /// A weight of an ingredient in pieces; `None` where it does not come in pieces or does not divide well.
    pub fn count(&self, row: &Row, line: &Line, weight: Weight) -> Option<Counted> {
        let size = line.amounts.iter().find_map(|amount| amount.size);
        if let Some((piece, size)) = self.eggs.piece(row, size) {
            return self.count_eggs(row, line, weight, piece, size);
        }
        // A vanilla pod is called a stick too.
        let stick =
            self.measure_for(row, Unit::Stick, line).filter(|_| self.measure_for(row, Unit::Pod, line).is_none());
        let measure = stick.or_else(|| self.piece_measure(row, size, line))?;
        let piece = Weight::from_milligrams(measure.milligrams());
        let halves = (2 * weight.nanograms() + piece.nanograms() / 2) / piece.nanograms().max(1);
        let number = Number::new(halves, 2);
        let counts = |unit: Unit| unit.dimension() == Dimension::Count && !unit.is_pinched();
        let asked = line.amounts.iter().any(|amount| amount.unit.is_none_or(counts));
        if (number > Number::from_integer(MOST_COUNTED) || piece.nanograms() < LEAST_PIECE) && !asked {
            return None;
        }
        let shown = piece.times(super::weighed::wide(number)).ok().filter(|w| w.is_within(HALVES_PER_MILLE, weight))?;
        let unit =
            (!matches!(measure.of, Unit::Piece | Unit::Medium | Unit::Large | Unit::Small)).then_some(measure.of);
        let short = match unit {
            Some(unit) => self.words().amount(number, unit),
            None => self.words().number(number),
        };
        let named = matches!(unit, None | Some(Unit::Pod));
        let name = self.many(row.name(), number);
        let long = if named { format!("{} {name}", self.words().number(number)) } else { short.clone() };
        let error_percent = shown.error_percent(weight);
        Some(Counted { short, long, weight: shown, error_percent, source: measure.citation() })
    }

    /// A name of the pantry for a number of it.
    fn many(&self, name: &str, number: Number) -> String {
        if number <= Number::from_integer(1) { name.to_string() } else { self.language().plurals().many(name) }
    }

    /// Whole eggs, and what is left of one by the spoon.
    fn count_eggs(&self, row: &Row, line: &Line, weight: Weight, piece: Weight, size: Unit) -> Option<Counted> {
        let pieces = pieces(weight, piece)?;
        let whole = Number::from_integer(i64::from(pieces.whole));
        let mut total = piece.times(super::weighed::wide(whole)).ok()?;
        let size = self.words().unit(size, whole);
        let (mut short, mut long) = (Vec::new(), Vec::new());
        if pieces.whole > 0 {
            short.push(format!("{} {size}", pieces.whole));
            long.push(format!("{} {size} {}", pieces.whole, self.many(row.name(), whole)));
        }
        if pieces.rest > Weight::ZERO {
            let rest = self.measure(row, line, pieces.rest)?;
            total = total.plus(rest.weight.unwrap_or(pieces.rest));
            short.push(format!("{} {}", rest.text, self.words().beaten));
            long.push(format!("{} {} {}", rest.text, self.words().beaten, row.name()));
        }
        Some(Counted {
            short: short.join(" + "),
            long: long.join(" + "),
            weight: total,
            error_percent: total.error_percent(weight),
            source: self.eggs.citation().to_string(),
        })
    }

    /// Whether a weight of this ingredient is shown in pieces rather than cups: eggs, sheets, and what has no cup.
    pub fn is_counted(&self, row: &Row, line: &Line) -> bool {
        self.eggs.piece(row, None).is_some()
            || row.measures.iter().any(|measure| measure.of == Unit::Sheet)
            || self.fill(row, line).is_empty()
    }
}
