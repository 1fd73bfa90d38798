//! What a component is made of, with what goes into it.

use super::parts::{Amounts, LineShare, Portions, amounts, shares};
use super::ranges::{Range, of_own};
use super::{groups, telling};
use crate::facts::{Facts, LineFacts, StepKey};
use crate::language::Sense;
use crate::pantry::words;

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

/// Flour and what it is wetted, raised and seasoned with: a sponge, a leaven, a scald, of which the dough is the rest.
fn is_preferment(shares: &[LineShare]) -> bool {
    has_flour(shares) && shares.iter().all(|share| groups::lists("preferment", share.part))
}

/// A first dough, of which the second is made: both have flour, and are called by one word.
fn is_first_dough(shares: &[LineShare], name: &str, of: &str) -> bool {
    let of = words(of);
    has_flour(shares) && words(name).iter().any(|word| of.contains(word))
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
        let is_dough = has_flour(&shares);
        let name = |of: usize| facts.recipe.components[of].name.as_str();
        let goes_in = |used: &usize| {
            let of_dough =
                |shares: &[LineShare]| is_preferment(shares) || is_first_dough(shares, name(*used), name(component));
            is_dough && all[*used].as_deref().is_some_and(of_dough)
        };
        let (preferments, others): (Vec<usize>, Vec<usize>) = used.into_iter().partition(goes_in);
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
        let kinds = telling::kinds(name, title, || steps(facts, component, titled), &own.shares, &own.amounts);
        let own_kind = of_the_kitchen(facts, (name, title));
        Some(Self { titled, servings, own, whole, kinds, own_kind })
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
