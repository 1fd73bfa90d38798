use serde::Serialize;

use crate::language::Language;
use crate::measure::Duration;
use crate::sheet::{Length, Sheet, SheetComponent};

/// Width of the drawing, in its own units.
const WIDTH: u64 = 1000;

/// A drawing of a recipe's time: a row a component, one after the other as they are made.
#[derive(Debug, Serialize)]
pub(super) struct Timetable {
    width: u64,
    rows: Vec<TimetableRow>,
    /// All of its time, for reading.
    total: String,
}

#[derive(Debug, Serialize)]
struct TimetableRow {
    name: String,
    /// Anchor of the component.
    slug: String,
    hands_on: Option<String>,
    waiting: Option<String>,
    /// When it begins and ends after the start, for reading.
    from: String,
    to: String,
    blocks: Vec<TimetableBlock>,
}

/// A stretch of time, with its place from the left and its width in the drawing's units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
struct TimetableBlock {
    /// `hands-on` or `waiting`.
    kind: &'static str,
    x: u64,
    width: u64,
}

impl Timetable {
    /// Draws a recipe; `None` where no step takes a stated time.
    pub(super) fn draw(sheet: &Sheet, language: &Language) -> Option<Self> {
        let total: u64 =
            sheet.components.iter().flat_map(stretches).map(|(_, seconds)| seconds).fold(0, u64::saturating_add);
        if total == 0 {
            return None;
        }
        let mut passed = 0;
        let row = |component: &SheetComponent| {
            let sum = |kind| stretches(component).filter(move |(of, _)| *of == kind).map(|(_, seconds)| seconds).sum();
            let text = |seconds: u64| (seconds > 0).then(|| language.duration(Duration::seconds(seconds)));
            let from = moment(passed, language);
            let blocks = stretches(component).map(|stretch| block(stretch, &mut passed, total)).collect();
            let (name, slug) = (component.name.clone(), component.slug.clone());
            let to = moment(passed, language);
            TimetableRow {
                name,
                slug,
                hands_on: text(sum("hands-on")),
                waiting: text(sum("waiting")),
                from,
                to,
                blocks,
            }
        };
        let rows: Vec<TimetableRow> = sheet.components.iter().map(row).filter(|row| !row.blocks.is_empty()).collect();
        Some(Self { width: WIDTH, rows, total: language.duration(Duration::seconds(total)) })
    }
}

/// A time after the start, for reading.
fn moment(seconds: u64, language: &Language) -> String {
    if seconds == 0 { "0 h".into() } else { language.duration(Duration::seconds(seconds)) }
}

/// Kinds and seconds of a component's times, in the order of its steps.
fn stretches(component: &SheetComponent) -> impl Iterator<Item = (&'static str, u64)> {
    let seconds = |length: &Option<Length>| length.as_ref().map_or(0, |length| length.seconds);
    let steps = component.steps.iter();
    steps
        .flat_map(move |step| [("hands-on", seconds(&step.time)), ("waiting", seconds(&step.wait))])
        .filter(|(_, seconds)| *seconds > 0)
}

/// The next block; `passed` are the seconds before it. However short, it can be seen.
fn block((kind, seconds): (&'static str, u64), passed: &mut u64, total: u64) -> TimetableBlock {
    const LEAST: u64 = 3;
    let place = |seconds: u64| {
        let place = u128::from(seconds) * u128::from(WIDTH) / u128::from(total);
        u64::try_from(place).expect("a part of the width is no more than the width")
    };
    let x = place(*passed).min(WIDTH - LEAST);
    *passed = passed.saturating_add(seconds).min(total);
    TimetableBlock { kind, x, width: place(*passed).saturating_sub(x).max(LEAST) }
}

#[cfg(test)]
mod tests {
    use super::{TimetableBlock, block};

    #[test]
    fn blocks_follow_one_another() {
        let mut passed = 0;
        let first = block(("hands-on", 900), &mut passed, 3600);
        let second = block(("waiting", 2700), &mut passed, 3600);
        assert_eq!(first, TimetableBlock { kind: "hands-on", x: 0, width: 250 });
        assert_eq!(second, TimetableBlock { kind: "waiting", x: 250, width: 750 });
        assert_eq!(block(("hands-on", 1), &mut 0, 100_000).width, 3);
    }
}
