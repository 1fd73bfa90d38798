//! What is asked of a recipe for each of its temperatures, worked out once.

use std::sync::OnceLock;

use super::row::rows;
use crate::facts::{Facts, kinds};
use crate::language::Sense;
use crate::measure::{Scale, Use};
use crate::source::Span;

/// So many others in the other scale make one that stands alone a likely slip.
const OTHERS: usize = 2;

/// A component and a step of it; none for an ingredient line.
pub(super) type Step = Option<(usize, usize)>;

/// What stands around a temperature.
#[derive(Debug)]
pub(in crate::facts) struct Around {
    /// What each component may be; filled in when first asked for.
    kinds: Vec<OnceLock<Vec<&'static str>>>,
    /// What the steps, the lines and the name of each component tell of, of the senses that rows ask for.
    told: Vec<Vec<Sense>>,
    celsius: Mentions,
    fahrenheit: Mentions,
}

/// The temperatures of a recipe in one scale.
#[derive(Debug, Default)]
struct Mentions {
    number: usize,
    /// The steps that they stand in, and the places of those in ingredient lines; two are enough to know.
    places: Vec<(Step, Span)>,
}

impl Mentions {
    fn add(&mut self, step: Step, span: Span) {
        self.number += 1;
        let new = |(other, place): &(Step, Span)| *other != step || (step.is_none() && *place != span);
        if self.places.len() < 2 && self.places.iter().all(new) {
            self.places.push((step, span));
        }
    }
}

impl Around {
    pub(in crate::facts) fn of(facts: &Facts<'_>) -> Self {
        let components = 0..facts.recipe.components.len();
        let (mut celsius, mut fahrenheit) = (Mentions::default(), Mentions::default());
        let mut add = |scale: Scale, step: Step, span: Span| match scale {
            Scale::Celsius => celsius.add(step, span),
            Scale::Fahrenheit => fahrenheit.add(step, span),
        };
        for said in &facts.said {
            let settings = said.settings.iter().filter(|setting| setting.to_use != Use::Difference);
            for way in settings.flat_map(|setting| &setting.ways).filter(|way| !way.gas) {
                add(way.temperature.scale, Some((said.component, said.step)), way.span.clone());
            }
        }
        for line in facts.recipe.components.iter().flat_map(|component| &component.ingredients) {
            for mention in crate::text::temperatures(facts.recipe.source.slice(&line.span)) {
                let (start, end) = (line.span.start + mention.span.start, line.span.start + mention.span.end);
                add(mention.temperature.scale, None, start..end);
            }
        }
        Self {
            kinds: components.clone().map(|_| OnceLock::new()).collect(),
            told: components.map(|component| told(facts, component)).collect(),
            celsius,
            fahrenheit,
        }
    }

    /// What a component may be.
    pub(super) fn kinds(&self, facts: &Facts<'_>, component: usize) -> &[&'static str] {
        let of = self.kinds.get(component);
        of.map_or(&[], |kinds| kinds.get_or_init(|| kinds::told(facts, component)))
    }

    /// Whether a component tells of something that a row asks for.
    pub(super) fn tells(&self, component: usize, of: Sense) -> bool {
        self.told.get(component).is_some_and(|told| told.contains(&of))
    }

    /// Whether a temperature is the only one in its scale, or its step the only one, and all else is in the other.
    pub(super) fn is_lone(&self, scale: Scale, step: Step) -> bool {
        let (own, other) = match scale {
            Scale::Celsius => (&self.celsius, &self.fahrenheit),
            Scale::Fahrenheit => (&self.fahrenheit, &self.celsius),
        };
        other.number >= OTHERS && matches!(own.places.as_slice(), [(only, _)] if *only == step)
    }
}

fn told(facts: &Facts<'_>, component: usize) -> Vec<Sense> {
    let language = facts.kitchen.language();
    let entry = &facts.recipe.components[component];
    let lines = entry.ingredients.iter().map(|line| facts.recipe.source.slice(&line.span));
    let others: Vec<_> = lines.chain([entry.name.as_str()]).map(|text| language.read(text)).collect();
    let mut told: Vec<Sense> = rows().iter().flat_map(|row| &row.around).copied().collect();
    told.sort_unstable();
    told.dedup();
    told.retain(|of| {
        let lexicon = language.lexicon(*of);
        facts.said_in(component).any(|said| said.tells(*of)) || others.iter().any(|words| lexicon.find(words).is_some())
    });
    told
}
