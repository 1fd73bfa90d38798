//! The shortest way through some work: one pair of hands, one oven, and waits beside them.

use rustc_hash::FxHashMap;

/// A piece of work; times in seconds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Task {
    /// What it belongs to; its tasks follow one another as they are listed.
    pub chain: usize,
    /// How long hands are busy.
    pub hands: u64,
    /// How long the oven is.
    pub oven: u64,
    /// How long it stands alone afterwards.
    pub wait: u64,
    /// The chains that must have ended before.
    pub after: Vec<usize>,
}

impl Task {
    fn length(&self) -> u64 {
        self.hands.saturating_add(self.oven).saturating_add(self.wait)
    }
}

/// How many ways are looked at before the best so far is taken: beyond any recipe that a person cooks in a day.
const MOST_WAYS: usize = 20_000;

/// When each task starts, in seconds from the first, and when the last has ended.
///
/// The way is the shortest; where there are more than [`MOST_WAYS`] to compare, the shortest of those. Tasks that wait for
/// one another in a circle start at nothing.
pub fn schedule(tasks: &[Task]) -> (Vec<u64>, u64) {
    let chains = tasks.iter().map(|task| task.chain + 1).max().unwrap_or(0);
    let mut of_chain: Vec<Vec<usize>> = vec![Vec::new(); chains];
    tasks.iter().enumerate().for_each(|(at, task)| of_chain[task.chain].push(at));
    let tails = tails(tasks, &of_chain);
    let mut search = Search {
        tasks,
        of_chain: &of_chain,
        tails: &tails,
        best: (vec![0; tasks.len()], u64::MAX),
        seen: FxHashMap::default(),
        ways: 0,
    };
    let start = State { done: vec![0; chains], ready: vec![0; chains], hands: 0, oven: 0 };
    search.go_on(start, &mut vec![0; tasks.len()]);
    if search.best.1 == u64::MAX { (vec![0; tasks.len()], 0) } else { search.best }
}

/// The least that must still pass from the start of each task to the end of all.
fn tails(tasks: &[Task], of_chain: &[Vec<usize>]) -> Vec<u64> {
    let mut tails = vec![0; tasks.len()];
    // A chain of tasks is no longer than their number, so that this settles.
    for _ in 0..=tasks.len() {
        let before = tails.clone();
        for (chain, own) in of_chain.iter().enumerate() {
            for (place, at) in own.iter().enumerate() {
                let next = own.get(place + 1).map_or(0, |next| before[*next]);
                let users = tasks.iter().zip(&before).filter(|(task, _)| task.after.contains(&chain));
                let users = users.map(|(_, tail)| *tail).max().unwrap_or(0);
                let behind = if place + 1 == own.len() { next.max(users) } else { next };
                tails[*at] = tasks[*at].length().saturating_add(behind);
            }
        }
        if tails == before {
            break;
        }
    }
    tails
}

/// How far the work is.
#[derive(Clone, Debug)]
struct State {
    /// Tasks done of each chain.
    done: Vec<usize>,
    /// When the last of them has ended.
    ready: Vec<u64>,
    /// When hands and oven are free.
    hands: u64,
    oven: u64,
}

impl State {
    /// Whether another that is as far is nowhere later.
    fn is_beaten_by(&self, other: &Self) -> bool {
        let ready = other.ready.iter().zip(&self.ready).all(|(other, own)| other <= own);
        ready && other.hands <= self.hands && other.oven <= self.oven
    }
}

struct Search<'t> {
    tasks: &'t [Task],
    of_chain: &'t [Vec<usize>],
    tails: &'t [u64],
    best: (Vec<u64>, u64),
    /// The states that were looked at, by how far they are.
    seen: FxHashMap<Vec<usize>, Vec<State>>,
    ways: usize,
}

