//! What kind of thing a component is, and which single slip would explain amounts that no such thing has.
//!
//! Sources: `shares.tsv` and `telling.tsv`, mostly common practice; a row says where it is not.

mod groups;
mod ovens;
mod parts;
mod ranges;
mod telling;
#[cfg(test)]
mod tests;

use parts::{Amounts, LineShare, Portions, amounts, shares};
use ranges::{Range, of_own, ranges};

pub(super) use ovens::oven;

use super::{Facts, StepKey};
use crate::language::Sense;
use crate::pantry::Row;

/// A slip of the fingers or the eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Slip {
    /// One line by a factor: a digit too many or too few, ounces for grams, one spoon for another.
    Amount {
        /// Index of the line.
        line: usize,
        /// What it would weigh, in grams.
        grams: f64,
    },
    /// The amounts of two lines.
    Swapped(usize, usize),
}

/// Amounts that are not those of any kind that a component may be of.
#[derive(Clone, Debug, PartialEq)]
pub struct Oddity {
    /// What it is taken for.
    pub kind: String,
    /// The part whose share is the oddest.
    pub part: &'static str,
    /// What the share is of.
    pub base: &'static str,
    /// The share, in per cent.
    pub share: f64,
    /// The usual shares, in per cent.
    pub usual: (f64, f64),
    /// What explains it.
    pub slip: Slip,
}

/// An ounce in grams, to the milligram.
const OUNCE: f64 = 28.350;

/// An alarm takes away so much strangeness. Chosen on sets of sound formulas: 2 % of unseen ones are alarmed.
const ALARM: f64 = 1.5;

/// How much more likely than others a slip is that takes one spoon for the other where one is stated. Common practice.
const SPOON: f64 = 1.3;

/// A sauce that goes in with so much fat is itself made of several things.
const MADE_OF_FAT: f64 = 0.2;

/// Fewer lines than this tell too little of what is lacking.
const LEAST_LINES: usize = 3;

/// A component that adds less than this share to another goes on with it.
const ADDED: f64 = 0.25;

/// Amounts closer than this are not worth swapping.
const ALIKE: f64 = 1.1;

/// The oddity of a component that one slip explains, if every kind that it may be of finds one: that of the kind
/// that it is nearest to.
pub(super) fn oddity(facts: &Facts<'_>, component: usize) -> Option<Oddity> {
    let formula = facts.formulas().get(component)?.as_ref()?;
    if formula.shares.len() < 2 {
        return None;
    }
    if let Some(own) = &formula.own_kind {
        return of_kind(&own.name, &own.ranges, formula).map(|(_, oddity)| oddity);
    }
    let mut nearest: Option<(f64, Oddity)> = None;
    for kind in &formula.kinds {
        let found = of_kind(kind, ranges(kind), formula)?;
        if nearest.as_ref().is_none_or(|(gain, _)| found.0 < *gain) {
            nearest = Some(found);
        }
    }
    nearest.map(|(_, oddity)| oddity)
}

