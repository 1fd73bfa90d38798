//! Card sizes and the page geometry that follows from them.

use std::str::FromStr;

use super::TypesetError;

/// Points in a millimetre.
pub(crate) const MM: f32 = 72.0 / 25.4;

/// A card or paper size. All are set upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CardSize {
    /// Index card, 4 by 6 inches.
    In4x6,
    /// Index card, 5 by 8 inches.
    In5x8,
    /// ISO 216 A6, 105 by 148 mm.
    A6,
    /// ISO 216 A5, 148 by 210 mm.
    #[default]
    A5,
    /// Half of US Letter, 5.5 by 8.5 inches.
    HalfLetter,
    /// US Letter, 8.5 by 11 inches.
    Letter,
    /// ISO 216 A4, 210 by 297 mm.
    A4,
}

/// What there is to know of a size.
struct Measures {
    size: CardSize,
    /// What a user types.
    name: &'static str,
    /// Width and height in points.
    points: (f32, f32),
    /// Margin on every side, in millimetres.
    margin: f32,
    /// Whether ingredients and method stand side by side.
    two_columns: bool,
}

/// The sizes, smallest name first, as the command line lists them. A new one is a row here and a name above.
const SIZES: [Measures; 7] = [
    row(CardSize::In4x6, "4x6", (288.0, 432.0), 7.0, false),
    row(CardSize::In5x8, "5x8", (360.0, 576.0), 9.5, false),
    row(CardSize::A6, "a6", (105.0 * MM, 148.0 * MM), 7.0, false),
    row(CardSize::A5, "a5", (148.0 * MM, 210.0 * MM), 11.5, false),
    row(CardSize::HalfLetter, "half-letter", (396.0, 612.0), 11.5, false),
    row(CardSize::Letter, "letter", (612.0, 792.0), 18.0, true),
    row(CardSize::A4, "a4", (210.0 * MM, 297.0 * MM), 18.0, true),
];

const fn row(size: CardSize, name: &'static str, points: (f32, f32), margin: f32, two_columns: bool) -> Measures {
    Measures { size, name, points, margin, two_columns }
}

impl CardSize {
    /// Every size, in the order of the command line.
    pub fn all() -> impl Iterator<Item = Self> {
        SIZES.iter().map(|row| row.size)
    }

    /// The names of all sizes, as a list in a sentence.
    pub fn names() -> String {
        let names: Vec<&str> = SIZES.iter().map(|row| row.name).collect();
        let (last, others) = names.split_last().unwrap_or((&"", &[]));
        format!("{} or {last}", others.join(", "))
    }

    fn measures(self) -> &'static Measures {
        SIZES.iter().find(|row| row.size == self).unwrap_or(&SIZES[0])
    }

    /// The name a user types: `4x6`, `a5`, `half-letter`.
    pub fn name(self) -> &'static str {
        self.measures().name
    }

    /// Width and height in points (1/72 inch).
    pub fn points(self) -> (f32, f32) {
        self.measures().points
    }

    /// Whether ingredients and method stand side by side.
    pub(crate) fn two_columns(self) -> bool {
        self.measures().two_columns
    }

    /// Side margin in points; top and bottom margins are the same.
    pub(crate) fn margin(self) -> f32 {
        self.measures().margin * MM
    }
}

impl FromStr for CardSize {
    type Err = TypesetError;

    /// Reads a size by its name, in upper or lower case.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let wanted = text.trim().to_ascii_lowercase();
        Self::all().find(|size| size.name() == wanted).ok_or_else(|| TypesetError::UnknownSize(text.to_owned()))
    }
}