impl Search<'_> {
    fn go_on(&mut self, state: State, starts: &mut Vec<u64>) {
        let mut next = self.next(&state);
        if next.is_empty() {
            let end = state.ready.iter().copied().max().unwrap_or(0);
            let all = state.done.iter().zip(self.of_chain).all(|(done, own)| *done == own.len());
            if all && end < self.best.1 {
                self.best = (starts.clone(), end);
            }
            return;
        }
        self.ways += 1;
        let seen = self.seen.entry(state.done.clone()).or_default();
        if self.ways > MOST_WAYS || seen.iter().any(|other| state.is_beaten_by(other)) {
            return;
        }
        seen.push(state.clone());
        if self.least(&state, &next) >= self.best.1 {
            return;
        }
        next.sort_by_key(|(start, at)| (*start, std::cmp::Reverse(self.tails[*at]), *at));
        for (start, at) in next {
            let after = self.done(&state, start, at);
            starts[at] = start;
            self.go_on(after, starts);
        }
    }

    /// The tasks that may come next, each with its earliest start.
    fn next(&self, state: &State) -> Vec<(u64, usize)> {
        let ended = |chain: &usize| state.done[*chain] == self.of_chain[*chain].len();
        let open = self.of_chain.iter().zip(&state.done).filter_map(|(own, done)| own.get(*done).copied());
        open.filter(|at| self.tasks[*at].after.iter().all(ended)).map(|at| (self.start(state, at), at)).collect()
    }

    fn start(&self, state: &State, at: usize) -> u64 {
        let task = &self.tasks[at];
        let hands = if task.hands > 0 { state.hands } else { 0 };
        let oven = if task.oven > 0 { state.oven } else { 0 };
        let before = task.after.iter().map(|chain| state.ready[*chain]).max().unwrap_or(0);
        state.ready[task.chain].max(hands).max(oven).max(before)
    }

    fn done(&self, state: &State, start: u64, at: usize) -> State {
        let task = &self.tasks[at];
        let mut after = state.clone();
        after.done[task.chain] += 1;
        after.ready[task.chain] = start.saturating_add(task.length());
        if task.hands > 0 {
            after.hands = start.saturating_add(task.hands);
        }
        if task.oven > 0 {
            after.oven = start.saturating_add(task.hands).saturating_add(task.oven);
        }
        after
    }

    /// The least that the whole can take from a state on.
    fn least(&self, state: &State, next: &[(u64, usize)]) -> u64 {
        let open = self.of_chain.iter().zip(&state.done).flat_map(|(own, done)| &own[*done..]);
        let (mut hands, mut oven) = (state.hands, state.oven);
        for at in open {
            hands = hands.saturating_add(self.tasks[*at].hands);
            oven = oven.saturating_add(self.tasks[*at].oven);
        }
        let paths = next.iter().map(|(start, at)| start.saturating_add(self.tails[*at]));
        let ends = state.ready.iter().copied().max().unwrap_or(0);
        paths.chain([hands, oven, ends]).max().unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn task(chain: usize, hands: u64, oven: u64, wait: u64, after: &[usize]) -> Task {
        Task { chain, hands, oven, wait, after: after.to_vec() }
    }

    #[test]
    fn waits_and_the_oven_run_beside_the_work() {
        // A dough that chills while a filling is made.
        let dough = [task(0, 10, 0, 60, &[]), task(0, 5, 0, 0, &[1]), task(0, 0, 30, 0, &[])];
        let filling = [task(1, 20, 0, 10, &[])];
        assert_eq!(schedule(&[dough.to_vec(), filling.to_vec()].concat()), (vec![0, 70, 75, 10], 105));
        // Two bakes share the oven.
        assert_eq!(schedule(&[task(0, 0, 30, 0, &[]), task(1, 0, 20, 0, &[])]).1, 50);
        // Long waits come first.
        let slow = [task(0, 10, 0, 0, &[]), task(1, 10, 0, 100, &[])];
        assert_eq!(schedule(&slow), (vec![10, 0], 110));
        assert_eq!(schedule(&[]), (vec![], 0));
        // A circle.
        assert_eq!(schedule(&[task(0, 1, 0, 0, &[1]), task(1, 1, 0, 0, &[0])]).1, 0);
    }

    proptest! {
        #[test]
        fn no_way_is_shorter_than_its_longest_part_or_longer_than_the_sum(
            parts in proptest::collection::vec((0_usize..4, 0_u64..30, 0_u64..30, 0_u64..60), 1..10)
        ) {
            let tasks: Vec<Task> = parts.iter().map(|(chain, hands, oven, wait)| {
                let after: Vec<usize> = if *chain == 3 { (0..3).collect() } else { Vec::new() };
                task(*chain, *hands, *oven, *wait, &after)
            }).collect();
            let (starts, end) = schedule(&tasks);
            let sum: u64 = tasks.iter().map(Task::length).sum();
            let hands: u64 = tasks.iter().map(|task| task.hands).sum();
            prop_assert!(end <= sum && end >= hands);
            for (at, one) in tasks.iter().enumerate() {
                prop_assert!(starts[at] + one.length() <= end);
                for (other, two) in tasks.iter().enumerate().filter(|(other, _)| *other != at) {
                    let apart = |own: u64, their: u64| own == 0 || their == 0
                        || starts[at] + own <= starts[other] || starts[other] + their <= starts[at];
                    prop_assert!(apart(one.hands, two.hands), "two hands at once");
                    if one.hands == 0 && two.hands == 0 {
                        prop_assert!(apart(one.oven, two.oven), "two bakes at once");
                    }
                }
            }
        }
    }
}
