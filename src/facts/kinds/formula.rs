//! What a component is made of, with what goes into it.

use super::parts::{Amounts, LineShare, Portions, amounts, shares};
use super::ranges::{ANY_DISH, Range, of_own, ranges};
use super::{groups, telling};
use crate::facts::{Facts, LineFacts, StepKey};
use crate::language::Sense;

/// The kinds of what the rest of a dough is mixed into.
const SPONGES: [&str; 4] = ["poolish", "biga", "yeast sponge", "levain build"];

/// A component that adds less than this share to another goes on with it.
const ADDED: f64 = 0.25;

/// What a component is made of, and which names tell its kind.
#[derive(Clone, Debug)]
pub(in crate::facts) struct Formula {
    /// Whether the title speaks of it.
    pub(super) titled: bool,
    pub(super) servings: Portions,
    /// Its own lines, and those of the preferments that go into it.
    pub(super) own: Mix,
    /// With all else that goes into it, where that is known.
    pub(super) whole: Option<Mix>,
    /// What it may be.
    pub(super) kinds: Vec<&'static str>,
    /// What it is with all that goes into it, where it alone is nothing: a marmalade with its fruit.
    pub(super) whole_kinds: Vec<&'static str>,
    /// What the kitchen itself takes it for, which counts before all others.
    pub(super) own_kind: Option<KitchensKind>,
}

/// Lines and the amounts of their parts.
#[derive(Clone, Debug)]
pub(super) struct Mix {
    pub(super) shares: Vec<LineShare>,
    /// As they stand.
    pub(super) amounts: Amounts,
}

impl Mix {
    fn of(shares: Vec<LineShare>, servings: Portions) -> Self {
        let amounts = amounts(&shares, servings, |at| shares[at].grams);
        Self { shares, amounts }
    }
}

/// A kind of component of the kitchen's own.
#[derive(Clone, Debug)]
pub(super) struct KitchensKind {
    pub(super) name: String,
    pub(super) ranges: Vec<Range>,
}

/// The kitchen's own kind whose name stands in that of a component, or in the title where that speaks of it.
fn of_the_kitchen(facts: &Facts<'_>, names: (&str, &str)) -> Option<KitchensKind> {
    let is_called = |phrase: &str| telling::holds(names.0, phrase) || telling::holds(names.1, phrase);
    let kind = facts.kitchen.pantry().kinds().iter().find(|kind| kind.names().any(is_called))?;
    Some(KitchensKind { name: kind.name.clone(), ranges: of_own(kind) })
}

/// Whether the kitchen itself says what is usual in a component.
pub(in crate::facts) fn is_of_the_kitchen(facts: &Facts<'_>, component: usize) -> bool {
    matches!(facts.formulas().get(component), Some(Some(formula)) if formula.own_kind.is_some())
}

/// The formula of each component; none where a line cannot be weighed.
pub(in crate::facts) fn formulas(facts: &Facts<'_>) -> Vec<Option<Formula>> {
    let fries = facts.said.iter().any(|said| said.tells(Sense::Frying) || said.tells(Sense::PanFries));
    let count = facts.recipe.components.len();
    let shares: Vec<Option<Vec<LineShare>>> = (0..count).map(|component| own_shares(facts, component, fries)).collect();
    (0..count).map(|component| Formula::of(facts, component, &shares)).collect()
}

fn own_shares(facts: &Facts<'_>, component: usize, fries: bool) -> Option<Vec<LineShare>> {
    let mut shares = shares(&facts.lines[component], fries, facts.kitchen.language())?;
    shares.retain(|share| share.part != "salt" || !facts.is_rinsed_off(component, share.line));
    Some(shares)
}

/// What a dough is the rest of: a sponge, a leaven or a scald, of flour and what it is wetted, raised and seasoned with;
/// or a first dough that is raised.
fn is_preferment(facts: &Facts<'_>, component: usize, all: &[Option<Vec<LineShare>>]) -> bool {
    let Some(shares) = &all[component] else { return false };
    let raises = |share: &LineShare| matches!(share.part, "dry yeast" | "fresh yeast" | "starter");
    let raised = || facts.with_used(component).into_iter().filter_map(|used| all[used].as_ref()).flatten().any(raises);
    has_flour(shares) && (shares.iter().all(|share| groups::lists("preferment", share.part)) || raised())
}

/// The preferments that a component takes up, and those that these take up in turn.
fn preferments(facts: &Facts<'_>, component: usize, all: &[Option<Vec<LineShare>>]) -> Vec<usize> {
    let mut found = Vec::new();
    let mut next = vec![component];
    while let Some(later) = next.pop() {
        let goes_in = |used: &usize| facts.uses(later, *used) && is_preferment(facts, *used, all);
        let new: Vec<usize> = (0..later).filter(goes_in).filter(|used| !found.contains(used)).collect();
        found.extend(&new);
        next.extend(new);
    }
    found.sort_unstable();
    found
}

