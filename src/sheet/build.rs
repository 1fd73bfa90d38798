use std::collections::BTreeSet;

use super::length::length;
use super::model::{
    Length, LinkGroup, Reference, Sheet, SheetComponent, SheetCorrection, SheetPhoto, SheetStep, SheetTaking, Tag,
    Times,
};
use super::{allergens, amounts, cautions, model, nutrition, prose, slug, video};
use crate::facts::{Facts, RecipeTimes, Share, StepKey, StepTaking};
use crate::language::Language;
use crate::measure::{Duration, Use, Weight};
use crate::recipe::{self, Recipe, Servings};

/// Computes the sheet of a recipe.
pub fn sheet(facts: &Facts<'_>) -> Sheet {
    let Facts { recipe, kitchen, .. } = *facts;
    let slugs = component_slugs(recipe);
    let (lines, masses): (Vec<Vec<model::SheetLine>>, Vec<Vec<Weight>>) =
        facts.lines.iter().map(|lines| lines.iter().map(|line| amounts::line(line, kitchen)).unzip()).unzip();
    let masses: Vec<Weight> = masses.into_iter().map(mass).collect();
    let total = mass(masses.iter().copied());
    let nutrition = nutrition::nutrition(lines.iter().flatten(), recipe.serves.map(Servings::reckoned), kitchen);
    let told = facts.times();
    let components = lines.into_iter().zip(masses).enumerate();
    let components = components.map(|(at, (lines, own))| SheetComponent {
        share: share(own, total),
        mass: (own > Weight::ZERO).then(|| kitchen.words().weight(own)),
        ..component(facts, at, lines, &slugs, &told)
    });
    let mut components: Vec<SheetComponent> = components.collect();
    let last_correction = recipe.corrections.last().map(|correction| correction.on);
    Sheet {
        slug: recipe.slug.clone(),
        title: recipe.title.clone(),
        summary: recipe.summary.clone(),
        published: recipe.published.map(|date| date.to_string()),
        updated: last_correction.max(recipe.published).map(|date| date.to_string()),
        makes: recipe.makes.clone(),
        serves: recipe.serves,
        tags: tags(&recipe.tags),
        video: video::video(recipe, kitchen.language()),
        photo: recipe.photo.as_ref().map(|photo| SheetPhoto { file: photo.file.clone(), alt: photo.alt.clone() }),
        links: links(recipe),
        any_paid: recipe.links.iter().any(|link| link.paid),
        times: times(&told, kitchen.language()),
        cautions: cautions::cautions(facts, &mut components),
        components,
        allergens: allergens::allergens(facts),
        nutrition,
        corrections: recipe
            .corrections
            .iter()
            .map(|correction| SheetCorrection { on: correction.on.to_string(), what: correction.what.clone() })
            .collect(),
        mass: kitchen.words().weight(total),
        was: recipe.was.clone(),
    }
}

fn mass(weights: impl IntoIterator<Item = Weight>) -> Weight {
    weights.into_iter().fold(Weight::ZERO, Weight::plus)
}

/// Per cent, rounded half up; 0 of nothing.
fn share(own: Weight, total: Weight) -> u32 {
    let (own, total) = (i128::from(own.nanograms()), i128::from(total.nanograms().max(1)));
    u32::try_from((own * 200 + total) / (2 * total)).unwrap_or(100).min(100)
}

/// Anchors of the components, each once.
fn component_slugs(recipe: &Recipe) -> Vec<String> {
    let mut taken = BTreeSet::new();
    let mut slugs = Vec::new();
    for component in &recipe.components {
        let base = slug::slug(&component.name);
        let numbered = (2..).map(|n| format!("{base}-{n}"));
        let free = std::iter::once(base.clone()).chain(numbered).find(|slug| !taken.contains(slug));
        let free = free.unwrap_or(base);
        taken.insert(free.clone());
        slugs.push(free);
    }
    slugs
}

fn tags(written: &[String]) -> Vec<Tag> {
    let mut tags: Vec<Tag> = Vec::new();
    for name in written {
        let slug = slug::slug(name);
        if !tags.iter().any(|tag| tag.slug == slug) {
            tags.push(Tag { name: name.clone(), slug });
        }
    }
    tags
}

