//! How long a recipe takes: hands, oven, waits, and the shortest way through.

use super::schedule::{Task, schedule};
use super::{Facts, StepKey};
use crate::measure::Duration;
use crate::recipe::Step;

/// The times of a recipe; `None` where no step states any of a kind.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RecipeTimes {
    /// Work of hands.
    pub hands_on: Option<Duration>,
    /// In the oven.
    pub in_the_oven: Option<Duration>,
    /// Unattended.
    pub waiting: Option<Duration>,
    /// The shortest way from the first step to the last, with one pair of hands and one oven, waits and the oven beside the
    /// work; of ranges the longer ends.
    pub start_to_finish: Option<Duration>,
    /// When each step of each component starts on that way, in seconds from the first.
    pub starts: Vec<Vec<u64>>,
}

/// Works out the times of a recipe.
pub(super) fn times(facts: &Facts<'_>) -> RecipeTimes {
    let components = &facts.recipe.components;
    let steps = || components.iter().flat_map(|component| &component.steps);
    let sum = |durations: &mut dyn Iterator<Item = Duration>| durations.reduce(Duration::plus);
    let mut tasks = Vec::new();
    for (chain, component) in components.iter().enumerate() {
        let taken = taken_up(facts, chain);
        for (step, stated) in component.steps.iter().enumerate() {
            let after = taken.iter().filter(|(_, at)| *at == step).map(|(earlier, _)| *earlier).collect();
            tasks.push(task(chain, stated, after));
        }
    }
    let (starts, end) = schedule(&tasks);
    let mut starts = starts.into_iter();
    let of_component = |component: &crate::recipe::Component| starts.by_ref().take(component.steps.len()).collect();
    RecipeTimes {
        hands_on: sum(&mut steps().filter(|step| step.oven.is_none()).filter_map(|step| step.time)),
        in_the_oven: sum(&mut steps().filter(|step| step.oven.is_some()).filter_map(|step| step.time)),
        waiting: sum(&mut steps().filter_map(|step| step.wait)),
        start_to_finish: (end > 0).then(|| span(facts, end)),
        starts: components.iter().map(of_component).collect(),
    }
}

/// The whole way; a range where a single stated time is one, so that readers see that it is not meant exactly.
fn span(facts: &Facts<'_>, end: u64) -> Duration {
    let steps = facts.recipe.components.iter().flat_map(|component| &component.steps);
    let times = steps.flat_map(|step| [step.time, step.wait]).flatten();
    let slack: u64 = times.map(|time| time.high - time.low).fold(0, u64::saturating_add);
    Duration { low: end.saturating_sub(slack), high: end }
}

/// A step as work: its time is that of the oven where it has one, else that of hands; heating an oven keeps it, too.
fn task(chain: usize, step: &Step, after: Vec<usize>) -> Task {
    let seconds = |time: Option<Duration>| time.map_or(0, |time| time.high);
    let (time, wait) = (seconds(step.time), seconds(step.wait));
    match step.oven {
        Some(_) if time == 0 => Task { chain, oven: wait, after, ..Task::default() },
        Some(_) => Task { chain, oven: time, wait, after, ..Task::default() },
        None => Task { chain, hands: time, wait, after, ..Task::default() },
    }
}

/// The earlier components that a component takes up, each with the step that does: the first that names it, else the first
/// of all.
fn taken_up(facts: &Facts<'_>, component: usize) -> Vec<(usize, usize)> {
    let steps = &facts.recipe.components[component].steps;
    let said = |step: usize, earlier: usize| {
        let stated = steps[step].uses.iter().any(|used| used.component == earlier);
        stated || names(facts, component, step, earlier)
    };
    let taken = (0..component).filter_map(|earlier| {
        let step = (0..steps.len()).find(|step| said(*step, earlier));
        step.or_else(|| facts.uses(component, earlier).then_some(0)).map(|step| (earlier, step))
    });
    taken.collect()
}

/// Whether a step names an earlier component.
fn names(facts: &Facts<'_>, component: usize, step: usize, earlier: usize) -> bool {
    facts.said_under(component, step, StepKey::Do).is_some_and(|said| facts.names_component(said, earlier).is_some())
}
