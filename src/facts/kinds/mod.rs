//! What kind of thing a component is, and which single slip would explain amounts that no such thing has.
//!
//! Sources: `shares.tsv` and `telling.tsv`, mostly common practice; a row says where it is not.

mod formula;
mod groups;
mod ovens;
mod parts;
mod ranges;
mod telling;
#[cfg(test)]
mod tests;

use formula::{Mix, is_the_dish, names, steps};
use parts::{Amounts, LineShare, Portions, amounts};
use ranges::{Range, ranges};

pub(super) use formula::{Formula, formulas, is_of_the_kitchen};
pub(super) use ovens::oven;

use super::Facts;
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
const ALARM: f64 = 1.1;

/// How much more likely than others a slip is that takes one spoon for the other where one is stated. Common practice.
const SPOON: f64 = 1.3;

/// A sauce that goes in with so much fat is itself made of several things.
const MADE_OF_FAT: f64 = 0.2;

/// All that is weighed.
const TOTAL: &str = "total";

/// Fewer lines than this tell too little of what is lacking.
const LEAST_LINES: usize = 3;

/// Amounts closer than this are not worth swapping.
const ALIKE: f64 = 1.1;

/// The oddity of a component that one slip explains, if every kind that it may be of finds one: that of the kind
/// that it is nearest to.
pub(super) fn oddity(facts: &Facts<'_>, component: usize) -> Option<Oddity> {
    let formula = facts.formulas().get(component)?.as_ref()?;
    if formula.own.shares.len() < 2 {
        return None;
    }
    if let Some(own) = &formula.own_kind {
        return of_kinds(&[(&own.name, &own.ranges)], &formula.own, formula);
    }
    let of = |kinds: &[&'static str], mix: &Mix| {
        let kinds: Vec<(&str, &[Range])> = kinds.iter().map(|kind| (*kind, ranges(kind))).collect();
        of_kinds(&kinds, mix, formula)
    };
    of(&formula.kinds, &formula.own).or_else(|| of(&formula.whole_kinds, formula.whole.as_ref()?))
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
    let Formula { titled, own: Mix { shares, amounts }, .. } = facts.formulas().get(component)?.as_ref()?;
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
    let (kind, part) = telling::lacking(name, title, || steps(facts, component, false), shares, amounts)?;
    (!is_brought_later(facts, component, part)).then_some((kind, part))
}

/// Whether what takes a component up brings a part to it: the sugar of the marmalade, once the fruit is soft.
fn is_brought_later(facts: &Facts<'_>, component: usize, part: &str) -> bool {
    let brings = |formula: &Formula| formula.own.amounts.get(part).is_some_and(|grams| *grams > 0.0);
    facts
        .formulas()
        .iter()
        .enumerate()
        .skip(component + 1)
        .any(|(later, formula)| formula.as_ref().is_some_and(brings) && facts.with_used(later).contains(&component))
}

/// Whether so much of it as is counted, a sprig or a leaf, weighs nothing that matters.
pub(super) fn is_slight(row: &Row) -> bool {
    groups::lists("slight", parts::part(row))
}

/// The oddity that leaves the least strange when mended, if nothing that it may be is nearly as little strange as it stands.
/// Of what nothing tells, the total is that with all that goes in.
fn of_kinds(kinds: &[(&str, &[Range])], mix: &Mix, formula: &Formula) -> Option<Oddity> {
    let judged: Vec<Judged> = kinds.iter().map(|(kind, ranges)| judged(kind, ranges, mix, formula.servings)).collect();
    let as_it_stands = judged.iter().map(|judged| judged.now).min_by(f64::total_cmp)?;
    let mended = judged.into_iter().filter_map(|judged| judged.mended);
    let (left, oddity) = mended.min_by(|one, other| one.0.total_cmp(&other.0))?;
    let own_total = oddity.kind == ranges::ANY_DISH && oddity.base == TOTAL;
    let whole = formula.whole.as_ref().filter(|whole| own_total && !std::ptr::eq(*whole, mix));
    let alarm = as_it_stands - left >= ALARM && whole.is_none_or(|whole| of_kinds(kinds, whole, formula).is_some());
    alarm.then_some(oddity)
}

