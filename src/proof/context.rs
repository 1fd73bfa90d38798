use jiff::ToSpan;
use jiff::civil::Date;

use super::Archive;
use crate::facts::{Facts, Said};
use crate::kitchen::Kitchen;
use crate::language::Language;
use crate::pantry::Row;
use crate::photo::{Photo, PhotoError, Photos};
use crate::recipe::{Ingredient, Recipe};
use crate::trace::{Question, Trace};
use crate::workspace::Site;

/// What has to be left out of a recipe's description for its length, by name.
pub type Shortened<'a> = &'a dyn Fn(&Facts<'_>) -> Vec<&'static str>;

/// The template of descriptions.
const DESCRIPTION: &str = "description.txt";

/// Today, where a day is after tomorrow: elsewhere it may be tomorrow already.
pub fn before(day: Date, today: Date) -> Option<Date> {
    let latest = today.checked_add(1.day()).unwrap_or(today);
    (day > latest).then_some(today)
}

/// What all recipes of a run are checked against.
#[derive(Clone, Copy)]
pub struct Surroundings<'a> {
    /// The workspace's settings.
    pub site: &'a Site,
    /// The other recipes.
    pub archive: &'a Archive,
    /// The photographs; without them none is looked for.
    pub photos: Option<&'a Photos>,
    /// The day of the check; without one no date is in the future.
    pub today: Option<Date>,
    /// How descriptions come out; without it their length is not known.
    pub shortened: Option<Shortened<'a>>,
    /// Where it is noted what was asked of all this but the settings.
    pub trace: &'a Trace,
}

/// What a rule sees: one recipe and all around it.
pub struct Context<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// What it means.
    pub facts: &'a Facts<'a>,
    /// What it is checked against; rules ask by the methods below, which note the question.
    around: Surroundings<'a>,
}

impl<'a> Context<'a> {
    pub(super) fn new(facts: &'a Facts<'a>, around: Surroundings<'a>) -> Self {
        Self { recipe: facts.recipe, facts, around }
    }

    /// The pantry under the workspace's settings.
    pub fn kitchen(&self) -> &'a Kitchen {
        self.facts.kitchen
    }

    /// The language of the workspace.
    pub fn language(&self) -> &'a Language {
        self.facts.kitchen.language()
    }

    /// What the steps say, in order.
    pub fn said(&self) -> impl Iterator<Item = &'a Said<'a>> {
        self.facts.said.iter()
    }

    /// What the steps of a component say.
    pub fn said_in(&self, component: usize) -> impl Iterator<Item = &'a Said<'a>> {
        self.facts.said_in(component)
    }

    /// Whether a component, or a step of it, takes up an earlier one.
    pub fn uses(&self, later: usize, earlier: usize) -> bool {
        self.facts.uses(later, earlier)
    }

    /// The workspace's settings.
    pub fn site(&self) -> &'a Site {
        self.around.site
    }

    /// The files whose name in addresses this is.
    pub fn files(&self, slug: &str) -> &'a [String] {
        self.around.trace.note(Question::Files(slug.into()));
        self.around.archive.files(slug)
    }

    /// Whether the program has a page or folder of its own of a name. It is no question that is noted: another build of
    /// the program makes everything anew.
    pub fn is_reserved(&self, slug: &str) -> bool {
        self.around.archive.is_reserved(slug)
    }

    /// Whether a page that is no recipe has a name in addresses.
    pub fn has_page(&self, slug: &str) -> bool {
        self.around.trace.note(Question::Page(slug.into()));
        self.around.archive.has_page(slug)
    }

    /// The spelling of a tag that most recipes use, and how many do. It is no question that is noted: whoever keeps
    /// findings asks again when all recipes are read.
    pub fn usual_spelling(&self, tag: &str) -> Option<(&'a str, usize)> {
        self.around.archive.usual_spelling(tag)
    }

    /// A photograph; `None` where none is looked for.
    pub fn photo(&self, file: &str) -> Option<Result<Photo, PhotoError>> {
        self.around.trace.note(Question::Photo(file.into()));
        self.around.photos.map(|photos| photos.look(file))
    }

    /// Today, where a day is after tomorrow.
    pub fn before(&self, day: Date) -> Option<Date> {
        self.around.trace.note(Question::Before(day));
        before(day, self.around.today?)
    }

    /// What the recipe's description leaves out.
    pub fn shortened(&self) -> Vec<&'static str> {
        self.around.trace.note(Question::Template(DESCRIPTION.into()));
        self.around.shortened.map(|shortened| shortened(self.facts)).unwrap_or_default()
    }

    /// Every ingredient line, with its row of the pantry where it has one.
    pub fn lines(&self) -> impl Iterator<Item = (Option<&'a Row>, &'a Ingredient)> {
        self.facts.all_lines().map(|line| (line.row, line.ingredient))
    }
}