fn links(recipe: &Recipe) -> Vec<LinkGroup> {
    let mut groups: Vec<(recipe::LinkKind, LinkGroup)> = Vec::new();
    for link in &recipe.links {
        let shown = model::SheetLink { what: link.what.clone(), url: link.url.clone(), paid: link.paid };
        match groups.iter_mut().find(|(kind, _)| *kind == link.kind) {
            Some((_, group)) => group.links.push(shown),
            None => groups.push((link.kind, LinkGroup { kind: link.kind.name().into(), links: vec![shown] })),
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

fn times(times: &RecipeTimes, language: &Language) -> Times {
    let shown = |sum: Option<Duration>| sum.map(|sum| Length { text: language.about(sum), ..length(sum, language) });
    Times {
        hands_on: shown(times.hands_on),
        in_the_oven: shown(times.in_the_oven),
        waiting: shown(times.waiting),
        start_to_finish: shown(times.start_to_finish),
    }
}

/// What a step takes of a line; `None` where it only speaks of it.
fn takes(facts: &Facts<'_>, component: usize, taking: &StepTaking) -> Option<SheetTaking> {
    let share = match taking.share {
        Share::All => "all",
        Share::Part(_) => "part",
        Share::Rest => "rest",
        Share::Again => return None,
    };
    let whole = SheetTaking { line: taking.line, share, weight: None, measure: None, batches: Vec::new() };
    let Some(part) = taking.part.filter(|_| share != "all") else { return Some(whole) };
    let (shown, batches) = amounts::part(&facts.lines[component][taking.line], part, facts.kitchen);
    let told = shown.weight.is_some() || shown.measure.is_some();
    let batches = if told { batches } else { Vec::new() };
    Some(SheetTaking { weight: shown.weight, measure: shown.measure, batches, ..whole })
}

fn component(
    facts: &Facts<'_>,
    at: usize,
    lines: Vec<model::SheetLine>,
    slugs: &[String],
    times: &RecipeTimes,
) -> SheetComponent {
    let Facts { recipe, kitchen, .. } = *facts;
    let entry = &recipe.components[at];
    let references = |uses: &[recipe::ComponentUse]| references(recipe, uses, slugs);
    let takings = facts.taken[at].by_step();
    let starts = &times.starts[at];
    let steps = entry.steps.iter().enumerate().map(|(index, step)| SheetStep {
        uses: references(&step.uses),
        starts: starts[index],
        takes: takings
            .iter()
            .filter(|taking| taking.step == index)
            .filter_map(|taking| takes(facts, at, taking))
            .collect(),
        ..self::step(facts, at, index)
    });
    SheetComponent {
        number: at + 1,
        name: entry.name.clone(),
        slug: slugs[at].clone(),
        uses: references(&entry.uses),
        mass: None,
        share: 0,
        ratio: entry.ratio.as_ref().map(|ratio| {
            let numbers: Vec<String> = ratio.is.iter().map(|number| kitchen.words().decimal(*number, 2)).collect();
            format!("{} = {}", ratio.of.join(" : "), numbers.join(" : "))
        }),
        steps: steps.collect(),
        lines,
    }
}

fn references(recipe: &Recipe, uses: &[recipe::ComponentUse], slugs: &[String]) -> Vec<Reference> {
    let reference = |used: &recipe::ComponentUse| Reference {
        name: recipe.components[used.component].name.clone(),
        slug: slugs[used.component].clone(),
    };
    uses.iter().map(reference).collect()
}

fn step(facts: &Facts<'_>, component: usize, index: usize) -> SheetStep {
    let (words, language) = (facts.kitchen.words(), facts.kitchen.language());
    let step = &facts.recipe.components[component].steps[index];
    let in_both = |key| facts.said_under(component, index, key).map(|said| prose::in_both_systems(said, words));
    let markdown = in_both(StepKey::Do).unwrap_or_default();
    SheetStep {
        number: index + 1,
        text: prose::without_marks(&markdown),
        markdown,
        oven: step.oven.as_ref().map(|degrees| prose::both_scales(degrees, Use::Oven, language)),
        heat: step.heat.as_ref().map(|degrees| prose::both_scales(degrees, Use::Thermometer, language)),
        time: step.time.map(|time| length(time, language)),
        wait: step.wait.map(|wait| length(wait, language)),
        until: in_both(StepKey::Until),
        at: step.at.map(video::stamp),
        mind: step.mind.clone(),
        cautions: Vec::new(),
        uses: Vec::new(),
        starts: 0,
        takes: Vec::new(),
    }
}
