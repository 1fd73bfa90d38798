use serde::{Deserialize, Serialize};

use crate::recipe::Servings;

/// A recipe with everything computed: the templates' only input besides [`crate::workspace::Site`].
///
/// Every number is already text, rounded and in its unit; templates add words and order, no arithmetic.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Sheet {
    /// File stem of the recipe; names its outputs and its page.
    pub slug: String,
    /// Title as written.
    pub title: String,
    /// One or two sentences, as written.
    pub summary: Option<String>,
    /// Date of publishing, ISO 8601 (`2026-07-04`).
    pub published: Option<String>,
    /// Date of the last correction, else of publishing.
    pub updated: Option<String>,
    /// What one batch makes, as written: `one 24 cm tart`.
    pub makes: Option<String>,
    /// Number of servings.
    pub serves: Option<Servings>,
    /// Tags in the order written.
    pub tags: Vec<Tag>,
    /// The video, with chapters where the steps' timestamps allow them.
    pub video: Option<SheetVideo>,
    /// The photograph, with its alternative text.
    pub photo: Option<SheetPhoto>,
    /// Links grouped by kind, kinds in the order first written.
    pub links: Vec<LinkGroup>,
    /// Whether any link is paid, so that the disclosure must be shown.
    pub any_paid: bool,
    /// How long it takes.
    pub times: Times,
    /// Components in the order written.
    pub components: Vec<SheetComponent>,
    /// What to mind, once each, in a fixed order of topics, the author's own last.
    pub cautions: Vec<Caution>,
    /// What the ingredient table says the recipe contains.
    pub allergens: Allergens,
    /// What a serving holds, where it can be computed.
    pub nutrition: Option<Nutrition>,
    /// What was corrected after publishing, oldest first.
    pub corrections: Vec<SheetCorrection>,
    /// Mass of all ingredients, `1,240 g`.
    pub mass: String,
    /// Slugs that the recipe had before, each of which leads to it.
    pub was: Vec<String>,
}

/// A tag and the name of its page.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Tag {
    /// As written.
    pub name: String,
    /// Lower case, words joined by hyphens.
    pub slug: String,
}

/// The recipe's video.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetVideo {
    /// Where it is.
    pub url: String,
    /// Its length.
    pub length: Option<Length>,
    /// In ascending order; empty unless the first is at 0:00, there are three or more, and each lasts ten seconds.
    pub chapters: Vec<Chapter>,
}

/// One chapter of the video.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Chapter {
    /// Seconds from the start.
    pub seconds: u32,
    /// Start of the next chapter or end of the video, where known.
    pub end: Option<u32>,
    /// `2:35` or `1:02:35`.
    pub stamp: String,
    /// The component's name, with the step's where a component has several.
    pub name: String,
    /// The video's address at that second.
    pub url: String,
}

/// The recipe's photograph.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetPhoto {
    /// File name inside the workspace's `site/photos/`.
    pub file: String,
    /// Alternative text.
    pub alt: String,
}

/// Links of one kind.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LinkGroup {
    /// `gear`, `ingredient`, `book` or `other`.
    pub kind: String,
    /// In the order written.
    pub links: Vec<SheetLink>,
}

/// A link to a mould, a tool or an ingredient.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetLink {
    /// What it leads to.
    pub what: String,
    /// http(s) address.
    pub url: String,
    /// Whether the author earns by it.
    pub paid: bool,
}

/// A length of time, or a range of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Length {
    /// For reading: `1 h 20 min`, `22–25 min`, `overnight`.
    pub text: String,
    /// ISO 8601 duration of the longer end: `PT1H20M`.
    pub iso: String,
    /// Seconds, the longer end.
    pub seconds: u64,
    /// Seconds, the shorter end: when to look.
    pub least: u64,
}

/// What a step takes of an ingredient line.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetTaking {
    /// The line, by index into [`SheetComponent::lines`].
    pub line: usize,
    /// `all`, `part` or `rest`.
    pub share: &'static str,
    /// The amount of a part or a rest, as [`SheetLine::weight`], where it can be told.
    pub weight: Option<String>,
    /// The same, as [`SheetLine::measure`].
    pub measure: Option<String>,
    /// The same at every batch; empty where it cannot be told.
    pub batches: Vec<BatchAmount>,
}

/// How long the recipe takes; `None` where no step gives a time of the kind.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Times {
    /// Work: the `time` of steps without `oven`.
    pub hands_on: Option<Length>,
    /// In the oven: the `time` of steps with `oven`.
    pub in_the_oven: Option<Length>,
    /// Unattended: the steps' `wait`.
    pub waiting: Option<Length>,
    /// The shortest way through, with one pair of hands and one oven; waits and the oven beside the work.
    pub start_to_finish: Option<Length>,
}

