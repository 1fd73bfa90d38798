use serde::Serialize;

use super::context::RecipeContext;
use super::environment::Environment;
use super::error::TemplateError;
use super::text::{tidy_lines, without_angle_brackets};
use crate::sheet::Sheet;
use crate::workspace::Site;

/// Bytes of UTF-8 that a video host takes; 5,000 bytes also hold where the host counts characters.
///
/// Source: the video host's API reference as quoted by its public client libraries.
pub const DESCRIPTION_LIMIT: usize = 5_000;

/// A line longer than this is left out rather than all that follows it.
const LONG_LINE: usize = 1_000;

/// The text for under the video.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Description {
    /// At most [`DESCRIPTION_LIMIT`] bytes, without angle brackets; lines are whole.
    pub text: String,
    /// What was left out so that the text fits, in the order it was left out; empty where all of it fits.
    pub dropped: Vec<DescriptionPart>,
}

/// A part of the description that may be left out, in the order in which parts are left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum DescriptionPart {
    /// The steps; a line leads to the page instead.
    Method,
    /// The one or two sentences about the dish.
    Summary,
    /// The hashtags.
    Hashtags,
    /// Links that nobody pays for.
    UnpaidLinks,
    /// The ingredient lists; a line leads to the page instead.
    Ingredients,
    /// All links, and with them the disclosure.
    Links,
    /// The chapters.
    Chapters,
    /// The corrections.
    Corrections,
    /// Single lines of more than 1,000 bytes, which no cook writes.
    LongLines,
    /// Whole paragraphs, or in the last resort whole lines, from the end: cautions may be among them.
    Ending,
}

impl DescriptionPart {
    /// Its name for people.
    pub fn name(self) -> &'static str {
        match self {
            DescriptionPart::Method => "the method",
            DescriptionPart::Summary => "the summary",
            DescriptionPart::Hashtags => "the hashtags",
            DescriptionPart::UnpaidLinks => "unpaid links",
            DescriptionPart::Ingredients => "the ingredients",
            DescriptionPart::Links => "all links",
            DescriptionPart::Chapters => "the chapters",
            DescriptionPart::Corrections => "the corrections",
            DescriptionPart::LongLines => "overlong lines",
            DescriptionPart::Ending => "the ending",
        }
    }
}

/// The parts that the template leaves out when told to, in this order.
const OPTIONAL: [DescriptionPart; 8] = [
    DescriptionPart::Method,
    DescriptionPart::Summary,
    DescriptionPart::Hashtags,
    DescriptionPart::UnpaidLinks,
    DescriptionPart::Ingredients,
    DescriptionPart::Links,
    DescriptionPart::Chapters,
    DescriptionPart::Corrections,
];

/// Which parts the template shows; all, until the text does not fit.
#[derive(Clone, Copy, Debug, Serialize)]
struct Show {
    method: bool,
    summary: bool,
    hashtags: bool,
    unpaid_links: bool,
    ingredients: bool,
    links: bool,
    chapters: bool,
    corrections: bool,
}

#[derive(Serialize)]
struct DescriptionContext<'a> {
    show: Show,
    #[serde(flatten)]
    context: &'a RecipeContext<'a>,
}

/// The description under the video, by the template `description.txt`.
///
/// When the text is too long, parts are left out one after another in the order of [`DescriptionPart`] until it fits. A part that the
/// recipe has nothing for is not counted as left out.
///
/// # Errors
/// When the template names something that is not there.
pub fn description(environment: &Environment, site: &Site, recipe: &Sheet) -> Result<Description, TemplateError> {
    let context = RecipeContext::new(site, recipe);
    let mut show = Show::all();
    let render = |show: Show| {
        let text = environment.render("description.txt", &DescriptionContext { show, context: &context })?;
        Ok::<String, TemplateError>(tidy_lines(&without_angle_brackets(&text)))
    };
    let mut text = render(show)?;
    let mut dropped = Vec::new();
    for part in OPTIONAL {
        if text.len() <= DESCRIPTION_LIMIT {
            break;
        }
        show.leave_out(part);
        let shorter = render(show)?;
        if shorter != text {
            dropped.push(part);
            text = shorter;
        }
    }
    if text.len() > DESCRIPTION_LIMIT {
        text = without_long_lines(&text, &mut dropped);
    }
    if text.len() > DESCRIPTION_LIMIT {
        text = cut_ending(&text).to_owned();
        dropped.push(DescriptionPart::Ending);
    }
    Ok(Description { text, dropped })
}

impl Show {
    fn all() -> Self {
        Self {
            method: true,
            summary: true,
            hashtags: true,
            unpaid_links: true,
            ingredients: true,
            links: true,
            chapters: true,
            corrections: true,
        }
    }

    fn leave_out(&mut self, part: DescriptionPart) {
        match part {
            DescriptionPart::Method => self.method = false,
            DescriptionPart::Summary => self.summary = false,
            DescriptionPart::Hashtags => self.hashtags = false,
            DescriptionPart::UnpaidLinks => self.unpaid_links = false,
            DescriptionPart::Ingredients => self.ingredients = false,
            DescriptionPart::Links => self.links = false,
            DescriptionPart::Chapters => self.chapters = false,
            DescriptionPart::Corrections => self.corrections = false,
            DescriptionPart::LongLines | DescriptionPart::Ending => {}
        }
    }
}

fn without_long_lines(text: &str, dropped: &mut Vec<DescriptionPart>) -> String {
    let short: Vec<&str> = text.lines().filter(|line| line.len() <= LONG_LINE).collect();
    if short.len() < text.lines().count() {
        dropped.push(DescriptionPart::LongLines);
    }
    tidy_lines(&short.join("\n"))
}

/// The longest beginning that fits and ends with a paragraph; where the first paragraph does not fit, with a line.
fn cut_ending(text: &str) -> &str {
    let end_after = |mark: &str| {
        let ends = text.match_indices(mark).map(|(at, _)| at + 1);
        ends.take_while(|end| *end <= DESCRIPTION_LIMIT).last()
    };
    let end = end_after("\n\n").or_else(|| end_after("\n")).unwrap_or(0);
    &text[..end]
}
