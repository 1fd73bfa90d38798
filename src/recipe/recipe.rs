use std::sync::Arc;

use jiff::civil::Date;

use super::servings::Servings;
use super::{Degrees, Line, LinkKind};
use crate::measure::{Duration, Number};
use crate::source::{Source, Span};
use crate::yaml::Node;

/// A recipe as its author meant it: every text understood, every place kept.
#[derive(Clone, Debug)]
pub struct Recipe {
    /// File stem; names the outputs.
    pub slug: String,
    /// The file's text.
    pub source: Source,
    /// The file's source map.
    pub root: Arc<Node>,
    /// Name of the dish.
    pub title: String,
    /// One or two sentences.
    pub summary: Option<String>,
    /// Date of publishing.
    pub published: Option<Date>,
    /// What one batch makes.
    pub makes: Option<String>,
    /// Number of servings.
    pub serves: Option<Servings>,
    /// Slugs that it had before.
    pub was: Vec<String>,
    /// Tags in order.
    pub tags: Vec<String>,
    /// The video.
    pub video: Option<Video>,
    /// The photograph.
    pub photo: Option<StatedPhoto>,
    /// Links in order.
    pub links: Vec<Link>,
    /// Components in the order they are made; at least one.
    pub components: Vec<Component>,
    /// Corrections, oldest first.
    pub corrections: Vec<Correction>,
    /// Rules that are broken knowingly.
    pub allow: Vec<Allow>,
}

/// A rule that is broken knowingly.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Allow {
    /// The rule's name.
    pub rule: String,
    /// The reason; may be missing.
    pub because: Option<String>,
    /// The place of the name.
    pub span: Span,
}

/// A video.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Video {
    /// http(s) address.
    pub url: String,
    /// Seconds.
    pub length: Option<u32>,
}

/// A photograph.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StatedPhoto {
    /// Relative path without `..`.
    pub file: String,
    /// Alternative text.
    pub alt: String,
}

/// A link.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// What it leads to.
    pub what: String,
    /// http(s) address.
    pub url: String,
    /// What it is for.
    pub kind: LinkKind,
    /// Whether the author earns by it.
    pub paid: bool,
}

/// A named part with its own ingredients and steps.
#[derive(Clone, Debug)]
pub struct Component {
    /// Its name.
    pub name: String,
    /// The place of the name.
    pub span: Span,
    /// Ingredient lines in order.
    pub ingredients: Vec<Ingredient>,
    /// Steps in order.
    pub steps: Vec<Step>,
    /// Earlier components that go into it.
    pub uses: Vec<ComponentUse>,
    /// The declared ratio.
    pub ratio: Option<Ratio>,
}

/// An ingredient line and where its parts stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ingredient {
    /// The line.
    pub line: Line,
    /// All of it.
    pub span: Span,
    /// Its amounts, in the order of [`Line::amounts`].
    pub amounts: Vec<Span>,
}

/// A component named by another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ComponentUse {
    /// Index of the component in the recipe.
    pub component: usize,
    /// The place of the name.
    pub span: Span,
}

/// A ratio by weight, `flour : butter = 5 : 3`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ratio {
    /// Ingredient names, two or more.
    pub of: Vec<String>,
    /// One number a name.
    pub is: Vec<Number>,
    /// The place of the numbers.
    pub span: Span,
}

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What to do, inline Markdown.
    pub text: String,
    /// All of the step.
    pub span: Span,
    /// Oven setting.
    pub oven: Option<Degrees>,
    /// Temperature to cook to.
    pub heat: Option<Degrees>,
    /// Hands-on time.
    pub time: Option<Duration>,
    /// Unattended time.
    pub wait: Option<Duration>,
    /// The sign that it is done.
    pub until: Option<String>,
    /// Seconds into the video.
    pub at: Option<u32>,
    /// The author's own caution.
    pub mind: Option<String>,
    /// Earlier components used here.
    pub uses: Vec<ComponentUse>,
}

/// A correction.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Correction {
    /// When.
    pub on: Date,
    /// What.
    pub what: String,
}
