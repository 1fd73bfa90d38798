use serde::{Deserialize, Serialize};

use crate::text::colour;

/// A colour of the screen, 8 bits a channel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Colour {
    red: u8,
    green: u8,
    blue: u8,
}

pub(super) const WHITE: Colour = Colour { red: 255, green: 255, blue: 255 };
pub(super) const BLACK: Colour = Colour { red: 0, green: 0, blue: 0 };

impl Colour {
    pub(super) const fn new(red: u8, green: u8, blue: u8) -> Self {
        Self { red, green, blue }
    }

    pub(super) fn red(self) -> u8 {
        self.red
    }

    pub(super) fn green(self) -> u8 {
        self.green
    }

    pub(super) fn blue(self) -> u8 {
        self.blue
    }

    /// Reads `#rrggbb`.
    pub(super) fn parse(text: &str) -> Option<Self> {
        colour(text).map(|[red, green, blue]| Self { red, green, blue })
    }

    pub(super) fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }

    /// The nearest mixture with `pole`, in steps of a hundredth, whose contrast with `ground` is `least` or more.
    pub(super) fn readable_on(self, ground: Self, pole: Self, least: f64) -> Self {
        let mixtures = (0..=100).map(|percent| self.mixed(pole, percent));
        mixtures.into_iter().find(|mixture| mixture.contrast(ground) >= least).unwrap_or(pole)
    }

    fn mixed(self, other: Self, percent: u16) -> Self {
        let channel = |from: u8, to: u8| {
            let sum = u16::from(from) * (100 - percent) + u16::from(to) * percent;
            u8::try_from(sum / 100).expect("a mean of two bytes is a byte")
        };
        Self {
            red: channel(self.red, other.red),
            green: channel(self.green, other.green),
            blue: channel(self.blue, other.blue),
        }
    }

    /// Contrast ratio, 1 to 21. Source: WCAG 2.2, definition of contrast ratio.
    pub(super) fn contrast(self, other: Self) -> f64 {
        let (a, b) = (self.luminance(), other.luminance());
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// Source: WCAG 2.2, definition of relative luminance.
    fn luminance(self) -> f64 {
        let linear = |channel: u8| {
            let c = f64::from(channel) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * linear(self.red) + 0.7152 * linear(self.green) + 0.0722 * linear(self.blue)
    }
}

#[cfg(test)]
mod tests {
    use super::{BLACK, Colour, WHITE};

    /// Source: computed from the definition in WCAG 2.2; #767676 is the lightest grey that passes 4.5 on white.
    #[test]
    fn contrast_is_as_defined() {
        let of = |text: &str| (Colour::parse(text).unwrap().contrast(WHITE) * 1000.0).round();
        assert_eq!(of("#767676"), 4542.0);
        assert_eq!(of("#777777"), 4478.0);
        assert_eq!(of("#000000"), 21000.0);
    }

    #[test]
    fn every_colour_can_be_made_readable() {
        for text in ["#ffff00", "#1f3a4d", "#808080", "#ffffff", "#000000"] {
            let colour = Colour::parse(text).unwrap();
            assert!(colour.readable_on(WHITE, BLACK, 4.5).contrast(WHITE) >= 4.5, "{text}");
            assert!(colour.readable_on(BLACK, WHITE, 4.5).contrast(BLACK) >= 4.5, "{text}");
        }
    }
}
