//! Amounts with a unit in running text.

use super::numbers::number;
use crate::language::{Language, Word};
use crate::measure::{Number, Unit};
use crate::source::Span;

/// An amount in a text: `50 g`, `1 1/2 cups`, `two tablespoons`, `80–100 g`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Quantity {
    /// The number and the unit.
    pub span: Span,
    /// The lower end.
    pub low: Number,
    /// The higher end; the same for a single number.
    pub high: Number,
    /// The unit.
    pub unit: Unit,
}

impl Quantity {
    /// The most that it is, in grams; `None` unless it is a weight.
    pub fn grams(&self) -> Option<f64> {
        const NANOGRAMS: f64 = 1e9;
        let unit = self.unit.nanograms()? as f64;
        Some(*self.high.numer() as f64 / *self.high.denom() as f64 * unit / NANOGRAMS)
    }
}

/// The amounts with a unit in a text whose words are known, in order.
pub fn quantities(text: &str, words: &[Word], language: &Language) -> Vec<Quantity> {
    let mut found: Vec<Quantity> = Vec::new();
    for word in words {
        let start = word.span.start;
        // `1.5` is one number, and its second word none.
        let inside =
            found.last().is_some_and(|last| last.span.end > start) || text[..start].ends_with(['.', ',', '/', '⁄']);
        let first = match number(&text[start..]) {
            Some(read) => Some(read),
            None => language.count(&word.written).map(|count| (Number::from_integer(count), word.span.len())),
        };
        let Some((low, length)) = first.filter(|_| !inside) else { continue };
        let end = start + length;
        let (high, end) = range_end(&text[end..]).map_or((low, end), |(high, length)| (high, end + length));
        let Some((unit, length)) = unit(&text[end..], language) else { continue };
        found.push(Quantity { span: start..end + length, low, high, unit });
    }
    found
}

/// The other end of a range: `–100`, ` - 100`.
fn range_end(text: &str) -> Option<(Number, usize)> {
    let behind = text.trim_start().strip_prefix(['–', '-', '—'])?.trim_start();
    number(behind).map(|(high, length)| (high, text.len() - behind.len() + length))
}

/// The unit that stands behind a number, and how many bytes it takes with what is before it.
fn unit(text: &str, language: &Language) -> Option<(Unit, usize)> {
    let behind = text.trim_start_matches([' ', '\u{A0}', '\u{202F}', '-']);
    let word = behind.find(|c: char| !c.is_alphabetic()).map_or(behind, |end| &behind[..end]);
    language.unit(word).map(|unit| (unit, text.len() - behind.len() + word.len()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_found_where_they_stand() {
        let case = |text: &str, wanted: &[(&str, i64, i64, Unit)]| {
            let found = quantities(text, &Language::default().read(text), &Language::default());
            let found: Vec<_> = found
                .iter()
                .map(|one| (&text[one.span.clone()], *one.high.numer(), *one.high.denom(), one.unit))
                .collect();
            assert_eq!(found, wanted, "{text}");
        };
        case("Add 50 g of the sugar.", &[("50 g", 50, 1, Unit::G)]);
        case("Add 1 1/2 cups milk and 80–100g flour", &[("1 1/2 cups", 3, 2, Unit::Cup), ("80–100g", 100, 1, Unit::G)]);
        case("two tablespoons of it, 1.5 kg", &[("two tablespoons", 2, 1, Unit::Tbsp), ("1.5 kg", 3, 2, Unit::Kg)]);
        case("a 450-g loaf at 180 °C for 20 minutes", &[("450-g", 450, 1, Unit::G)]);
        case("½ tsp", &[("½ tsp", 1, 2, Unit::Tsp)]);
        case("2 eggs, a third", &[]);
    }
}
