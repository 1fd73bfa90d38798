use std::collections::BTreeMap;
use std::path::{Component, Path};

use super::CommandError;
use super::desk::{Desk, Proofed};
use crate::archive::{self, Material, Writing};
use crate::recipe::Recipe;
use crate::render;
use crate::sheet::{Factor, Sheet};
use crate::source::{Finding, Source};
use crate::typeset::{self, CardSize, Foot, Labels, Layout};

/// The largest photo that is published.
const LARGEST_PHOTO: u64 = 32 << 20;

/// The description of a recipe, and a finding where it had to be shortened.
pub(super) fn description(
    desk: &Desk,
    recipe: &Recipe,
    sheet: &Sheet,
) -> Result<(String, Option<Finding>), CommandError> {
    let made = render::description(&desk.environment, desk.site(), sheet)?;
    let finding = (!made.dropped.is_empty()).then(|| {
        let left_out: Vec<&str> = made.dropped.iter().map(|part| part.name()).collect();
        let span = recipe.root.key("title").span.clone();
        let message = format!("the description would be longer than {} bytes", render::DESCRIPTION_LIMIT);
        Finding::note("description-too-long", span, message)
            .label(format!("left out: {}", left_out.join(", ")))
            .help("what is left out stands on the recipe's page; shorter steps bring it back")
    });
    Ok((made.text, finding))
}

/// Which card.
#[derive(Clone, Copy, Debug)]
pub(super) enum Kind<'a> {
    /// Both systems side by side.
    Kitchen,
    /// Weights at these batches.
    Bench(&'a [Factor]),
}

impl Kind<'_> {
    /// What a file's name has after the recipe's.
    pub(super) fn ending(self) -> &'static str {
        match self {
            Kind::Kitchen => "",
            Kind::Bench(_) => "-bench",
        }
    }
}

/// A card as PDF, and findings for characters that the typeface lacks.
pub(super) fn card(
    desk: &Desk,
    size: CardSize,
    kind: Kind<'_>,
    recipe: &Recipe,
    sheet: &Sheet,
) -> Result<(Vec<u8>, Vec<Finding>), CommandError> {
    let site = desk.site();
    let markdown = match kind {
        Kind::Kitchen => render::card(&desk.environment, site, sheet)?,
        Kind::Bench(factors) => render::bench_card(&desk.environment, site, sheet, &desk.bench(recipe, factors))?,
    };
    let date = sheet.updated.as_deref().unwrap_or_default();
    let layout = Layout {
        size,
        accent: site.accent.parse()?,
        language: site.language.clone(),
        title: sheet.title.clone(),
        author: site.author.clone(),
        subject: sheet.summary.clone().unwrap_or_default(),
        foot: Foot { source: site.name.clone(), date: render::day_text(date) },
        link: render::page_url(site, sheet).or_else(|| sheet.video.as_ref().map(|video| video.url.clone())),
        date: date.parse().ok(),
        labels: Labels::default(),
    };
    let card = typeset::typeset(&markdown, &layout)?;
    let missing = card.missing.iter().map(|missing| missing_glyph(&recipe.source, missing.character));
    Ok((card.pdf, missing.collect()))
}

fn missing_glyph(source: &Source, character: char) -> Finding {
    let start = source.text().find(character).unwrap_or_default();
    let message = format!("the card's typeface has no `{character}` (U+{:04X})", character as u32);
    Finding::warning("missing-glyph", start..start + character.len_utf8(), message)
        .label("a lozenge stands in its place on the card")
        .help("write it in another way")
}

/// Every file of the archive.
pub(super) fn archive(desk: &Desk, proofed: &[Proofed], cards: bool) -> Result<Vec<archive::File>, CommandError> {
    let sheets: Vec<Sheet> = proofed.iter().filter_map(Proofed::sheet).cloned().collect();
    let writings = writings(desk.workspace().root())?;
    let card_of = |sheet: &Sheet| (sheet.slug.clone(), format!("cards/{}.pdf", sheet.slug));
    let cards: BTreeMap<String, String> = if cards { sheets.iter().map(card_of).collect() } else { BTreeMap::new() };
    let material = Material {
        site: desk.site(),
        sheets: &sheets,
        writings: &writings,
        environment: &desk.environment,
        cards: &cards,
    };
    let mut files = archive::pages(&material)?;
    for photo in sheets.iter().filter_map(|sheet| sheet.photo.as_ref()) {
        let path = desk.workspace().root().join("site").join("photos").join(&photo.file);
        files.push((format!("photos/{}", photo.file), picture(desk.workspace().root(), &path)?));
    }
    files.sort();
    files.dedup_by(|one, other| one.0 == other.0);
    Ok(files)
}

/// A photo's bytes; a link out of the workspace is not followed.
fn picture(root: &Path, path: &Path) -> Result<Vec<u8>, CommandError> {
    let unreadable = |cause| CommandError::File { path: path.into(), cause };
    let real = path.canonicalize().map_err(unreadable)?;
    let inside = root.canonicalize().map_err(unreadable)?;
    let size = real.metadata().map_err(unreadable)?.len();
    if !real.starts_with(inside) || size > LARGEST_PHOTO {
        let cause = std::io::Error::other("a photo lies in `site/photos/` and has at most 32 MiB");
        return Err(unreadable(cause));
    }
    std::fs::read(&real).map_err(unreadable)
}

/// The pages in `site/pages/`, in the order of their names.
fn writings(root: &Path) -> Result<Vec<Writing>, CommandError> {
    let folder = root.join("site").join("pages");
    let mut writings = Vec::new();
    if !folder.is_dir() {
        return Ok(writings);
    }
    let unreadable = |cause| CommandError::File { path: folder.clone(), cause };
    for entry in std::fs::read_dir(&folder).map_err(unreadable)? {
        let path = entry.map_err(unreadable)?.path();
        let stem = path.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default().to_string();
        let plain = matches!(Path::new(&stem).components().next(), Some(Component::Normal(_)));
        if path.extension().is_some_and(|e| e == "md") && plain {
            let source = Source::read(&path, stem.clone()).map_err(crate::workspace::WorkspaceError::from)?;
            writings.push(Writing { slug: stem, markdown: source.text().to_string() });
        }
    }
    writings.sort_by(|one, other| one.slug.cmp(&other.slug));
    Ok(writings)
}
