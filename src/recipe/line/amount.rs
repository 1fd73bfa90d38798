use num_rational::Ratio;

use super::cursor::Cursor;
use super::phrases::starts_with_words;
use super::token::TokenKind;
use super::{Amount, Fullness, LineError};
use crate::language::AmountWord;
use crate::measure::{Dimension, Number, Unit};
use crate::source::Span;

/// What an amount was read as.
pub(super) struct Parsed {
    pub(super) amount: Amount,
    /// `each` was said.
    pub(super) each: bool,
    /// How the measure is filled, in the line's words: the `packed` of `1 packed cup`.
    pub(super) manner: Option<Span>,
}

impl Cursor<'_> {
    /// An amount at the cursor; the cursor stays where it is when there is none.
    pub(super) fn amount(&mut self) -> Result<Option<Parsed>, LineError> {
        self.amount_of(true)
    }

    /// An amount without what is added to it.
    pub(super) fn amount_alone(&mut self) -> Result<Option<Parsed>, LineError> {
        self.amount_of(false)
    }

    fn amount_of(&mut self, compound: bool) -> Result<Option<Parsed>, LineError> {
        let start = *self;
        let parsed = self.amount_or_reset(compound)?;
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

    /// A second amount of a pair: measured, or counted in pieces that are named: `2 sticks`, `3 large`, `about 3`.
    pub(super) fn paired_amount(&mut self, bare: bool) -> Result<Option<Parsed>, LineError> {
        let start = *self;
        let paired = self.amount()?.filter(|p| p.amount.unit.is_some() || p.amount.size.is_some() || bare);
        if paired.is_none() {
            *self = start;
        }
        Ok(paired)
    }

    fn amount_or_reset(&mut self, compound: bool) -> Result<Option<Parsed>, LineError> {
        let first = self.byte();
        let mut about = self.about();
        let mut fullness = self.fullness();
        about |= self.about();
        let Some((low, mut high)) = self.range(fullness.is_some())? else { return Ok(None) };
        if self.is_part_of_name() || matches!(self.reading(), Some((AmountWord::Vague, _))) {
            return Ok(None);
        }
        fullness = fullness.or(self.fullness());
        about |= self.about();
        let size = self.size();
        let manner = self.manner_before_unit();
        self.of_a_unit(low);
        let (unit, low) = match self.unit() {
            Some((unit, times)) => {
                high *= times;
                (Some(unit), low * times)
            }
            None => (None, low),
        };
        let mut amount = Amount { low, high, unit, size, about, fullness, span: first..first };
        amount.fullness = amount.fullness.or(unit.and_then(|_| self.fullness_behind()));
        self.other_end(&mut amount)?;
        if compound {
            self.compound(&mut amount)?;
        }
        amount.about |= self.or_so();
        let each = self.skip(AmountWord::Each);
        amount.span = first..self.byte_before();
        Ok(Some(Parsed { amount, each, manner }))
    }

    /// `lightly packed` where a unit follows, and `fat` where the unit counts and a name follows: `2 fat cloves garlic`.
    fn manner_before_unit(&mut self) -> Option<Span> {
        let mut ahead = *self;
        let mut fills = true;
        while let Some(word) = ahead.word().filter(|w| self.phrases.is_manner(w) || self.phrases.is_adjective(w)) {
            fills &= self.phrases.is_manner(word);
            ahead.at += 1;
        }
        let Some((AmountWord::Unit(unit, _), count)) = ahead.reading() else { return None };
        let named = ahead.peek_kind(count) == Some(TokenKind::Word);
        if ahead.at == self.at || !(fills || (unit.dimension() == Dimension::Count && named)) {
            return None;
        }
        let span = self.byte()..ahead.byte_before();
        self.at = ahead.at;
        Some(span)
    }

    /// `¾ de litre`
    fn of_a_unit(&mut self, number: Number) {
        let mut ahead = *self;
        let broken = number < Number::from_integer(1) && ahead.skip(AmountWord::Of);
        let unit = ahead.reading();
        if broken && matches!(unit, Some((AmountWord::Unit(unit, _), _)) if unit.dimension() != Dimension::Count) {
            *self = ahead;
        }
    }

    /// `rases` behind a unit: `2 cuillères à soupe rases de farine`; English puts it before the unit.
    fn fullness_behind(&mut self) -> Option<Fullness> {
        let mut ahead = *self;
        let fullness = ahead.fullness()?;
        ahead.peek_is(AmountWord::Of).then(|| {
            *self = ahead;
            fullness
        })
    }

    fn peek_is(&self, wanted: AmountWord) -> bool {
        self.reading().is_some_and(|(reading, _)| reading == wanted)
    }

    pub(super) fn about(&mut self) -> bool {
        let mut found = false;
        while self.skip(AmountWord::About) {
            found = true;
        }
        let circa = self.word().is_some_and(|word| self.phrases.is_circa(word))
            && matches!(self.peek_kind(1), Some(TokenKind::Number(_)));
        self.at += usize::from(circa);
        found || circa
    }

    fn or_so(&mut self) -> bool {
        let rest = &self.line[self.byte()..];
        let said = self.phrases.or_so.iter().find(|words| starts_with_words(rest, words));
        self.at += said.map_or(0, |words| words.split(' ').count());
        said.is_some()
    }

    pub(super) fn fullness(&mut self) -> Option<Fullness> {
        for (reading, fullness) in [
            (AmountWord::Scant, Fullness::Scant),
            (AmountWord::Heaped, Fullness::Heaped),
            (AmountWord::Level, Fullness::Level),
        ] {
            if self.skip(reading) {
                return Some(fullness);
            }
        }
        None
    }

    fn size(&mut self) -> Option<Unit> {
        let (AmountWord::Size(size), count) = self.reading()? else { return None };
        self.at += count;
        Some(size)
    }

    /// A number or a range of them; `pinch` alone counts as one, and so does a unit that was said to be filled.
    fn range(&mut self, filled: bool) -> Result<Option<(Number, Number)>, LineError> {
        let between = self.word().is_some_and(|word| self.phrases.is_between(word));
        self.at += usize::from(between);
        let Some(low) = self.number()? else {
            return Ok((!between && self.is_one(filled)).then_some((Number::from_integer(1), Number::from_integer(1))));
        };
        let mut ahead = *self;
        let to = ahead.skip_kind(TokenKind::Dash)
            || ahead.skip(AmountWord::To)
            || ahead.skip(AmountWord::Or)
            || (between && ahead.skip(AmountWord::Plus));
        if to && let Some(high) = ahead.number()? {
            let same = ahead.reading().is_some_and(|(r, _)| matches!(r, AmountWord::Unit(..) | AmountWord::Size(_)));
            let by_word = !matches!(self.peek_kind(0), Some(TokenKind::Dash));
            if high > low && !ahead.is_part_of_name() && (!by_word || same || ahead.word().is_some()) {
                *self = ahead;
                return Ok(Some((low, high)));
            }
        }
        if between {
            return Ok(None);
        }
        Ok(Some((low, low)))
    }

    /// Whether one is meant though no number stands here: `pinch of salt`, `big pinch`, `heaped tbsp`.
    fn is_one(&self, filled: bool) -> bool {
        let mut ahead = *self;
        ahead.size();
        match ahead.reading() {
            Some((AmountWord::Unit(Unit::Pinch | Unit::Dash, _), _)) => true,
            // One word: `noix de` may begin the name of a nut.
            Some((AmountWord::Unit(unit, _), 1)) if unit.is_vague() => true,
            Some((AmountWord::Unit(unit, _), _)) => filled && unit.dimension() == Dimension::Volume,
            _ => false,
        }
    }

    /// Whether the number just read belongs to the name: `35 %`, `9-inch`, `7-grain`.
    fn is_part_of_name(&self) -> bool {
        let mut ahead = *self;
        if ahead.skip_kind(TokenKind::Sign('%')) || ahead.peek_kind(0) == Some(TokenKind::Sign('°')) {
            return true;
        }
        let dashed = ahead.peek().is_some_and(|token| token.glued) && ahead.skip_kind(TokenKind::Dash);
        let glued = ahead.peek().is_some_and(|token| token.glued);
        match ahead.word() {
            Some(word) if self.phrases.is_percent(word) || self.phrases.is_length(word) => true,
            Some(word) if glued && self.phrases.is_ordinal(word) => true,
            Some(_) => dashed && !matches!(ahead.reading(), Some((AmountWord::Unit(..) | AmountWord::Size(_), _))),
            None => matches!(ahead.peek_kind(0), Some(TokenKind::Sign('"' | '″' | '”'))),
        }
    }

    /// A unit, also glued by a hyphen: `14-oz`.
    pub(super) fn unit(&mut self) -> Option<(Unit, i64)> {
        let mut ahead = *self;
        if ahead.peek().is_some_and(|token| token.glued) {
            ahead.skip_kind(TokenKind::Dash);
        }
        // `1 #10 can` counts a can; `3# beef` weighs.
        let numbered = ahead.peek_kind(0) == Some(TokenKind::Sign('#'))
            && matches!(ahead.peek_kind(1), Some(TokenKind::Number(_)));
        let (AmountWord::Unit(unit, times), count) = ahead.reading().filter(|_| !numbered)? else { return None };
        ahead.at += count;
        // `2 cup/s`, `1 cup(s)`
        self.at = ahead.at;
        self.skip_plural_mark();
        Some((unit, times))
    }

    fn skip_plural_mark(&mut self) {
        let marks = self.tokens.get(self.at..self.at + 3).unwrap_or_default();
        if let [open, s, close] = marks
            && open.kind == TokenKind::Open
            && close.kind == TokenKind::Close
            && self.phrases.is_plural_mark(self.text(s))
        {
            self.at += 3;
        } else if let [slash, s, ..] = marks
            && slash.kind == TokenKind::Slash
            && s.glued
            && self.phrases.is_plural_mark(self.text(s))
        {
            self.at += 2;
        }
    }

    /// The other end of a range that names its unit twice: `2 tbsp to 1/4 cup`, `100 g–120 g`.
    fn other_end(&mut self, amount: &mut Amount) -> Result<(), LineError> {
        let Some(unit) = amount.unit.filter(|_| amount.low == amount.high) else { return Ok(()) };
        let mut ahead = *self;
        let to = ahead.skip_kind(TokenKind::Dash) || ahead.skip(AmountWord::To) || ahead.skip(AmountWord::Or);
        if !to {
            return Ok(());
        }
        let Some(number) = ahead.number()? else { return Ok(()) };
        let Some((other, times)) = ahead.unit() else { return Ok(()) };
        if other.is_metric() != unit.is_metric() {
            return Ok(());
        }
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
            let minus = ahead.skip(AmountWord::Minus);
            let joined = minus || ahead.skip(AmountWord::Plus);
            ahead.about();
            let Some(number) = ahead.number()? else { return Ok(()) };
            let Some((other, times)) = ahead.unit() else {
                // `a cup and a half of flour`
                if joined && !minus && number < Number::from_integer(1) && ahead.peek_is(AmountWord::Of) {
                    (amount.low, amount.high) = (amount.low + number, amount.high + number);
                    *self = ahead;
                }
                return Ok(());
            };
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
        // An odd factor would grow the numbers without bound; a thousandth is finer than any kitchen measures.
        let thousandth = Ratio::from_integer(1000);
        let plain = if *factor.denom() <= 1_000_000 { factor } else { (factor * thousandth).round() / thousandth };
        Some(number * plain)
    }
}
