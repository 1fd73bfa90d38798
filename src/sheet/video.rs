use super::length::length;
use super::model::{Chapter, SheetVideo};
use super::prose::without_marks;
use crate::language::{Language, Sense};
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
    let length = video.length.map(|seconds| length(Duration::seconds(u64::from(seconds)), language));
    let url = video.url.clone();
    Some(SheetVideo { chapters: chapters(recipe, &url, video.length, language), url, length })
}

/// A time in the video: `2:35`, `1:02:35`.
pub(super) fn stamp(seconds: u32) -> String {
    let (hours, minutes, seconds) = (seconds / 3600, seconds % 3600 / 60, seconds % 60);
    match hours {
        0 => format!("{minutes}:{seconds:02}"),
        _ => format!("{hours}:{minutes:02}:{seconds:02}"),
    }
}

fn chapters(recipe: &Recipe, url: &str, length: Option<u32>, language: &Language) -> Vec<Chapter> {
    let mut marks: Vec<(u32, String)> =
        recipe.components.iter().flat_map(|component| component_marks(component, language)).collect();
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
fn component_marks(component: &Component, language: &Language) -> Vec<(u32, String)> {
    let stamped = component.steps.iter().filter_map(|step| step.at.map(|at| (at, step)));
    let named = |(place, (at, step)): (usize, (u32, &crate::recipe::Step))| match place {
        0 => (at, component.name.clone()),
        _ => {
            let step = first_words(&without_marks(&step.text), language);
            (at, language.say("chapter", &[("component", &component.name), ("step", &step)]))
        }
    };
    stamped.enumerate().map(named).collect()
}

/// The first clause of a sentence, at most six words, as the name of a chapter.
fn first_words(text: &str, language: &Language) -> String {
    let clause =
        [". ", ", ", "; ", ": ", " (", "\u{a0}:"].iter().filter_map(|end| text.find(end)).min().unwrap_or(text.len());
    let said: Vec<&str> = text[..clause].trim_end_matches('.').split_whitespace().collect();
    let is = |of: Sense, word: &str| language.tells(of, word);
    let end = said.iter().skip(2).position(|word| is(Sense::JoinsClauses, word)).map_or(said.len(), |at| at + 2);
    let mut kept = said[..end.min(WORDS)].to_vec();
    let weak = |word: &str| is_number(word) || (language.read(word).len() == 1 && is(Sense::WeakEnd, word));
    while kept.len() > 1 && kept.len() < said.len() && kept.last().is_some_and(|last| weak(last)) {
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
        assert_eq!(
            first_words("Roll the dough 3.5 mm thick, line the ring.", &Language::default()),
            "roll the dough 3.5 mm thick"
        );
        assert_eq!(
            first_words("Whisk everything in a bowl until the cream holds", &Language::default()),
            "whisk everything in a bowl"
        );
        assert_eq!(first_words("Lift off the ring and lay the fruit over.", &Language::default()), "lift off the ring");
        assert_eq!(stamp(155), "2:35");
        assert_eq!(stamp(3755), "1:02:35");
    }
}
