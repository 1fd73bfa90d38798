use std::fmt;
use std::marker::PhantomData;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{self, Deserialize, Deserializer, IntoDeserializer, MapAccess, SeqAccess, Visitor};

/// A recipe file as written: the shape of the YAML, before any text in it is understood.
#[derive(Clone, Debug, serde::Deserialize, JsonSchema)]
#[schemars(deny_unknown_fields, title = "A levelcup recipe")]
pub(crate) struct WrittenRecipe {
    /// Name of the dish.
    pub title: WrittenText,
    /// One or two sentences about it.
    pub summary: Option<WrittenText>,
    /// Date of publishing, `2026-07-04`.
    pub published: Option<WrittenText>,
    /// What one batch makes: `one 24 cm tart`.
    pub makes: Option<WrittenText>,
    /// Number of servings, or a range: `10`, `8 to 10`.
    pub serves: Option<WrittenText>,
    /// File names, without ending, that the recipe had before; its old addresses lead to the new one.
    #[serde(default)]
    pub was: Many<WrittenText>,
    /// Words to find it by.
    #[serde(default)]
    pub tags: Many<WrittenText>,
    /// The video: its address, or `{url, length}`.
    pub video: Option<Short<VideoEntry>>,
    /// The photograph: `{file, alt}`.
    pub photo: Option<PhotoEntry>,
    /// Where to buy mould, tools and special ingredients.
    #[serde(default)]
    #[schemars(extend("maxItems" = 100))]
    pub links: Vec<LinkEntry>,
    /// The named parts, in the order they are made.
    #[schemars(extend("maxItems" = 50))]
    pub components: Vec<ComponentEntry>,
    /// What was wrong after publishing, oldest first.
    #[serde(default)]
    #[schemars(extend("maxItems" = 200))]
    pub corrections: Vec<CorrectionEntry>,
    /// Rules of `proof` that this recipe breaks knowingly: `{rule, because}`.
    #[serde(default)]
    #[schemars(extend("maxItems" = 50))]
    pub allow: Vec<Short<AllowEntry>>,
}

/// A video.
#[derive(Clone, Debug, serde::Deserialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(crate) struct VideoEntry {
    /// http(s) address.
    pub url: WrittenText,
    /// `12:40` or `1:02:40`.
    pub length: Option<WrittenText>,
}

/// A photograph.
#[derive(Clone, Debug, serde::Deserialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(crate) struct PhotoEntry {
    /// File name in `site/photos/`.
    pub file: WrittenText,
    /// What it shows, for those who cannot see it.
    pub alt: WrittenText,
}

/// A link.
#[derive(Clone, Debug, serde::Deserialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(crate) struct LinkEntry {
    /// What it leads to.
    pub what: WrittenText,
    /// http(s) address.
    pub url: WrittenText,
    /// `gear`, `ingredient`, `book` or `other`.
    #[serde(rename = "for")]
    pub kind: Option<LinkKind>,
    /// Whether the author earns by it.
    #[serde(default)]
    pub paid: bool,
}

/// What a link is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize, serde::Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum LinkKind {
    /// Moulds and tools.
    Gear,
    /// Ingredients.
    Ingredient,
    /// Books.
    Book,
    /// Anything else.
    Other,
}

impl LinkKind {
    /// As it is written.
    pub fn name(self) -> &'static str {
        match self {
            LinkKind::Gear => "gear",
            LinkKind::Ingredient => "ingredient",
            LinkKind::Book => "book",
            LinkKind::Other => "other",
        }
    }
}

/// A component.
#[derive(Clone, Debug, serde::Deserialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(crate) struct ComponentEntry {
    /// Its name: `Buckwheat pastry`.
    pub name: WrittenText,
    /// Ingredient lines: `140 g plain flour`, or a mapping.
    #[serde(default)]
    #[schemars(extend("maxItems" = 100))]
    pub ingredients: Vec<Short<IngredientEntry>>,
    /// Steps: a sentence, or a mapping with `do`.
    #[serde(default)]
    #[schemars(extend("maxItems" = 100))]
    pub steps: Vec<Short<StepEntry>>,
    /// Earlier components that go into it.
    #[serde(default)]
    pub uses: Many<WrittenText>,
    /// A declared ratio by weight.
    pub ratio: Option<RatioEntry>,
}

/// An ingredient line in its long form.
#[derive(Clone, Debug, serde::Deserialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(crate) struct IngredientEntry {
    /// `60 g`, `3 large`, `to taste`.
    pub amount: Option<WrittenText>,
    /// The second measure of a stated pair: `1/2 cup`.
    pub stated: Option<WrittenText>,
    /// The ingredient.
    pub name: WrittenText,
    /// Preparation: `diced`.
    pub prep: Option<WrittenText>,
    /// Remark.
    pub note: Option<WrittenText>,
    /// http(s) address for it.
    pub link: Option<WrittenText>,
    /// Whether it may be left out.
    #[serde(default)]
    pub optional: bool,
}