/// The kinds that a component may be of; none where nothing tells it.
pub(super) fn told(facts: &Facts<'_>, component: usize) -> Vec<&'static str> {
    match facts.formulas().get(component) {
        Some(Some(formula)) => formula.kinds.iter().copied().filter(|kind| *kind != ranges::ANY_DISH).collect(),
        _ => {
            let (name, title) = names(facts, component, is_the_dish(facts, component));
            telling::named(name, title)
        }
    }
}

/// The kind that a component is taken for, and the one part that it lacks though no such thing is without it.
pub(super) fn lacking(facts: &Facts<'_>, component: usize) -> Option<(&'static str, &'static str)> {
    if !facts.recipe.components[component].uses.is_empty() || is_of_the_kitchen(facts, component) {
        return None;
    }
    let Formula { titled, shares, own, .. } = facts.formulas().get(component)?.as_ref()?;
    let (name, title) = names(facts, component, *titled);
    let lines = &facts.lines[component];
    // A line that was not weighed may be the one, unless it only seasons.
    let left_out = lines.iter().enumerate().filter(|(at, _)| !shares.iter().any(|share| share.line == *at));
    let seasons =
        |line: &super::LineFacts<'_>| line.row.is_some_and(|row| groups::lists("seasoning", parts::part(row)));
    let all_weighed = left_out.into_iter().all(|(_, line)| seasons(line));
    // Mayonnaise and the like hold what a list of plain things would name.
    let made = shares.iter().any(|share| matches!(share.part, "condiment" | "other") && share.fat > MADE_OF_FAT);
    if shares.len() < LEAST_LINES || made || !all_weighed {
        return None;
    }
    telling::lacking(name, title, || steps(facts, component, false), shares, own)
}

/// What a component is made of, and which names tell its kind.
#[derive(Clone, Debug)]
pub(super) struct Formula {
    /// Whether the title speaks of it.
    titled: bool,
    shares: Vec<LineShare>,
    servings: Portions,
    /// The amounts of its parts as they stand.
    own: Amounts,
    /// What it may be.
    kinds: Vec<&'static str>,
    /// What the kitchen itself takes it for, which counts before all others.
    own_kind: Option<KitchensKind>,
}

/// A kind of component of the kitchen's own.
#[derive(Clone, Debug)]
struct KitchensKind {
    name: String,
    ranges: Vec<Range>,
}

/// The kitchen's own kind whose name stands in that of a component, or in the title where that speaks of it.
fn of_the_kitchen(facts: &Facts<'_>, names: (&str, &str)) -> Option<KitchensKind> {
    let is_called = |phrase: &str| telling::holds(names.0, phrase) || telling::holds(names.1, phrase);
    let kind = facts.kitchen.pantry().kinds().iter().find(|kind| kind.names().any(is_called))?;
    Some(KitchensKind { name: kind.name.clone(), ranges: of_own(kind) })
}

/// Whether the kitchen itself says what is usual in a component.
pub(super) fn is_of_the_kitchen(facts: &Facts<'_>, component: usize) -> bool {
    matches!(facts.formulas().get(component), Some(Some(formula)) if formula.own_kind.is_some())
}

/// The formula of each component; none where a line cannot be weighed.
pub(super) fn formulas(facts: &Facts<'_>) -> Vec<Option<Formula>> {
    let fries = facts.said.iter().any(|said| said.tells(Sense::Frying) || said.tells(Sense::PanFries));
    (0..facts.recipe.components.len()).map(|component| Formula::of(facts, component, fries)).collect()
}

impl Formula {
    fn of(facts: &Facts<'_>, component: usize, fries: bool) -> Option<Self> {
        let mut shares = shares(&facts.lines[component], fries, facts.kitchen.language())?;
        shares.retain(|share| share.part != "salt" || !facts.is_rinsed_off(component, share.line));
        let is_the_dish = is_the_dish(facts, component);
        let title = facts.recipe.title.as_str();
        // `Coffee choux` tells of the component that is called choux, and not of the cream in it.
        let of_another = is_the_dish
            && facts.recipe.components.iter().enumerate().any(|(other, entry)| {
                other != component && !facts.uses(other, component) && telling::tell_the_same(title, &entry.name)
            });
        let servings =
            Portions { number: facts.recipe.serves.map_or(0.0, |serves| f64::from(serves.reckoned())), is_the_dish };
        let titled = is_the_dish && !of_another;
        let own = amounts(&shares, servings, |at| shares[at].grams);
        let (name, title) = names(facts, component, titled);
        let kinds = telling::kinds(name, title, || steps(facts, component, titled), &shares, &own);
        let own_kind = of_the_kitchen(facts, (name, title));
        Some(Self { titled, shares, servings, own, kinds, own_kind })
    }
}

/// The names that tell the kind of a component: its own, and the title where that speaks of it.
fn names<'f>(facts: &Facts<'f>, component: usize, titled: bool) -> (&'f str, &'f str) {
    (&facts.recipe.components[component].name, if titled { &facts.recipe.title } else { "" })
}

/// Whether so much of it as is counted, a sprig or a leaf, weighs nothing that matters.
pub(super) fn is_slight(row: &Row) -> bool {
    groups::lists("slight", parts::part(row))
}

