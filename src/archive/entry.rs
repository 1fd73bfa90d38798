use serde::{Deserialize, Serialize};

use super::cover::{Cover, CoverPart};
use super::frame::folder_address;
use crate::photo::Photo;
use crate::sheet::{Sheet, SheetCorrection, SheetLine, Tag, slug};
use crate::trace::Key;

/// Size of the cover in lists, in the drawing's own units.
const COVER: (u32, u32) = (72, 96);

/// What lists, feeds and the search need to know of a recipe.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub(super) struct ListedRecipe {
    pub(super) slug: String,
    pub(super) title: String,
    pub(super) summary: Option<String>,
    pub(super) published: Option<String>,
    pub(super) updated: Option<String>,
    pub(super) makes: Option<String>,
    pub(super) start_to_finish: Option<String>,
    pub(super) tags: Vec<Tag>,
    pub(super) corrections: Vec<SheetCorrection>,
    pub(super) components: Vec<NamedComponent>,
    pub(super) uses: Vec<UsedIngredient>,
    pub(super) photo: Option<Photo>,
    /// Addresses that the recipe had before.
    pub(super) was: Vec<String>,
    parts: Vec<CoverPart>,
    /// Of all the above.
    pub(super) key: Key,
}

/// A component of a recipe.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct NamedComponent {
    pub(super) name: String,
    /// Names the component's page, where several recipes have one of the name.
    pub(super) slug: String,
    /// On the recipe's page.
    pub(super) anchor: String,
    pub(super) mass: Option<String>,
}

/// An ingredient in a component.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct UsedIngredient {
    /// The pantry's id; where it does not know the name, the name as a slug.
    pub(super) ingredient: String,
    /// As written, where the pantry does not know the name.
    pub(super) name: Option<String>,
    /// `60 g (1/2 cup)`.
    pub(super) amount: String,
    /// Index into [`ListedRecipe::components`].
    pub(super) component: usize,
}

/// A recipe as lists show it.
#[derive(Debug, Serialize)]
pub(super) struct ShownRecipe<'a> {
    slug: &'a str,
    /// Folder relative to the archive's root.
    address: String,
    title: &'a str,
    summary: Option<&'a str>,
    published: Option<&'a str>,
    makes: Option<&'a str>,
    start_to_finish: Option<&'a str>,
    tags: &'a [Tag],
    cover: Option<Cover>,
}

impl ListedRecipe {
    pub(super) fn new(sheet: &Sheet, parts: Vec<CoverPart>, photo: Option<Photo>) -> Self {
        let named = |component: &crate::sheet::SheetComponent| NamedComponent {
            name: component.name.clone(),
            slug: slug(&component.name),
            anchor: component.slug.clone(),
            mass: component.mass.clone(),
        };
        let lines = sheet.components.iter().enumerate().flat_map(|(at, part)| part.lines.iter().map(move |l| (at, l)));
        let mut entry = Self {
            slug: sheet.slug.clone(),
            title: sheet.title.clone(),
            summary: sheet.summary.clone(),
            published: sheet.published.clone(),
            updated: sheet.updated.clone().or_else(|| sheet.published.clone()),
            makes: sheet.makes.clone(),
            start_to_finish: sheet.times.start_to_finish.as_ref().map(|length| length.text.clone()),
            tags: sheet.tags.iter().filter(|tag| !tag.slug.is_empty()).cloned().collect(),
            corrections: sheet.corrections.clone(),
            components: sheet.components.iter().map(named).collect(),
            uses: lines.map(|(component, line)| used(component, line)).collect(),
            photo,
            was: sheet.was.clone(),
            parts,
            key: Key::default(),
        };
        entry.key = Key::of_value(&entry);
        entry
    }

    /// Folder relative to the archive's root.
    pub(super) fn address(&self) -> String {
        folder_address(&self.slug)
    }

    pub(super) fn shown(&self) -> ShownRecipe<'_> {
        ShownRecipe {
            slug: &self.slug,
            address: self.address(),
            title: &self.title,
            summary: self.summary.as_deref(),
            published: self.published.as_deref(),
            makes: self.makes.as_deref(),
            start_to_finish: self.start_to_finish.as_deref(),
            tags: &self.tags,
            cover: Cover::draw(&self.parts, COVER.0, COVER.1),
        }
    }
}

fn used(component: usize, line: &SheetLine) -> UsedIngredient {
    let amount = match (&line.weight, &line.measure) {
        (Some(weight), Some(measure)) => format!("{weight} ({measure})"),
        (Some(one), None) | (None, Some(one)) => one.clone(),
        (None, None) => String::new(),
    };
    let known = line.ingredient.clone();
    UsedIngredient {
        name: known.is_none().then(|| line.name.clone()),
        ingredient: known.unwrap_or_else(|| slug(&line.name)),
        amount,
        component,
    }
}
