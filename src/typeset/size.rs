//! Card sizes and the page geometry that follows from them.

use std::str::FromStr;

use super::TypesetError;

/// Points in a millimetre.
pub(crate) const MM: f32 = 72.0 / 25.4;

/// A card or paper size. All are set upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CardSize {
    /// Index card, 4 by 6 inches.
    In4x6,
    /// Index card, 5 by 8 inches.
    In5x8,
    /// ISO 216 A6, 105 by 148 mm.
    A6,
    /// ISO 216 A5, 148 by 210 mm.
    A5,
    /// Half of US Letter, 5.5 by 8.5 inches.
    HalfLetter,
    /// US Letter, 8.5 by 11 inches.
    Letter,
    /// ISO 216 A4, 210 by 297 mm.
    A4,
}

impl CardSize {
    /// Every size, smallest name first, as the command line lists them.
    pub const ALL: [Self; 7] = [Self::In4x6, Self::In5x8, Self::A6, Self::A5, Self::HalfLetter, Self::Letter, Self::A4];

    /// The name a user types: `4x6`, `a5`, `half-letter`.
    pub fn name(self) -> &'static str {
        match self {
            Self::In4x6 => "4x6",
            Self::In5x8 => "5x8",
            Self::A6 => "a6",
            Self::A5 => "a5",
            Self::HalfLetter => "half-letter",
            Self::Letter => "letter",
            Self::A4 => "a4",
        }
    }

    /// Width and height in points (1/72 inch).
    pub fn points(self) -> (f32, f32) {
        match self {
            Self::In4x6 => (288.0, 432.0),
            Self::In5x8 => (360.0, 576.0),
            Self::A6 => (105.0 * MM, 148.0 * MM),
            Self::A5 => (148.0 * MM, 210.0 * MM),
            Self::HalfLetter => (396.0, 612.0),
            Self::Letter => (612.0, 792.0),
            Self::A4 => (210.0 * MM, 297.0 * MM),
        }
    }

    /// Whether ingredients and method stand side by side.
    pub(crate) fn two_columns(self) -> bool {
        matches!(self, Self::Letter | Self::A4)
    }

    /// Side margin in points; top and bottom margins are the same.
    pub(crate) fn margin(self) -> f32 {
        match self {
            Self::In4x6 | Self::A6 => 7.0 * MM,
            Self::In5x8 => 9.5 * MM,
            Self::A5 | Self::HalfLetter => 11.5 * MM,
            Self::Letter | Self::A4 => 18.0 * MM,
        }
    }
}

impl FromStr for CardSize {
    type Err = TypesetError;

    /// Reads a size by its name, in upper or lower case.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let wanted = text.trim().to_ascii_lowercase();
        Self::ALL
            .into_iter()
            .find(|size| size.name() == wanted)
            .ok_or_else(|| TypesetError::UnknownSize(text.to_owned()))
    }
}
