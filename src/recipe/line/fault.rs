use crate::source::Span;

/// Why a line cannot be read, and which part of it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{fault}")]
pub struct LineError {
    /// What is wrong.
    pub fault: LineFault,
    /// Bytes of the line.
    pub span: Span,
}

/// What can be wrong with a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LineFault {
    /// Nothing is written.
    #[error("the line is empty")]
    Empty,
    /// An amount without an ingredient.
    #[error("no ingredient is named")]
    NoName,
    /// `1/0`.
    #[error("nothing can be divided by zero")]
    ZeroDenominator,
    /// A number no kitchen needs.
    #[error("the number is too large")]
    TooLarge,
    /// An amount of nothing.
    #[error("the amount is zero")]
    Zero,
    /// `−1 g`.
    #[error("the amount is below zero")]
    Negative,
    /// `1 2 cups`.
    #[error("two numbers stand beside each other")]
    TwoNumbers,
    /// More than a line holds.
    #[error("the line is too long")]
    TooLong,
}

impl LineFault {
    /// How to mend it.
    pub fn help(self) -> &'static str {
        match self {
            LineFault::Empty => "write an amount and a name, or remove the line",
            LineFault::NoName => "write what it is an amount of: `200 g plain flour`",
            LineFault::ZeroDenominator => "write the fraction with a number from 2 up under the bar",
            LineFault::TooLarge => "check the digits; a thousand is `1,000` or `1000`",
            LineFault::Zero | LineFault::Negative => "write how much, or remove the line",
            LineFault::TwoNumbers => "join them (`1 1/2`), make a range (`1–2`), or put the second measure in brackets",
            LineFault::TooLong => "move the story into a step",
        }
    }
}
