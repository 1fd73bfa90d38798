use std::cmp::Reverse;
use std::fmt::Write;

use serde::{Deserialize, Serialize};

use super::colour::Colour;
use super::tints::{Tint, mixed};
use crate::pantry::Pantry;
use crate::sheet::{Sheet, SheetComponent, SheetLine};

/// Ingredients drawn one by one where there is a single component; the others are one layer together.
const INGREDIENTS: usize = 5;

/// `--edge` and `--pale-edge` of the style sheet on a light page.
pub(super) const EDGE: Colour = Colour::new(0x4a, 0x5a, 0x61);
pub(super) const PALE_EDGE: Colour = Colour::new(0xfb, 0xfc, 0xfc);

/// A drawing of a recipe as layers, each as thick as its share of the mass and of the colour of what is in it.
///
/// All coordinates are whole numbers in the drawing's own units, so that it is the same on every machine.
#[derive(Debug, Serialize)]
pub(super) struct Cover {
    pub(super) width: u32,
    pub(super) height: u32,
    /// From the top down, the order of drawing: each reaches to the foot, and the next one covers it from its own top.
    pub(super) layers: Vec<Layer>,
}

/// One layer: a component, or an ingredient where there is a single component.
#[derive(Debug, Serialize)]
pub(super) struct Layer {
    /// `None` for the lesser ingredients together.
    pub(super) name: Option<String>,
    /// Anchor of the component.
    pub(super) slug: String,
    /// Share of the recipe's mass in per cent, rounded.
    pub(super) share: u64,
    /// Its colour on a light page, `#rrggbb`; the style sheet darkens it in the dark.
    pub(super) tint: String,
    /// Whether its edge is seen better as a pale line than as a dark one.
    pub(super) pale_edge: bool,
    /// Outline as SVG path data.
    pub(super) path: String,
    /// Its upper edge alone.
    pub(super) edge: String,
}

/// What a layer stands for, before it is drawn.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub(super) struct CoverPart {
    /// `None` for the lesser ingredients together.
    name: Option<String>,
    slug: String,
    milligrams: u64,
    colour: Colour,
}

impl Cover {
    /// Draws parts, the first at the bottom; `None` where there is none.
    pub(super) fn draw(parts: &[CoverPart], width: u32, height: u32) -> Option<Self> {
        let total = parts.iter().map(|part| part.milligrams).fold(0, u64::saturating_add);
        // A little air above, so that the top edge is seen.
        let air = height / 12;
        let mut below = 0;
        let mut layers = Vec::new();
        for (turn, part) in parts.iter().enumerate() {
            let foot = level(below, total, height, air);
            below = u64::saturating_add(below, part.milligrams);
            let top = level(below, total, height, air);
            let edge = wave(top, foot.saturating_sub(top), width, turn);
            layers.push(Layer {
                name: part.name.clone(),
                slug: part.slug.clone(),
                share: percent(part.milligrams, total),
                tint: part.colour.hex(),
                pale_edge: part.colour.contrast(PALE_EDGE) > part.colour.contrast(EDGE),
                path: format!("{edge}V{height}H0Z"),
                edge,
            });
        }
        layers.reverse();
        (!layers.is_empty()).then_some(Self { width, height, layers })
    }
}

impl CoverPart {
    /// What has a weight, from the bottom up: the components, the ingredients where there is a single component.
    pub(super) fn of(sheet: &Sheet, pantry: &Pantry) -> Vec<Self> {
        let weighed = |component: &&SheetComponent| component.lines.iter().any(|line| line.milligrams > 0);
        let components: Vec<&SheetComponent> = sheet.components.iter().filter(weighed).collect();
        match components[..] {
            [only] => of_ingredients(only, pantry),
            _ => components.into_iter().map(|component| of_component(component, pantry)).collect(),
        }
    }
}

fn of_component(component: &SheetComponent, pantry: &Pantry) -> CoverPart {
    part(Some(&component.name), component, &component.lines.iter().collect::<Vec<_>>(), pantry)
}

/// The ingredients of a component, the heaviest at the bottom, the lesser ones together on top.
fn of_ingredients(component: &SheetComponent, pantry: &Pantry) -> Vec<CoverPart> {
    let mut lines: Vec<&SheetLine> = component.lines.iter().filter(|line| line.milligrams > 0).collect();
    lines.sort_by_key(|line| Reverse(line.milligrams));
    let rest = if lines.len() > INGREDIENTS + 1 { lines.split_off(INGREDIENTS) } else { Vec::new() };
    let alone = lines.iter().map(|line| part(Some(&line.name), component, &[line], pantry));
    alone.chain((!rest.is_empty()).then(|| part(None, component, &rest, pantry))).collect()
}

/// What stands for some lines of a component.
fn part(name: Option<&str>, component: &SheetComponent, lines: &[&SheetLine], pantry: &Pantry) -> CoverPart {
    let tinted = |line: &&SheetLine| (Tint::of(pantry, line.ingredient.as_deref()), line.milligrams);
    CoverPart {
        name: name.map(str::to_owned),
        slug: component.slug.clone(),
        milligrams: lines.iter().map(|line| line.milligrams).fold(0, u64::saturating_add),
        colour: mixed(&lines.iter().map(tinted).collect::<Vec<_>>()),
    }
}

fn percent(part: u64, total: u64) -> u64 {
    let (part, total) = (u128::from(part), u128::from(total));
    u64::try_from((part * 200 + total) / (total * 2)).expect("a part is no more than the total")
}

/// Height above which `below` of `total` lies, counted from the top as SVG does.
fn level(below: u64, total: u64, height: u32, air: u32) -> u32 {
    let filled = u128::from(height - air) * u128::from(below) / u128::from(total);
    height - u32::try_from(filled).expect("a share of the height is no more than the height")
}

/// A line across at `top` that rises and falls like still water, by less in a thin layer.
fn wave(top: u32, thickness: u32, width: u32, turn: usize) -> String {
    let half = width.div_ceil(4).max(1);
    let rise = i64::from((thickness / 3).min(width / 48));
    let rise = if turn.is_multiple_of(2) { rise } else { -rise };
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
    use super::{level, percent, wave};

    #[test]
    fn levels_fill_the_height_but_the_air() {
        assert_eq!(level(0, 10, 120, 10), 120);
        assert_eq!(level(5, 10, 120, 10), 65);
        assert_eq!(level(10, 10, 120, 10), 10);
        assert_eq!(level(u64::MAX, u64::MAX, 120, 10), 10);
    }

    #[test]
    fn shares_are_rounded_per_cents() {
        assert_eq!(percent(1, 3), 33);
        assert_eq!(percent(2, 3), 67);
        assert_eq!(percent(1, 200), 1);
        assert_eq!(percent(u64::MAX, u64::MAX), 100);
    }

    #[test]
    fn a_wave_spans_the_width() {
        assert_eq!(wave(40, 30, 96, 2), "M0,40q12,2 24,0t24,0t24,0t24,0");
        assert_eq!(wave(40, 0, 2, 1), "M0,40q0,0 1,0t1,0");
    }
}
