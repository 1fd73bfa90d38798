use serde::Serialize;

use crate::language::Language;
use crate::measure::Duration;
use crate::sheet::{Length, Sheet, SheetComponent, SheetStep};

/// Width of the drawing, in its own units.
const WIDTH: u64 = 1000;

/// A drawing of a recipe's time: a row a component, each step where it stands on the shortest way through.
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
    in_the_oven: Option<String>,
    waiting: Option<String>,
    /// When it begins and ends after the start, for reading.
    from: String,
    to: String,
    blocks: Vec<TimetableBlock>,
}

/// A stretch of time, with its place from the left and its width in the drawing's units.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
struct TimetableBlock {
    /// `hands-on`, `in-the-oven` or `waiting`.
    kind: &'static str,
    x: u64,
    width: u64,
}

/// A kind of time, when it begins and how long it is, in seconds.
type TimeStretch = (&'static str, u64, u64);

impl Timetable {
    /// Draws a recipe; `None` where no step takes a stated time.
    pub(super) fn draw(sheet: &Sheet, language: &Language) -> Option<Self> {
        let end = |(_, from, seconds): TimeStretch| from.saturating_add(seconds);
        let total = sheet.components.iter().flat_map(stretches).map(end).max().filter(|total| *total > 0)?;
        let row = |component: &SheetComponent| {
            let of = |wanted: &str| -> Option<String> {
                let own = stretches(component).filter(|(kind, ..)| *kind == wanted);
                let seconds: u64 = own.map(|(.., seconds)| seconds).sum();
                (seconds > 0).then(|| language.duration(Duration::seconds(seconds)))
            };
            TimetableRow {
                name: component.name.clone(),
                slug: component.slug.clone(),
                hands_on: of("hands-on"),
                in_the_oven: of("in-the-oven"),
                waiting: of("waiting"),
                from: moment(stretches(component).map(|(_, from, _)| from).min().unwrap_or(0), language),
                to: moment(stretches(component).map(end).max().unwrap_or(0), language),
                blocks: stretches(component).map(|stretch| block(stretch, total)).collect(),
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

/// The stretches of a component, in the order of its steps.
fn stretches(component: &SheetComponent) -> impl Iterator<Item = TimeStretch> {
    let seconds = |length: &Option<Length>| length.as_ref().map_or(0, |length| length.seconds);
    let of_step = move |step: &SheetStep| {
        let kind = if step.oven.is_some() { "in-the-oven" } else { "hands-on" };
        let time = seconds(&step.time);
        [(kind, step.starts, time), ("waiting", step.starts.saturating_add(time), seconds(&step.wait))]
    };
    component.steps.iter().flat_map(of_step).filter(|(.., seconds)| *seconds > 0)
}

/// A stretch as it is drawn. However short, it can be seen.
fn block((kind, from, seconds): TimeStretch, total: u64) -> TimetableBlock {
    const LEAST: u64 = 3;
    let place = |seconds: u64| {
        let place = u128::from(seconds.min(total)) * u128::from(WIDTH) / u128::from(total);
        u64::try_from(place).expect("a part of the width is no more than the width")
    };
    let x = place(from).min(WIDTH - LEAST);
    TimetableBlock { kind, x, width: place(from.saturating_add(seconds)).saturating_sub(x).max(LEAST) }
}

#[cfg(test)]
mod tests {
    use super::{TimetableBlock, block};

    #[test]
    fn blocks_stand_where_their_time_is() {
        let case = |stretch: super::TimeStretch, x, width| {
            let (kind, ..) = stretch;
            assert_eq!(block(stretch, 3600), TimetableBlock { kind, x, width });
        };
        case(("hands-on", 0, 900), 0, 250);
        case(("waiting", 900, 2700), 250, 750);
        case(("in-the-oven", 3599, 1), 997, 3);
    }
}
