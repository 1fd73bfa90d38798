//! What it finds: timestamps that the video host takes for no chapters.
//!
//! Why it matters: one bad stamp, and all chapters are gone.
//!
//! Example: `at: "0:12"` as the first of all
//!
//! Instead: `at: "0:00"` first, three or more, each later than the one before by ten seconds, all inside the length
//!
//! Source: the video host's help page, as quoted in public notes.

use crate::proof::Context;
use crate::source::{Finding, Span};

/// Shorter chapters are refused. Source: as above.
const SHORTEST: u32 = 10;

/// Fewer chapters are not shown. Source: as above.
const FEWEST: usize = 3;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let marks = marks(context);
    let Some((first_place, first)) = marks.first() else { return Vec::new() };
    let mut findings = Vec::new();
    let Some(video) = &context.recipe.video else {
        let found = Finding::at(first_place.clone(), "a timestamp, and no video");
        return vec![found.help("add `video: {url: ..., length: ...}`, or take the timestamps out")];
    };
    if *first != 0 {
        let message = format!("the first chapter starts at {}, not at 0:00", stamp(*first));
        findings.push(Finding::at(first_place.clone(), message).help("give the first step `at: \"0:00\"`"));
    }
    if marks.len() < FEWEST {
        let message = format!("{} timestamps make no chapters", marks.len());
        findings.push(Finding::at(first_place.clone(), message).help("give three steps or more an `at`, or none"));
    }
    for two in marks.windows(2) {
        let ((before, earlier), (place, later)) = (&two[0], &two[1]);
        let message = match later.checked_sub(*earlier) {
            Some(seconds) if seconds >= SHORTEST => continue,
            Some(0) => format!("two chapters start at {}", stamp(*later)),
            Some(seconds) => format!("the chapter before lasts {seconds} seconds"),
            None => format!("{} comes after {}", stamp(*later), stamp(*earlier)),
        };
        let found = Finding::at(place.clone(), message).other(before.clone(), "the chapter before");
        findings.push(found.help("chapters follow each other and last ten seconds or more"));
    }
    findings.extend(video.length.and_then(|length| beyond(&marks, length)));
    findings
}

fn beyond(marks: &[(Span, u32)], length: u32) -> Option<Finding> {
    let (place, last) = marks.iter().find(|(_, at)| at + SHORTEST > length)?;
    let message = match last.checked_sub(length) {
        Some(_) => format!("{} is beyond the video's end at {}", stamp(*last), stamp(length)),
        None => format!("{} is less than ten seconds before the video's end at {}", stamp(*last), stamp(length)),
    };
    Some(Finding::at(place.clone(), message).help("check the timestamp and the video's `length`"))
}

/// The timestamps in the order of the file.
fn marks(context: &Context<'_>) -> Vec<(Span, u32)> {
    let root = context.recipe.root.key("components");
    let mut marks = Vec::new();
    for (at, component) in context.recipe.components.iter().enumerate() {
        for (index, step) in component.steps.iter().enumerate() {
            let place = root.item(at).key("steps").item(index).key("at").span.clone();
            marks.extend(step.at.map(|seconds| (place, seconds)));
        }
    }
    marks
}

fn stamp(seconds: u32) -> String {
    match seconds / 3600 {
        0 => format!("{}:{:02}", seconds / 60, seconds % 60),
        hours => format!("{hours}:{:02}:{:02}", seconds % 3600 / 60, seconds % 60),
    }
}