/// A step in its long form.
#[derive(Clone, Debug, serde::Deserialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(crate) struct StepEntry {
    /// What to do, inline Markdown.
    #[serde(rename = "do")]
    pub text: WrittenText,
    /// Oven setting: `180 °C`, `350 °F`, `gas mark 4`.
    pub oven: Option<WrittenText>,
    /// Temperature to cook to: `82 °C`.
    pub heat: Option<WrittenText>,
    /// Hands-on time: `22–25 min`.
    pub time: Option<WrittenText>,
    /// Unattended time: `1 h`, `overnight`.
    pub wait: Option<WrittenText>,
    /// The sign that it is done.
    pub until: Option<WrittenText>,
    /// Where the video shows it: `2:35`.
    pub at: Option<WrittenText>,
    /// A caution of the author's own.
    pub mind: Option<WrittenText>,
    /// Earlier components used in this step.
    #[serde(default)]
    pub uses: Many<WrittenText>,
}

/// A ratio by weight.
#[derive(Clone, Debug, serde::Deserialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(crate) struct RatioEntry {
    /// Ingredient names, or words that several lines share: `flour`.
    #[schemars(extend("maxItems" = 20))]
    pub of: Vec<WrittenText>,
    /// `5:3`.
    pub is: WrittenText,
}

/// A correction.
#[derive(Clone, Debug, serde::Deserialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(crate) struct CorrectionEntry {
    /// Date, `2026-07-09`.
    pub on: WrittenText,
    /// What is right, and what was said.
    pub what: WrittenText,
}

/// A rule that is broken knowingly.
#[derive(Clone, Debug, serde::Deserialize, JsonSchema)]
#[schemars(deny_unknown_fields)]
pub(crate) struct AllowEntry {
    /// The rule's name.
    pub rule: WrittenText,
    /// Why it does not hold here.
    pub because: WrittenText,
}

/// Characters in one text, at most: some four pages.
const LONGEST: usize = 10_000;

/// Text; a number or a truth value in the YAML counts as its own spelling.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct WrittenText(pub String);

/// One value or a list of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Many<T>(pub Vec<T>);

/// The short form, one line of text, or the long form, a mapping.
#[derive(Clone, Debug)]
pub(crate) enum Short<T> {
    /// One line.
    Line(String),
    /// The mapping.
    Long(Box<T>),
}

impl<T> Default for Many<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

struct TextVisitor;

impl Visitor<'_> for TextVisitor {
    type Value = WrittenText;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("text")
    }
    fn visit_str<E: de::Error>(self, text: &str) -> Result<WrittenText, E> {
        Ok(WrittenText(text.trim().to_string()))
    }
}

impl<'de> Deserialize<'de> for WrittenText {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(TextVisitor)
    }
}

impl JsonSchema for WrittenText {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Text".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": ["string", "number"], "maxLength": LONGEST })
    }
}

struct ManyVisitor<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for ManyVisitor<T> {
    type Value = Many<T>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("text or a list")
    }
    fn visit_str<E: de::Error>(self, text: &str) -> Result<Many<T>, E> {
        T::deserialize(text.into_deserializer()).map(|one| Many(vec![one]))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Many<T>, A::Error> {
        let mut items = Vec::new();
        while let Some(item) = list.next_element()? {
            items.push(item);
        }
        Ok(Many(items))
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Many<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(ManyVisitor(PhantomData))
    }
}

impl<T: JsonSchema> JsonSchema for Many<T> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        format!("Many{}", T::schema_name()).into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let one = generator.subschema_for::<T>();
        json_schema!({ "anyOf": [one, { "type": "array", "items": one, "maxItems": 100 }] })
    }
}

struct ShortVisitor<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for ShortVisitor<T> {
    type Value = Short<T>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("one line of text or a mapping")
    }
    fn visit_str<E: de::Error>(self, text: &str) -> Result<Short<T>, E> {
        Ok(Short::Line(text.to_string()))
    }
    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Short<T>, A::Error> {
        T::deserialize(de::value::MapAccessDeserializer::new(map)).map(|long| Short::Long(Box::new(long)))
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Short<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(ShortVisitor(PhantomData))
    }
}

impl<T: JsonSchema> JsonSchema for Short<T> {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        format!("Short{}", T::schema_name()).into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let long = generator.subschema_for::<T>();
        json_schema!({ "anyOf": [{ "type": "string", "maxLength": LONGEST }, long] })
    }
}

/// The JSON Schema (draft 2020-12) of a recipe file, for completion in editors.
pub fn schema() -> Schema {
    schemars::schema_for!(WrittenRecipe)
}
