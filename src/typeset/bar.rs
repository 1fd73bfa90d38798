//! A slim bar divided by shares of a whole, with its legend.
//!
//! In Markdown it is a fenced block named `shares`, which is plain text everywhere else: a line a share, a whole number
//! and then the legend's words. What follows `shares` on the fence says what the shares are of.

use super::blocks::Bar;
use super::color::Rgb;
use super::linebreak::Justification;
use super::placed::{Item, Owner, Placed};
use super::strips::{Look, Strip, StripStyle, set_gap};

/// The words after `shares` on the fence; `None` for a fence of another name.
pub(crate) fn what(fence: &str) -> Option<&str> {
    let rest = fence.trim().strip_prefix("shares")?;
    (rest.is_empty() || rest.starts_with(' ')).then(|| rest.trim())
}

/// The shares that a block lists, with their words; `None` unless each line is one. Shares of nothing are left out.
pub(crate) fn shares(text: &str) -> Option<Vec<(u32, String)>> {
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    let share = |line: &str| {
        let (part, words) = line.split_once(' ')?;
        Some((part.parse().ok()?, words.trim().to_owned()))
    };
    let shares: Option<Vec<(u32, String)>> = lines.map(share).collect();
    Some(shares?.into_iter().filter(|(part, _)| *part > 0).collect())
}

/// Space between the parts of a bar, in points.
const PARTING: f32 = 0.9;

/// Room for a square of colour in the legend, and for what parts two entries, in ems.
const SQUARE: f32 = 0.85;
const PARTED: f32 = 1.3;

impl StripStyle<'_> {
    /// The bar, and below it the legend in as many rows as it takes; kept together.
    pub(crate) fn bar(&self, bar: &Bar, x: f32, width: f32) -> Vec<Strip> {
        let owner = Owner::Content(bar.owner);
        let thickness = self.size * 0.42;
        let colors = self.tints(bar.shares.len());
        let sum: f32 = bar.shares.iter().map(|share| share.part).sum();
        let room = (width - PARTING * (bar.shares.len() - 1) as f32).max(width * 0.5);
        let mut left = x;
        let mut items = Vec::with_capacity(bar.shares.len());
        for (share, &color) in bar.shares.iter().zip(&colors) {
            let part = room * share.part / sum;
            let item = Item::Rule { width: part, thickness, color };
            items.push(Placed { x: left, y: thickness / 2.0, owner, item });
            left += part + PARTING;
        }
        let mut strips = vec![Strip { height: thickness, items, ..Strip::default() }];
        strips.append(&mut self.legend(bar, &colors, x, width));
        set_gap(&mut strips, self.size * 0.7);
        let others = strips.len() - 1;
        strips.iter_mut().take(others).for_each(|strip| strip.keep = true);
        strips
    }

    /// From the accent to a light tint of it, so that neighbours differ in black and white too.
    fn tints(&self, count: usize) -> Vec<Rgb> {
        let last = (count.max(2) - 1) as f32;
        (0..count).map(|index| self.accent.tint(1.0 - 0.78 * index as f32 / last)).collect()
    }

    fn legend(&self, bar: &Bar, colors: &[Rgb], x: f32, width: f32) -> Vec<Strip> {
        let size = self.size * 0.82;
        let look = Look { size, leading: size * 1.3, color: Rgb::QUIET, fill: Justification::Ragged };
        let row = || Strip { height: look.leading, ..Strip::default() };
        let mut rows = vec![Strip { gap: self.size * 0.22, ..row() }];
        let mut left = x;
        for (share, &color) in bar.shares.iter().zip(colors) {
            let natural = size * SQUARE + share.label.natural_width() * size / 1000.0;
            if left > x && left + natural > x + width {
                rows.push(row());
                left = x;
            }
            let square = Item::Rule { width: size * 0.52, thickness: size * 0.52, color };
            let square = Placed { x: left, y: look.leading * 0.5, owner: Owner::Content(bar.owner), item: square };
            for (index, line) in self.lines(&share.label, look, width - size * SQUARE).iter().enumerate() {
                if index > 0 {
                    rows.push(row());
                }
                if let Some(row) = rows.last_mut() {
                    row.items.extend((index == 0).then(|| square.clone()));
                    row.items.extend(self.line(line, look, left + size * SQUARE, 0.0));
                }
            }
            left += natural + size * PARTED;
        }
        rows
    }
}

#[cfg(test)]
mod tests {
    use super::{shares, what};

    #[test]
    fn shares_are_read_and_nothing_else() {
        let two = vec![(26, "Rye pastry".to_owned()), (74, "Pears 74 %".to_owned())];
        assert_eq!(shares("26 Rye pastry\n 74  Pears 74 %\n\n0 To finish"), Some(two));
        assert_eq!(shares(""), Some(vec![]));
        for text in ["26 Rye\nPears", "26\n74", "-1 a\n2 b", "1.5 a\n2 b"] {
            assert_eq!(shares(text), None, "{text}");
        }
        assert_eq!(what("shares Shares of the mass"), Some("Shares of the mass"));
        assert_eq!((what("shares"), what("sharesof"), what("rust")), (Some(""), None, None));
    }
}
