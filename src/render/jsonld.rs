use serde::Serialize;
use tera::Value;
use tera::value::Key;

use super::address::{page_url, photo_url, step_anchor};
use super::environment::Environment;
use super::error::TemplateError;
use super::text::{clean_text, sentence};
use crate::sheet::{Chapter, Nutrition, Sheet, SheetComponent, SheetStep};
use crate::text::web_address;
use crate::workspace::Site;

/// A recipe in the vocabulary of schema.org, for search engines and readers of structured data.
///
/// Links carry no addresses here: a paid link may not stand without its disclosure, and these places have room for none.
#[derive(Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct LdRecipe {
    #[serde(rename = "@context")]
    context: &'static str,
    #[serde(rename = "@type")]
    kind: &'static str,
    name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    description: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    url: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    image: Vec<String>,
    author: Organization,
    #[serde(skip_serializing_if = "Option::is_none")]
    date_published: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    date_modified: Option<String>,
    in_language: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    keywords: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    recipe_yield: Vec<String>,
    /// With `cookTime` or not at all: search engines ask for both or neither.
    #[serde(skip_serializing_if = "Option::is_none")]
    prep_time: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cook_time: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    total_time: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    tool: Vec<LdNamed>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    supply: Vec<LdNamed>,
    recipe_ingredient: Vec<String>,
    recipe_instructions: Vec<LdSection>,
    #[serde(skip_serializing_if = "Option::is_none")]
    nutrition: Option<NutritionInformation>,
    #[serde(skip_serializing_if = "Option::is_none")]
    video: Option<LdVideo>,
}

#[derive(Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
struct NutritionInformation {
    #[serde(rename = "@type")]
    kind: &'static str,
    serving_size: String,
    calories: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    fat_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    saturated_fat_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    carbohydrate_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sugar_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    fiber_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    protein_content: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sodium_content: Option<String>,
}

impl NutritionInformation {
    fn new(nutrition: &Nutrition) -> Self {
        // A Mass begins with a number, so what is only said to be less than one is left out.
        let mass = |text: &Option<String>| text.clone().filter(|text| text.starts_with(|c: char| c.is_ascii_digit()));
        Self {
            kind: "NutritionInformation",
            serving_size: nutrition.serving.clone(),
            calories: format!("{} calories", nutrition.kcal),
            fat_content: mass(&nutrition.fat),
            saturated_fat_content: mass(&nutrition.saturated),
            carbohydrate_content: mass(&nutrition.carbohydrate),
            sugar_content: mass(&nutrition.sugars),
            fiber_content: mass(&nutrition.fibre),
            protein_content: mass(&nutrition.protein),
            sodium_content: mass(&nutrition.sodium),
        }
    }
}

#[derive(Debug, PartialEq, Serialize)]
struct Organization {
    #[serde(rename = "@type")]
    kind: &'static str,
    name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    url: Option<String>,
}

/// A HowToTool or HowToSupply.
#[derive(Debug, PartialEq, Serialize)]
struct LdNamed {
    #[serde(rename = "@type")]
    kind: &'static str,
    name: String,
}

#[derive(Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
struct LdSection {
    #[serde(rename = "@type")]
    kind: &'static str,
    position: usize,
    name: String,
    item_list_element: Vec<HowToStep>,
}

#[derive(Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
struct HowToStep {
    #[serde(rename = "@type")]
    kind: &'static str,
    position: usize,
    name: String,
    text: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    url: Option<String>,
    /// What to do, then what to mind; only where there is something to mind.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    item_list_element: Vec<Direction>,
}

/// A HowToDirection or HowToTip.
#[derive(Debug, PartialEq, Serialize)]
struct Direction {
    #[serde(rename = "@type")]
    kind: &'static str,
    position: usize,
    text: String,
}

#[derive(Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
struct LdVideo {
    #[serde(rename = "@type")]
    kind: &'static str,
    name: String,
    description: String,
    url: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    thumbnail_url: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    upload_date: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    duration: Option<String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    has_part: Vec<Clip>,
}

#[derive(Debug, PartialEq, Serialize)]
#[serde(rename_all = "camelCase")]
struct Clip {
    #[serde(rename = "@type")]
    kind: &'static str,
    name: String,
    start_offset: u32,
    #[serde(skip_serializing_if = "Option::is_none")]
    end_offset: Option<u32>,
    url: String,
}