/// A named part of the recipe.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetComponent {
    /// From 1.
    pub number: usize,
    /// As written.
    pub name: String,
    /// For anchors; unique in the recipe.
    pub slug: String,
    /// Earlier components that go into this one.
    pub uses: Vec<Reference>,
    /// Mass of its own ingredients, `355 g`; `None` where a line has no weight at all.
    pub mass: Option<String>,
    /// Its share of the recipe's mass in per cent, 0 to 100.
    pub share: u32,
    /// The declared ratio, `flour : butter = 5 : 3`.
    pub ratio: Option<String>,
    /// Ingredient lines in the order written.
    pub lines: Vec<SheetLine>,
    /// Steps in the order written.
    pub steps: Vec<SheetStep>,
}

/// Another component, by name and anchor.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reference {
    /// As written.
    pub name: String,
    /// Its anchor.
    pub slug: String,
}

/// An ingredient line with its amount in both systems.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetLine {
    /// The ingredient's name as the author wrote it.
    pub name: String,
    /// Preparation: `diced`.
    pub prep: Option<String>,
    /// Remark, without brackets.
    pub note: Option<String>,
    /// Whether it may be left out.
    pub optional: bool,
    /// The ingredient table's id, where the name is known.
    pub ingredient: Option<String>,
    /// Address for this ingredient.
    pub link: Option<String>,
    /// The amount at each batch: half, one, two, three.
    pub batches: Vec<BatchAmount>,
    /// Weight at one batch: `140 g`, `60–80 g`; `None` where the line has none.
    pub weight: Option<String>,
    /// Level measure or count at one batch: `1 cup + 2 tbsp`, `2 large`, `a pinch`, `to taste`.
    pub measure: Option<String>,
    /// Weight in milligrams at one batch (the higher end), 0 where unknown; for sums and drawings, never for text.
    pub milligrams: u64,
    /// Signed error of the measure against the weight, in per cent: positive when the measure is the heavier.
    pub error_percent: Option<f64>,
    /// Who published the figure behind the conversion.
    pub source: Option<String>,
    /// True where no level measure is close enough and weighing is advised.
    pub weigh: bool,
    /// True where the measure is no measure at all but the advice to weigh.
    pub weigh_only: bool,
    /// True where as much is taken as tastes good.
    pub to_taste: bool,
    /// True where the measure is a pinch and the like, which is joined to the name: `a pinch of salt`.
    pub vague: bool,
    /// What stands between an amount and the name: nothing in English, `de ` or `d’` in French.
    pub of: String,
}

/// A line's amount at one batch.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BatchAmount {
    /// `half`, `one`, `two` or `three`.
    pub batch: &'static str,
    /// As [`SheetLine::weight`].
    pub weight: Option<String>,
    /// As [`SheetLine::measure`].
    pub measure: Option<String>,
}

/// One step of the method.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetStep {
    /// From 1 in each component.
    pub number: usize,
    /// Plain text, temperatures and lengths in both systems.
    pub text: String,
    /// The same as inline Markdown.
    pub markdown: String,
    /// Oven setting in both scales: `180 °C (350 °F)`.
    pub oven: Option<String>,
    /// Temperature to cook to, both scales.
    pub heat: Option<String>,
    /// Hands-on time.
    pub time: Option<Length>,
    /// Unattended time.
    pub wait: Option<Length>,
    /// The sign that it is done.
    pub until: Option<String>,
    /// When it starts on the shortest way through, in seconds from the first step.
    pub starts: u64,
    /// Where the video shows it: `2:35`.
    pub at: Option<String>,
    /// The author's own caution.
    pub mind: Option<String>,
    /// Topics of the recipe's cautions that this step gives the reason for.
    pub cautions: Vec<String>,
    /// Earlier components used in this step.
    pub uses: Vec<Reference>,
    /// What the step takes of the component's lines.
    pub takes: Vec<SheetTaking>,
}

/// Something to mind, with the topic it is filed under.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Caution {
    /// In the site's language: `hot sugar`, `raw egg`, `alcohol` ...
    pub topic: String,
    /// What to do about it.
    pub text: String,
}

/// What the recipe contains by the two lists of law; never a claim that anything is absent.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Allergens {
    /// US nine (FALCPA 2004, FASTER Act 2021), tree nuts and fish named by kind.
    pub us: Vec<String>,
    /// EU fourteen (Regulation (EU) 1169/2011, Annex II).
    pub eu: Vec<String>,
    /// Ingredients that the table does not know, so that nothing can be said of them.
    pub unknown: Vec<String>,
}

/// What one serving holds by the table's values, rounded as on a US label (21 CFR 101.9(c)); `None` what is not known.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Nutrition {
    /// `1/10 of the recipe`.
    pub serving: String,
    /// Kilocalories, `320`.
    pub kcal: String,
    /// `18 g`.
    pub fat: Option<String>,
    /// Saturated fat.
    pub saturated: Option<String>,
    /// Fibre included.
    pub carbohydrate: Option<String>,
    /// `20 g`, or `less than 1 g`.
    pub sugars: Option<String>,
    /// `1 g`.
    pub fibre: Option<String>,
    /// `5 g`.
    pub protein: Option<String>,
    /// `120 mg`.
    pub sodium: Option<String>,
}

/// A correction made after publishing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SheetCorrection {
    /// ISO 8601 date.
    pub on: String,
    /// What was wrong and what is right.
    pub what: String,
}
