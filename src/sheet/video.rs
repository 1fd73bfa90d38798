use super::model::{Chapter, SheetVideo};
use super::prose::without_marks;
use crate::language::Language;
use crate::measure::Duration;
use crate::recipe::{Component, Recipe};

/// Chapters shorter than this are refused by the video host. Source: its help page, as quoted in public notes.
const SHORTEST: u32 = 10;

/// The fewest chapters that the host shows. Same source.
const FEWEST: usize = 3;

/// Words of a step that name a chapter.
const WORDS: usize = 6;

/// The recipe's video, with chapters where the steps' timestamps make valid ones.
pub(super) fn video(recipe: &Recipe, language: &Language) -> Option<SheetVideo> {
    let video = recipe.video.as_ref()?;
    let length = video.length.map(|seconds| super::build::length(Duration::seconds(u64::from(seconds)), language));
    let url = video.url.clone();
    Some(SheetVideo { chapters: chapters(recipe, &url, video.length), url, length })
}

/// A time in the video: `2:35`, `1:02:35`.
pub(super) fn stamp(seconds: u32) -> String {
    let (hours, minutes, seconds) = (seconds / 3600, seconds % 3600 / 60, seconds % 60);
    match hours {
        0 => format!("{minutes}:{seconds:02}"),
        _ => format!("{hours}:{minutes:02}:{seconds:02}"),
    }
}

fn chapters(recipe: &Recipe, url: &str, length: Option<u32>) -> Vec<Chapter> {
    let mut marks: Vec<(u32, String)> = recipe.components.iter().flat_map(component_marks).collect();
    marks.sort_by_key(|(at, _)| *at);
    let ends = marks.iter().skip(1).map(|(at, _)| Some(*at)).chain([length]);
    let chapters: Vec<Chapter> = marks
        .iter()
        .zip(ends)
        .map(|((at, name), end)| Chapter {
            seconds: *at,
            end,
            stamp: stamp(*at),
            name: name.clone(),
            url: format!("{url}#t={at}"),
        })
        .collect();
    let long_enough = |chapter: &Chapter| chapter.end.is_none_or(|end| end >= chapter.seconds + SHORTEST);
    let valid = chapters.len() >= FEWEST && chapters[0].seconds == 0 && chapters.iter().all(long_enough);
    if valid { chapters } else { Vec::new() }
}

/// The timestamps of a component; its first bears the component's name, further ones the start of their step.
fn component_marks(component: &Component) -> Vec<(u32, String)> {
    let stamped = component.steps.iter().filter_map(|step| step.at.map(|at| (at, step)));
    let named = |(place, (at, step)): (usize, (u32, &crate::recipe::Step))| match place {
        0 => (at, component.name.clone()),
        _ => (at, format!("{}: {}", component.name, first_words(&without_marks(&step.text)))),
    };
    stamped.enumerate().map(named).collect()
}

/// The first clause of a sentence, at most six words, as the name of a chapter.
fn first_words(text: &str) -> String {
    let clause = [". ", ", ", "; ", ": ", " ("].iter().filter_map(|end| text.find(end)).min().unwrap_or(text.len());
    let words: Vec<&str> = text[..clause].trim_end_matches('.').split_whitespace().collect();
    let joins = |word: &&str| ["and", "until", "while", "with", "then"].contains(word);
    let end = words.iter().skip(2).position(joins).map_or(words.len(), |at| at + 2).min(WORDS);
    let mut kept = words[..end].to_vec();
    let weak = ["the", "a", "an", "or", "to", "in", "into", "on", "of", "for", "at", "over", "from", "by"];
    while kept.len() < words.len() && kept.last().is_some_and(|last| is_number(last) || weak.contains(last)) {
        kept.pop();
    }
    let said = kept.join(" ");
    let mut letters = said.chars();
    letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
}

fn is_number(word: &str) -> bool {
    word.starts_with(|c: char| c.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn chapters_are_named_by_a_clause() {
        assert_eq!(first_words("Roll the dough 3.5 mm thick, line the ring."), "roll the dough 3.5 mm thick");
        assert_eq!(first_words("Whisk everything in a bowl until the cream holds"), "whisk everything in a bowl");
        assert_eq!(first_words("Lift off the ring and lay the fruit over."), "lift off the ring");
        assert_eq!(stamp(155), "2:35");
        assert_eq!(stamp(3755), "1:02:35");
    }
}
