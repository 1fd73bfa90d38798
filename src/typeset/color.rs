//! The accent colour and the greys beside it.

use std::str::FromStr;

use super::TypesetError;
use crate::text::colour;

/// A colour in sRGB, each channel 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rgb {
    /// Red, 0 to 1.
    pub red: f32,
    /// Green, 0 to 1.
    pub green: f32,
    /// Blue, 0 to 1.
    pub blue: f32,
}

impl Rgb {
    /// The ink of running text.
    pub const BLACK: Self = Self::grey(0.0);

    /// Text that steps back: measures of time, column headings, the page foot. Contrast on white is 7 to 1 or more.
    pub(crate) const QUIET: Self = Self::grey(0.33);

    /// A grey of one lightness, 0 (black) to 1.
    pub const fn grey(lightness: f32) -> Self {
        Self { red: lightness, green: lightness, blue: lightness }
    }

    /// This colour mixed with white: `share` 1 keeps it, 0 gives white.
    pub(crate) fn tint(self, share: f32) -> Self {
        let mix = |channel: f32| 1.0 - (1.0 - channel) * share;
        Self { red: mix(self.red), green: mix(self.green), blue: mix(self.blue) }
    }
}

impl FromStr for Rgb {
    type Err = TypesetError;

    /// Reads `#rrggbb`.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let [red, green, blue] = colour(text)
            .ok_or_else(|| TypesetError::UnreadableColour(text.to_owned()))?
            .map(|channel| f32::from(channel) / 255.0);
        Ok(Self { red, green, blue })
    }
}