/// What its own steps say; where the whole dish is called so, also those of what hardly adds to it: a base is churned
/// later.
fn steps(facts: &Facts<'_>, component: usize, titled: bool) -> String {
    let grams = |of: usize| facts.lines[of].iter().filter_map(super::LineFacts::grams).sum::<f64>();
    let goes_on = |other: usize| {
        let alone = (0..other).all(|used| used == component || !facts.uses(other, used));
        facts.uses(other, component) && alone && grams(other) < grams(component) * ADDED
    };
    let own = |other: usize| other == component || titled && goes_on(other);
    let said = facts.said.iter().filter(|said| own(said.component) && said.key == StepKey::Do).map(|said| said.text);
    said.collect::<Vec<_>>().join(" ")
}

/// Whether the title speaks of this component: it is the only one, or holds most of what is weighed.
fn is_the_dish(facts: &Facts<'_>, component: usize) -> bool {
    let grams = |lines: &[super::LineFacts<'_>]| lines.iter().filter_map(super::LineFacts::grams).sum::<f64>();
    let all: f64 = facts.lines.iter().map(|lines| grams(lines)).sum();
    grams(&facts.lines[component]) * 2.0 > all
}

/// What a kind finds odd, and how much of it one slip takes away.
fn of_kind(kind: &str, ranges: &[Range], formula: &Formula) -> Option<(f64, Oddity)> {
    let Formula { shares, servings, own, .. } = formula;
    let strangeness = |amounts: &Amounts| -> f64 {
        ranges.iter().filter_map(|range| range.share(amounts).map(|share| range.strangeness(share))).sum()
    };
    let beyond = |range: &&Range| range.share(own).is_some_and(|share| range.is_beyond(share));
    ranges.iter().find(beyond)?;
    let odd = |range: &&Range| range.share(own).map_or(0.0, |share| range.strangeness(share));
    let oddest = ranges.iter().max_by(|one, other| odd(one).total_cmp(&odd(other)))?;
    let now = strangeness(own);
    let (gain, slip) = slips(shares)
        .map(|(slip, changed)| {
            let mended = amounts(shares, *servings, |at| changed_to(&changed, at, shares[at].grams));
            let gain = now - strangeness(&mended);
            (if is_spoon(&slip, shares) { gain * SPOON } else { gain }, slip)
        })
        .max_by(|one, other| one.0.total_cmp(&other.0))?;
    let (part, base, share, usual) = (oddest.part, oddest.base, oddest.share(own)?, oddest.usual);
    (gain >= ALARM).then(|| (gain, Oddity { kind: kind.into(), part, base, share, usual, slip }))
}

/// Whether a slip takes one spoon for the other where the line is stated by that spoon.
fn is_spoon(slip: &Slip, shares: &[LineShare]) -> bool {
    let Slip::Amount { line, grams } = slip else { return false };
    let own = shares.iter().find(|share| share.line == *line);
    own.is_some_and(|share| share.spoon.is_some_and(|factor| (grams / share.grams / factor - 1.0).abs() < 0.01))
}

fn changed_to(changed: &[(usize, f64)], at: usize, grams: f64) -> f64 {
    changed.iter().find(|(line, _)| *line == at).map_or(grams, |(_, grams)| *grams)
}

/// Every slip that may have been made, with the grams that would mend it by the places of the shares.
fn slips(shares: &[LineShare]) -> impl Iterator<Item = (Slip, Vec<(usize, f64)>)> + '_ {
    let single = shares.iter().enumerate().flat_map(|(at, share)| {
        let ounces: &[f64] = if share.by_weight { &[OUNCE, 1.0 / OUNCE] } else { &[] };
        let spoons: &[f64] = if groups::lists("by the spoon", share.part) { &[3.0, 1.0 / 3.0] } else { &[] };
        let factors = [10.0, 0.1].into_iter().chain(ounces.iter().copied()).chain(spoons.iter().copied());
        factors.map(move |factor| {
            let grams = share.grams * factor;
            (Slip::Amount { line: share.line, grams }, vec![(at, grams)])
        })
    });
    let pairs = (0..shares.len()).flat_map(|one| (one + 1..shares.len()).map(move |other| (one, other)));
    let swapped = pairs.filter_map(|(one, other)| {
        let (first, second) = (&shares[one], &shares[other]);
        let apart = first.grams.max(second.grams) / first.grams.min(second.grams) >= ALIKE;
        let slip = Slip::Swapped(first.line, second.line);
        (apart && first.part != second.part).then(|| (slip, vec![(one, second.grams), (other, first.grams)]))
    });
    single.chain(swapped)
}