/// How strange a mix is as a kind, and how strange the likeliest slip leaves it where it is beyond what is usual.
struct Judged {
    now: f64,
    mended: Option<(f64, Oddity)>,
}

fn judged(kind: &str, ranges: &[Range], mix: &Mix, servings: Portions) -> Judged {
    let Mix { shares, amounts: own } = mix;
    let strangeness = |amounts: &Amounts| -> f64 {
        ranges.iter().filter_map(|range| range.share(amounts).map(|share| range.strangeness(share))).sum()
    };
    let now = strangeness(own);
    let beyond = |range: &Range| range.share(own).is_some_and(|share| range.is_beyond(share));
    if !ranges.iter().any(beyond) {
        return Judged { now, mended: None };
    }
    let odd = |range: &&Range| range.share(own).map_or(0.0, |share| range.strangeness(share));
    let oddest = ranges.iter().max_by(|one, other| odd(one).total_cmp(&odd(other)));
    let left = |(slip, changed): (Slip, Vec<(usize, f64)>)| {
        let gain = now - strangeness(&amounts(shares, servings, |at| changed_to(&changed, at, shares[at].grams)));
        (now - if is_spoon(&slip, shares) { gain * SPOON } else { gain }, slip)
    };
    let least = slips(shares).map(left).min_by(|one, other| one.0.total_cmp(&other.0));
    let mended = oddest.zip(least).and_then(|(range, (left, slip))| {
        let (part, base, share, usual) = (range.part, range.base, range.share(own)?, range.usual);
        Some((left, Oddity { kind: kind.into(), part, base, share, usual, slip }))
    });
    Judged { now, mended }
}

/// Whether a slip takes one spoon for the other where the line is stated by that spoon.
fn is_spoon(slip: &Slip, shares: &[LineShare]) -> bool {
    let Slip::Amount { line, grams } = slip else { return false };
    let own = shares.iter().find(|share| share.line == *line && !share.elsewhere);
    own.is_some_and(|share| share.spoon.is_some_and(|factor| (grams / share.grams / factor - 1.0).abs() < 0.01))
}

fn changed_to(changed: &[(usize, f64)], at: usize, grams: f64) -> f64 {
    changed.iter().find(|(line, _)| *line == at).map_or(grams, |(_, grams)| *grams)
}

/// Every slip that may have been made, with the grams that would mend it by the places of the shares.
fn slips(shares: &[LineShare]) -> impl Iterator<Item = (Slip, Vec<(usize, f64)>)> + '_ {
    let own = shares.iter().take_while(|share| !share.elsewhere).count();
    let single = shares[..own].iter().enumerate().flat_map(|(at, share)| {
        let ounces: &[f64] = if share.by_weight { &[OUNCE, 1.0 / OUNCE] } else { &[] };
        let spoons: &[f64] = if groups::lists("by the spoon", share.part) { &[3.0, 1.0 / 3.0] } else { &[] };
        let factors = [10.0, 0.1].into_iter().chain(ounces.iter().copied()).chain(spoons.iter().copied());
        factors.map(move |factor| {
            let grams = share.grams * factor;
            (Slip::Amount { line: share.line, grams }, vec![(at, grams)])
        })
    });
    let pairs = (0..own).flat_map(move |one| (one + 1..own).map(move |other| (one, other)));
    let swapped = pairs.filter_map(|(one, other)| {
        let (first, second) = (&shares[one], &shares[other]);
        let apart = first.grams.max(second.grams) / first.grams.min(second.grams) >= ALIKE;
        let slip = Slip::Swapped(first.line, second.line);
        (apart && first.part != second.part).then(|| (slip, vec![(one, second.grams), (other, first.grams)]))
    });
    single.chain(swapped)
}
