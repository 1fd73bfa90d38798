use super::fault::{LineError, LineFault};
use super::phrases::Phrases;
use super::token::{Token, TokenKind};
use crate::language::{AmountWord, Dictionary};
use crate::measure::{Number, Standard};
use crate::source::Span;

/// The largest number that stands under a fraction bar.
const LARGEST_DENOMINATOR: i64 = 1000;

/// A place among the tokens of a line, with what is needed to read on.
#[derive(Clone, Copy)]
pub(super) struct Cursor<'a> {
    pub(super) line: &'a str,
    pub(super) tokens: &'a [Token],
    pub(super) at: usize,
    pub(super) dictionary: &'a Dictionary,
    pub(super) phrases: &'a Phrases,
    pub(super) standard: Standard,
}

impl<'a> Cursor<'a> {
    pub(super) fn peek(&self) -> Option<&'a Token> {
        self.tokens.get(self.at)
    }

    pub(super) fn peek_kind(&self, ahead: usize) -> Option<TokenKind> {
        self.tokens.get(self.at + ahead).map(|token| token.kind)
    }

    pub(super) fn done(&self) -> bool {
        self.at >= self.tokens.len()
    }

    pub(super) fn skip_kind(&mut self, kind: TokenKind) -> bool {
        let found = self.peek_kind(0) == Some(kind);
        self.at += usize::from(found);
        found
    }

    /// The byte where the next token starts; the line's end where there is none.
    pub(super) fn byte(&self) -> usize {
        self.peek().map_or(self.line.len(), |token| token.span.start)
    }

    /// One past the last byte read.
    pub(super) fn byte_before(&self) -> usize {
        self.at.checked_sub(1).and_then(|last| self.tokens.get(last)).map_or(0, |token| token.span.end)
    }

    pub(super) fn text(&self, token: &Token) -> &'a str {
        &self.line[token.span.clone()]
    }

    /// The text of the word at the cursor.
    pub(super) fn word(&self) -> Option<&'a str> {
        self.peek().filter(|token| token.kind == TokenKind::Word).map(|token| self.text(token))
    }

    pub(super) fn fault(&self, fault: LineFault, span: Span) -> LineError {
        LineError { fault, span }
    }

    /// What the words at the cursor mean inside an amount, and how many tokens they take; the longest phrase wins.
    pub(super) fn reading(&self) -> Option<(AmountWord, usize)> {
        let token = self.peek()?;
        *token.reading.get_or_init(|| self.look_up(token))
    }

    fn look_up(&self, token: &Token) -> Option<(AmountWord, usize)> {
        match token.kind {
            TokenKind::Word => {}
            TokenKind::Sign('+') => return Some((AmountWord::Plus, 1)),
            TokenKind::Sign(sign) => {
                let mut buffer = [0; 4];
                return self.dictionary.word(sign.encode_utf8(&mut buffer)).map(|reading| (reading, 1));
            }
            _ => return None,
        }
        let first = self.text(token);
        let longest = self.dictionary.longest_from(first);
        for count in (2..=longest).rev() {
            if let Some(phrase) = self.phrase(count)
                && let Some(reading) = self.dictionary.word(&phrase)
            {
                return Some((reading, count));
            }
        }
        self.dictionary.word(first).map(|reading| (reading, 1))
    }

    fn phrase(&self, count: usize) -> Option<String> {
        let words = self.tokens.get(self.at..self.at + count)?;
        if words.iter().any(|token| token.kind != TokenKind::Word) {
            return None;
        }
        let texts: Vec<&str> = words.iter().map(|token| self.text(token)).collect();
        Some(texts.join(" ").to_lowercase())
    }

    /// Skips the words of one meaning; whether there were any.
    pub(super) fn skip(&mut self, wanted: AmountWord) -> bool {
        match self.reading() {
            Some((reading, count)) if reading == wanted => {
                self.at += count;
                true
            }
            _ => false,
        }
    }

    /// A number: `2`, `1/2`, `1 1/2`, `1½`, `1-1/2`, `1 and 1/2`, `two`, `half a`, `2 dozen`.
    pub(super) fn number(&mut self) -> Result<Option<Number>, LineError> {
        let Some(token) = self.peek() else { return Ok(None) };
        match token.kind {
            TokenKind::TooLarge => Err(self.fault(LineFault::TooLarge, token.span.clone())),
            TokenKind::Fraction(value) => {
                self.at += 1;
                self.skip_article(value);
                Ok(Some(value))
            }
            TokenKind::Number(value) => {
                if let Some(fraction) = self.slash_fraction()? {
                    self.skip_article(fraction);
                    return Ok(Some(fraction));
                }
                self.at += 1;
                let mixed = value + self.broken_part(value)?;
                Ok(Some(self.dozens(mixed)))
            }
            TokenKind::Word | TokenKind::Sign(_) => self.number_in_words(),
            _ => Ok(None),
        }
    }

    /// `½ a lemon`
    fn skip_article(&mut self, number: Number) {
        let one = AmountWord::Number(Number::from_integer(1));
        if number < Number::from_integer(1) && self.reading() == Some((one, 1)) {
            self.at += 1;
        }
    }

    /// `1/2` at the cursor; `80/20` is no fraction.
    fn slash_fraction(&mut self) -> Result<Option<Number>, LineError> {
        let [first, slash, second] = self.tokens.get(self.at..self.at + 3).unwrap_or_default() else {
            return Ok(None);
        };
        let (TokenKind::Number(over), TokenKind::Slash, TokenKind::Number(under)) =
            (first.kind, slash.kind, second.kind)
        else {
            return Ok(None);
        };
        let blend = over >= under && under >= Number::from_integer(10);
        if !over.is_integer() || !under.is_integer() || blend || under > Number::from_integer(LARGEST_DENOMINATOR) {
            return Ok(None);
        }
        if *under.numer() == 0 {
            return Err(self.fault(LineFault::ZeroDenominator, first.span.start..second.span.end));
        }
        self.at += 3;
        Ok(Some(over / under))
    }

    /// The fraction after a whole number; nothing where none follows.
    fn broken_part(&mut self, whole: Number) -> Result<Number, LineError> {
        let zero = Number::from_integer(0);
        if !whole.is_integer() {
            return Ok(zero);
        }
        let mut ahead = *self;
        let joined =
            ahead.skip_kind(TokenKind::Dash) || ahead.skip(AmountWord::Plus) || ahead.skip_kind(TokenKind::Sign('&'));
        let fraction = match ahead.peek_kind(0) {
            Some(TokenKind::Fraction(value)) => {
                ahead.at += 1;
                Some(value)
            }
            Some(TokenKind::Number(_)) => ahead.slash_fraction()?,
            Some(TokenKind::Word) if joined => ahead.number_word(),
            _ => None,
        };
        match fraction {
            // `1-1/2` is one and a half; `1/2-3/4` never comes here, since its first number is no whole one.
            Some(value) if value < Number::from_integer(1) && (!joined || whole > zero) => {
                self.at = ahead.at;
                Ok(value)
            }
            _ => Ok(zero),
        }
    }

    fn dozens(&mut self, number: Number) -> Number {
        match self.word() {
            Some(word) if self.phrases.is_dozen(word) => {
                self.at += 1;
                number * 12
            }
            _ => number,
        }
    }

    /// `two`, `one and a half`, `three quarters of a`.
    fn number_in_words(&mut self) -> Result<Option<Number>, LineError> {
        let Some(number) = self.number_word() else { return Ok(None) };
        let number = number + self.broken_part(number)?;
        if !number.is_integer() {
            let mut ahead = *self;
            let of = ahead.skip(AmountWord::Of);
            let one = ahead.skip(AmountWord::Number(Number::from_integer(1)));
            if of && one && matches!(ahead.reading(), Some((AmountWord::Unit(..), _))) {
                *self = ahead;
            }
        }
        Ok(Some(number))
    }

    /// A number word, unless it starts a name (`half and half`) or is glued to more (`five-spice` is one word).
    fn number_word(&mut self) -> Option<Number> {
        let (AmountWord::Number(number), count) = self.reading()? else { return None };
        let after = self.tokens.get(self.at + count).filter(|t| t.kind == TokenKind::Word).map(|t| self.text(t));
        let numbered = self.tokens.get(self.at + count).is_some_and(|t| matches!(t.kind, TokenKind::Close));
        if (*number.denom() == 2
            && number.numer() == &1
            && after.is_some_and(|word| self.dictionary.times().and.iter().any(|and| and == word)))
            || numbered
        {
            return None;
        }
        self.at += count;
        Some(self.dozens(number))
    }
}