/// The recipe as schema.org's Recipe, worded by `words.txt` as the other outputs are; `shown` is the sheet as templates
/// see it.
///
/// Properties and text forms: schema.org, read through schema-dts 2.1.0.
///
/// # Errors
/// When a template names something that is not there.
pub fn json_ld(
    environment: &Environment,
    site: &Site,
    sheet: &Sheet,
    shown: &Value,
) -> Result<LdRecipe, TemplateError> {
    let page = page_url(site, sheet);
    let keywords: Vec<String> = sheet.tags.iter().map(|tag| clean_text(&tag.name)).collect();
    let components = list(shown, "components");
    let lines = components.iter().flat_map(|part| list(part, "lines"));
    let steps = sheet.components.iter().zip(components).filter(|(part, _)| !part.steps.is_empty());
    let section = |(part, shown)| section(environment, page.as_deref(), part, shown);
    let of_both = sheet.times.hands_on.as_ref().zip(sheet.times.in_the_oven.as_ref());
    Ok(LdRecipe {
        context: "https://schema.org",
        kind: "Recipe",
        name: clean_text(&sheet.title),
        description: sheet.summary.as_deref().map(clean_text),
        image: sheet.photo.iter().filter_map(|photo| photo_url(site, photo)).collect(),
        author: Organization { kind: "Organization", name: clean_text(&site.author), url: web_address(&site.url) },
        date_published: sheet.published.clone(),
        date_modified: sheet.updated.clone(),
        in_language: site.language.clone(),
        keywords: (!keywords.is_empty()).then(|| keywords.join(", ")),
        recipe_yield: recipe_yield(sheet),
        prep_time: of_both.map(|(hands, _)| hands.iso.clone()),
        cook_time: of_both.map(|(_, oven)| oven.iso.clone()),
        total_time: sheet.times.start_to_finish.as_ref().map(|length| length.iso.clone()),
        tool: named(sheet, "gear", "HowToTool"),
        supply: named(sheet, "ingredient", "HowToSupply"),
        recipe_ingredient: lines.map(|line| ingredient(environment, line)).collect::<Result<_, _>>()?,
        recipe_instructions: steps.map(section).collect::<Result<_, _>>()?,
        nutrition: sheet.nutrition.as_ref().map(NutritionInformation::new),
        video: video(site, sheet),
        url: page,
    })
}

fn recipe_yield(sheet: &Sheet) -> Vec<String> {
    let servings =
        sheet.serves.map(|count| if count.high == 1 { "1 serving".into() } else { format!("{count} servings") });
    servings.into_iter().chain(sheet.makes.as_deref().map(clean_text)).collect()
}

fn named(sheet: &Sheet, group: &str, kind: &'static str) -> Vec<LdNamed> {
    let links = sheet.links.iter().filter(|links| links.kind == group).flat_map(|links| &links.links);
    links.map(|link| LdNamed { kind, name: clean_text(&link.what) }).collect()
}

/// A list that a struct has under a name.
fn list<'v>(value: &'v Value, name: &'static str) -> &'v [Value] {
    value.as_map().and_then(|map| map.get(&Key::Str(name))).and_then(Value::as_array).unwrap_or_default()
}

fn ingredient(environment: &Environment, line: &Value) -> Result<String, TemplateError> {
    environment.words("words.line", "line", line).map(|text| clean_text(&text))
}

fn section(
    environment: &Environment,
    page: Option<&str>,
    component: &SheetComponent,
    shown: &Value,
) -> Result<LdSection, TemplateError> {
    let steps = component.steps.iter().zip(list(shown, "steps"));
    let steps = steps.map(|(step, shown)| {
        let facts = environment.words("words.facts", "step", shown)?;
        Ok(how_to_step(page, component, step, &facts))
    });
    Ok(LdSection {
        kind: "HowToSection",
        position: component.number,
        name: clean_text(&component.name),
        item_list_element: steps.collect::<Result<_, _>>()?,
    })
}

fn how_to_step(page: Option<&str>, component: &SheetComponent, step: &SheetStep, facts: &str) -> HowToStep {
    let text = clean_text(&format!("{} {facts}", sentence(&step.text)));
    let directions = step.mind.as_deref().map(|mind| {
        vec![
            Direction { kind: "HowToDirection", position: 1, text: text.clone() },
            Direction { kind: "HowToTip", position: 2, text: sentence(mind) },
        ]
    });
    HowToStep {
        kind: "HowToStep",
        position: step.number,
        name: format!("{} {}", clean_text(&component.name), step.number),
        text,
        url: page.map(|page| format!("{page}#{}", step_anchor(&component.slug, step.number))),
        item_list_element: directions.unwrap_or_default(),
    }
}

fn video(site: &Site, sheet: &Sheet) -> Option<LdVideo> {
    let video = sheet.video.as_ref()?;
    let name = clean_text(&sheet.title);
    let clip = |chapter: &Chapter| {
        Some(Clip {
            kind: "Clip",
            name: clean_text(&chapter.name),
            start_offset: chapter.seconds,
            end_offset: chapter.end,
            url: web_address(&chapter.url)?,
        })
    };
    Some(LdVideo {
        kind: "VideoObject",
        description: sheet.summary.as_deref().map_or_else(|| name.clone(), clean_text),
        name,
        url: web_address(&video.url)?,
        thumbnail_url: sheet.photo.as_ref().and_then(|photo| photo_url(site, photo)),
        upload_date: sheet.published.clone(),
        duration: video.length.as_ref().map(|length| length.iso.clone()),
        has_part: video.chapters.iter().filter_map(clip).collect(),
    })
}
