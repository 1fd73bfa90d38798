use num_rational::Ratio;

use super::cursor::Cursor;
use super::token::Kind;
use super::{Amount, Fullness, LineError};
use crate::measure::{Dimension, Number, Reading, Unit};

/// Words that make a number part of a name: `9-inch`, `20 cm`.
const LENGTHS: [&str; 12] =
    ["inch", "inches", "in", "cm", "mm", "centimetre", "centimetres", "centimeter", "centimeters", "ply", "year", "°"];

/// What an amount was read as.
pub(super) struct Parsed {
    pub(super) amount: Amount,
    /// `each` was said.
    pub(super) each: bool,
}

impl Cursor<'_> {
    /// An amount at the cursor; the cursor stays where it is when there is none.
    pub(super) fn amount(&mut self) -> Result<Option<Parsed>, LineError> {
        let start = *self;
        let parsed = self.amount_or_reset()?;
        if parsed.is_none() {
            *self = start;
        }
        Ok(parsed)
    }

    /// An amount that must be in a unit of weight or volume.
    pub(super) fn measured_amount(&mut self) -> Result<Option<Parsed>, LineError> {
        let start = *self;
        let measured = self.amount()?.filter(|p| p.amount.unit.is_some_and(|u| u.dimension() != Dimension::Count));
        if measured.is_none() {
            *self = start;
        }
        Ok(measured)
    }

    fn amount_or_reset(&mut self) -> Result<Option<Parsed>, LineError> {
        let first = self.byte();
        let mut about = self.about();
        let mut fullness = self.fullness();
        about |= self.about();
        let Some((low, mut high)) = self.range()? else { return Ok(None) };
        if self.is_part_of_name() || matches!(self.reading(), Some((Reading::Vague, _))) {
            return Ok(None);
        }
        fullness = fullness.or(self.fullness());
        let size = self.size();
        let (unit, low) = match self.unit() {
            Some((unit, times)) => {
                high *= times;
                (Some(unit), low * times)
            }
            None => (None, low),
        };
        let mut amount = Amount { low, high, unit, size, about, fullness, span: first..first };
        self.other_end(&mut amount)?;
        self.compound(&mut amount)?;
        amount.about |= self.or_so();
        let each = self.skip(Reading::Each);
        amount.span = first..self.byte_before();
        Ok(Some(Parsed { amount, each }))
    }

    pub(super) fn about(&mut self) -> bool {
        let mut found = false;
        while self.skip(Reading::About) {
            found = true;
        }
        let circa = self.word() == Some("c") && matches!(self.peek_kind(1), Some(Kind::Number(_)));
        self.at += usize::from(circa);
        found || circa
    }

    fn or_so(&mut self) -> bool {
        let mut ahead = *self;
        let found = ahead.skip(Reading::Or) && ahead.word() == Some("so");
        if found {
            self.at = ahead.at + 1;
        }
        found
    }

    fn fullness(&mut self) -> Option<Fullness> {
        for (reading, fullness) in
            [(Reading::Scant, Fullness::Scant), (Reading::Heaped, Fullness::Heaped), (Reading::Level, Fullness::Level)]
        {
            if self.skip(reading) {
                return Some(fullness);
            }
        }
        None
    }

    fn size(&mut self) -> Option<Unit> {
        let (Reading::Size(size), count) = self.reading()? else { return None };
        self.at += count;
        Some(size)
    }

    /// A number or a range of them; `pinch` alone counts as one.
    fn range(&mut self) -> Result<Option<(Number, Number)>, LineError> {
        let Some(low) = self.number()? else {
            let tiny = matches!(self.reading(), Some((Reading::Unit(Unit::Pinch | Unit::Dash, _), _)));
            let one = Number::from_integer(1);
            return Ok(tiny.then_some((one, one)));
        };
        let mut ahead = *self;
        let to = ahead.skip_kind(Kind::Dash) || ahead.skip(Reading::To) || ahead.skip(Reading::Or);
        if to && let Some(high) = ahead.number()? {
            let same = ahead.reading().is_some_and(|(r, _)| matches!(r, Reading::Unit(..) | Reading::Size(_)));
            let by_word = !matches!(self.peek_kind(0), Some(Kind::Dash));
            if high > low && !ahead.is_part_of_name() && (!by_word || same || ahead.word().is_some()) {
                *self = ahead;
                return Ok(Some((low, high)));
            }
        }
        Ok(Some((low, low)))
    }

    /// Whether the number just read belongs to the name: `35 %`, `9-inch`, `7-grain`.
    fn is_part_of_name(&self) -> bool {
        let mut ahead = *self;
        if ahead.skip_kind(Kind::Sign('%')) || ahead.peek_kind(0) == Some(Kind::Sign('°')) {
            return true;
        }
        let dashed = ahead.peek().is_some_and(|token| token.glued) && ahead.skip_kind(Kind::Dash);
        match ahead.word() {
            Some("percent" | "per") => true,
            Some(word) if LENGTHS.contains(&word) => true,
            Some(_) => dashed && !matches!(ahead.reading(), Some((Reading::Unit(..) | Reading::Size(_), _))),
            None => matches!(ahead.peek_kind(0), Some(Kind::Sign('"' | '″' | '”'))),
        }
    }

    /// A unit, also glued by a hyphen: `14-oz`.
    pub(super) fn unit(&mut self) -> Option<(Unit, i64)> {
        let mut ahead = *self;
        if ahead.peek().is_some_and(|token| token.glued) {
            ahead.skip_kind(Kind::Dash);
        }
        let (Reading::Unit(unit, times), count) = ahead.reading()? else { return None };
        ahead.at += count;
        // `2 cup/s`, `1 cup(s)`
        self.at = ahead.at;
        self.skip_plural_mark();
        Some((unit, times))
    }

    fn skip_plural_mark(&mut self) {
        let marks = self.tokens.get(self.at..self.at + 3).unwrap_or_default();
        if let [open, s, close] = marks
            && open.kind == Kind::Open
            && close.kind == Kind::Close
            && matches!(self.text(s), "s" | "es")
        {
            self.at += 3;
        }
    }

    /// The other end of a range that names its unit twice: `2 tbsp to 1/4 cup`, `100 g–120 g`.
    fn other_end(&mut self, amount: &mut Amount) -> Result<(), LineError> {
        let Some(unit) = amount.unit.filter(|_| amount.low == amount.high) else { return Ok(()) };
        let mut ahead = *self;
        let to = ahead.skip_kind(Kind::Dash) || ahead.skip(Reading::To) || ahead.skip(Reading::Or);
        if !to {
            return Ok(());
        }
        let Some(number) = ahead.number()? else { return Ok(()) };
        let Some((other, times)) = ahead.unit() else { return Ok(()) };
        if let Some(high) = self.in_unit(number * times, other, unit).filter(|high| *high > amount.low) {
            amount.high = high;
            *self = ahead;
        }
        Ok(())
    }

    /// `2 cups + 1 tbsp`, `1 cup minus 1 tbsp`, `1 lb 4 oz`.
    fn compound(&mut self, amount: &mut Amount) -> Result<(), LineError> {
        while let Some(unit) = amount.unit {
            let mut ahead = *self;
            let minus = ahead.skip(Reading::Minus);
            let joined = minus || ahead.skip(Reading::Plus);
            ahead.about();
            let Some(number) = ahead.number()? else { return Ok(()) };
            let Some((other, times)) = ahead.unit() else { return Ok(()) };
            let base = if unit == Unit::Stick { Unit::Tbsp } else { unit };
            let scale = if unit == Unit::Stick { 8 } else { 1 };
            let Some(more) = self.in_unit(number * times, other, base) else { return Ok(()) };
            let (low, high) = (amount.low * scale, amount.high * scale);
            if !joined && (other == unit || more >= low || other.dimension() != Dimension::Weight) {
                return Ok(());
            }
            let signed = if minus { -more } else { more };
            if low + signed <= Number::from_integer(0) {
                return Ok(());
            }
            (amount.low, amount.high, amount.unit) = (low + signed, high + signed, Some(base));
            *self = ahead;
        }
        Ok(())
    }

    /// A number of one unit as a number of another of the same dimension.
    fn in_unit(&self, number: Number, from: Unit, to: Unit) -> Option<Number> {
        if from == to {
            return Some(number);
        }
        let weights = from.nanograms().zip(to.nanograms()).map(|(from, to)| Ratio::new(from, to));
        let volumes = from.millilitres(self.standard).zip(to.millilitres(self.standard)).map(|(from, to)| from / to);
        let factor = weights.or(volumes)?;
        // Only plain fractions are added up; an odd factor would grow the numbers without bound.
        (*factor.denom() <= 1_000_000).then(|| number * factor)
    }
}