/// What the rest of a dough is mixed into, by any name: of preferments that which is not salted, and goes into flour.
fn is_sponge(facts: &Facts<'_>, component: usize, all: &[Option<Vec<LineShare>>]) -> bool {
    let goes_into_flour = |later: usize| facts.uses(later, component) && all[later].as_deref().is_some_and(has_flour);
    let own = all[component].as_deref().unwrap_or_default();
    let is_raw = own.iter().all(|share| groups::lists("preferment", share.part) && share.part != "salt");
    let raised = own.iter().any(|share| matches!(share.part, "dry yeast" | "fresh yeast" | "starter"));
    is_raw && raised && has_flour(own) && (component + 1..all.len()).any(goes_into_flour)
}

/// The kinds of preferment that a sponge may be, where none is told by its name.
fn as_sponge(told: Vec<&'static str>, amounts: &Amounts) -> Vec<&'static str> {
    if told.iter().any(|kind| SPONGES.contains(kind)) {
        return told;
    }
    let there = |part: &str| amounts.get(part).is_some_and(|grams| *grams > 0.0);
    let lacks = |kind: &str| ranges(kind).iter().any(|range| range.needed && !there(range.part));
    let sponges: Vec<&'static str> = SPONGES.into_iter().filter(|kind| !lacks(kind)).collect();
    if sponges.is_empty() { told } else { sponges }
}

fn has_flour(shares: &[LineShare]) -> bool {
    shares.iter().any(|share| share.part == "flour")
}

impl Formula {
    fn of(facts: &Facts<'_>, component: usize, all: &[Option<Vec<LineShare>>]) -> Option<Self> {
        let mut shares = all[component].clone()?;
        let used: Vec<usize> = facts.with_used(component).into_iter().filter(|used| *used < component).collect();
        let elsewhere = |used: usize| -> Option<Vec<LineShare>> {
            Some(all[used].as_ref()?.iter().map(LineShare::of_another).collect())
        };
        let preferments = if has_flour(&shares) { preferments(facts, component, all) } else { Vec::new() };
        let others: Vec<usize> = used.into_iter().filter(|used| !preferments.contains(used)).collect();
        shares.extend(preferments.into_iter().filter_map(elsewhere).flatten());
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
        let of_others: Option<Vec<Vec<LineShare>>> = others.into_iter().map(elsewhere).collect();
        let whole = of_others.filter(|others| !others.is_empty()).map(|others| {
            let more = others.into_iter().flatten();
            Mix::of(shares.iter().copied().chain(more).collect(), servings)
        });
        let own = Mix::of(shares, servings);
        let (name, title) = names(facts, component, titled);
        let told = telling::kinds(name, title, || steps(facts, component, titled), &own.shares, &own.amounts);
        let kinds = if is_sponge(facts, component, all) { as_sponge(told, &own.amounts) } else { told };
        let all = whole.as_ref().filter(|_| kinds == [ANY_DISH]);
        let whole_kinds = all.map(|whole| telling::surely(name, || steps(facts, component, titled), &whole.amounts));
        let whole_kinds = whole_kinds.unwrap_or_default();
        let own_kind = of_the_kitchen(facts, (name, title));
        Some(Self { titled, servings, own, whole, kinds, whole_kinds, own_kind })
    }
}

/// The names that tell the kind of a component: its own, and the title where that speaks of it.
pub(super) fn names<'f>(facts: &Facts<'f>, component: usize, titled: bool) -> (&'f str, &'f str) {
    (&facts.recipe.components[component].name, if titled { &facts.recipe.title } else { "" })
}

/// What its own steps say; where the whole dish is called so, also those of what hardly adds to it: a base is churned
/// later.
pub(super) fn steps(facts: &Facts<'_>, component: usize, titled: bool) -> String {
    let grams = |of: usize| facts.lines[of].iter().filter_map(LineFacts::grams).sum::<f64>();
    let goes_on = |other: usize| {
        let alone = (0..other).all(|used| used == component || !facts.uses(other, used));
        facts.uses(other, component) && alone && grams(other) < grams(component) * ADDED
    };
    let own = |other: usize| other == component || titled && goes_on(other);
    let said = facts.said.iter().filter(|said| own(said.component) && said.key == StepKey::Do).map(|said| said.text);
    said.collect::<Vec<_>>().join(" ")
}

/// Whether the title speaks of this component: it is the only one, or holds most of what is weighed.
pub(super) fn is_the_dish(facts: &Facts<'_>, component: usize) -> bool {
    let grams = |lines: &[LineFacts<'_>]| lines.iter().filter_map(LineFacts::grams).sum::<f64>();
    let all: f64 = facts.lines.iter().map(|lines| grams(lines)).sum();
    grams(&facts.lines[component]) * 2.0 > all
}
