use std::fmt::Write;

use serde::Serialize;

use crate::sheet::Sheet;

/// Number of tints in the style sheet, `--tint-0` and on.
const TINTS: usize = 8;

/// A drawing of a recipe as layers, the first component at the bottom, each as thick as its share of the mass.
///
/// All coordinates are whole numbers in the drawing's own units, so that it is the same on every machine.
#[derive(Debug, Serialize)]
pub(super) struct Cover {
    pub(super) width: u32,
    pub(super) height: u32,
    /// From the top down, the order of drawing: each reaches to the foot, and the next one covers it from its own top.
    pub(super) layers: Vec<Layer>,
}

/// One component's layer.
#[derive(Debug, Serialize)]
pub(super) struct Layer {
    pub(super) name: String,
    /// Anchor of the component.
    pub(super) slug: String,
    /// Number of the component.
    pub(super) number: usize,
    pub(super) mass: Option<String>,
    pub(super) share: u32,
    /// Index of its tint in the style sheet.
    pub(super) tint: usize,
    /// Outline as SVG path data.
    pub(super) path: String,
    /// Its upper edge alone.
    pub(super) edge: String,
}

impl Cover {
    /// Draws a recipe; `None` where no ingredient has a weight.
    pub(super) fn draw(sheet: &Sheet, width: u32, height: u32) -> Option<Self> {
        let masses: Vec<u64> =
            sheet.components.iter().map(|c| c.lines.iter().map(|line| line.milligrams).sum()).collect();
        let total: u64 = masses.iter().sum();
        if total == 0 {
            return None;
        }
        let first_tint = sheet.slug.bytes().map(usize::from).sum::<usize>() % TINTS;
        // A little air above, so that the top edge is seen.
        let air = height / 12;
        let mut below = 0;
        let mut layers = Vec::new();
        for (component, mass) in sheet.components.iter().zip(masses).filter(|(_, mass)| *mass > 0) {
            let foot = level(below, total, height, air);
            below += mass;
            let top = level(below, total, height, air);
            let edge = wave(top, foot.saturating_sub(top), width, component.number);
            layers.push(Layer {
                name: component.name.clone(),
                slug: component.slug.clone(),
                number: component.number,
                mass: component.mass.clone(),
                share: component.share,
                tint: (first_tint + layers.len()) % TINTS,
                path: format!("{edge}V{height}H0Z"),
                edge,
            });
        }
        layers.reverse();
        Some(Self { width, height, layers })
    }
}

/// Height above which `below` of `total` lies, counted from the top as SVG does.
fn level(below: u64, total: u64, height: u32, air: u32) -> u32 {
    let filled = u128::from(height - air) * u128::from(below) / u128::from(total);
    height - u32::try_from(filled).expect("a share of the height is no more than the height")
}

/// A line across at `top` that rises and falls like still water, by less in a thin layer.
fn wave(top: u32, thickness: u32, width: u32, number: usize) -> String {
    let half = width.div_ceil(4).max(1);
    let rise = i64::from((thickness / 3).min(width / 48));
    let rise = if number.is_multiple_of(2) { rise } else { -rise };
    let mut path = format!("M0,{top}q{},{rise} {half},0", half / 2);
    let mut reached = half;
    while reached < width {
        write!(path, "t{half},0").expect("writing to a string cannot fail");
        reached += half;
    }
    path
}

#[cfg(test)]
mod tests {
    use super::{level, wave};

    #[test]
    fn levels_fill_the_height_but_the_air() {
        assert_eq!(level(0, 10, 120, 10), 120);
        assert_eq!(level(5, 10, 120, 10), 65);
        assert_eq!(level(10, 10, 120, 10), 10);
        assert_eq!(level(u64::MAX, u64::MAX, 120, 10), 10);
    }

    #[test]
    fn a_wave_spans_the_width() {
        assert_eq!(wave(40, 30, 96, 2), "M0,40q12,2 24,0t24,0t24,0t24,0");
        assert_eq!(wave(40, 0, 2, 1), "M0,40q0,0 1,0t1,0");
    }
}
