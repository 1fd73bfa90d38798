//! How much of a line a step takes.

use std::ops::Range;

use super::share::{pronoun_share, said_share, takes_little};
use super::{Facts, Portion, Said, Share, StepKey, collective};
use crate::language::{Sense, Word, sentence};
use crate::measure::Number;
use crate::pantry::{Role, is_droppable};

/// A place where a step names a line, or means it with others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Taking {
    /// Index of the step in its component.
    pub step: usize,
    /// Index of the line in its component.
    pub line: usize,
    /// How much of it.
    pub share: Share,
    /// Whether the words say how much; else it is inferred from the other steps.
    pub said: bool,
    /// The first word that names it, by its place in the step's text; `None` where it is meant with others.
    pub word: Option<usize>,
}

/// How much of a line is left for the steps that come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Left {
    /// All; whether it was spoken of in words that may mean another line.
    All { spoken_of: bool },
    /// What parts left, by their sum as far as it is known.
    Some(Number),
    /// Nothing.
    Nothing,
}

/// What the steps of a component take of its lines.
#[derive(Debug, Default)]
pub struct Taken {
    /// Each place where a step takes of a line, or speaks of it again, as they come.
    pub takings: Vec<Taking>,
    /// The lines that a step may take besides: those that a word for what is made of them, or a verb, calls for.
    pub hinted: Vec<usize>,
}

impl Taken {
    /// What each step takes of each line, all that it says together: a part and then the rest of it are all. By steps
    /// and lines.
    pub fn by_step(&self) -> Vec<StepTaking> {
        let mut steps: Vec<StepTaking> = Vec::new();
        for taking in &self.takings {
            let of_line = |other: &&StepTaking| other.line == taking.line && other.share != Share::Again;
            let before = steps.iter().filter(of_line).filter(|other| other.step < taking.step);
            let taken = before.clone().try_fold(Number::from_integer(0), |sum, other| Some(sum + other.part?));
            let own = StepTaking::of(taking, taken);
            let begun = before.count() > 0;
            match steps.iter_mut().find(|other| other.step == taking.step && other.line == taking.line) {
                Some(here) => here.add(own, begun),
                None => steps.push(own),
            }
        }
        steps.sort_by_key(|taking| (taking.step, taking.line));
        steps
    }
}

/// What a step takes of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StepTaking {
    /// Index of the step in its component.
    pub step: usize,
    /// Index of the line in its component.
    pub line: usize,
    /// How much of it.
    pub share: Share,
    /// The fraction of the line that it is, where that can be told.
    pub part: Option<Number>,
}

impl StepTaking {
    /// A single taking; `taken` is the fraction that the steps before took.
    fn of(taking: &Taking, taken: Option<Number>) -> Self {
        let one = Number::from_integer(1);
        let part = match taking.share {
            Share::All => Some(one),
            Share::Part(Portion::Of(part)) => Some(part),
            Share::Rest => taken.map(|taken| one - taken),
            Share::Part(_) | Share::Again => None,
        };
        let part = part.filter(|part| *part > Number::from_integer(0));
        Self { step: taking.step, line: taking.line, share: taking.share, part }
    }

    /// Adds what the same step says later; `begun` where steps before took some.
    fn add(&mut self, other: Self, begun: bool) {
        let sum = self.part.zip(other.part).map(|(own, other)| own + other);
        match (self.share, other.share) {
            (_, Share::Again) => {}
            (Share::Again, _) => *self = other,
            (Share::Part(_), Share::Rest) if !begun => {
                (self.share, self.part) = (Share::All, Some(Number::from_integer(1)));
            }
            (Share::Part(_), Share::Part(_)) => {
                (self.share, self.part) = (Share::Part(sum.map_or(Portion::Some, Portion::Of)), sum);
            }
            _ => {}
        }
    }
}

/// What the steps of a component take, by what each is told to do, in the order in which it is said.
pub(super) fn taken(facts: &Facts<'_>, component: usize) -> Taken {
    let lines = &facts.lines[component];
    let mut takings = Takings { left: vec![Left::All { spoken_of: false }; lines.len()], all: Vec::new() };
    let mut hinted = Vec::new();
    for said in facts.said_in(component).filter(|said| said.key == StepKey::Do) {
        for sentence in sentences(&said.words) {
            let meant = collective::meant(facts, component, said, sentence.clone(), &takings.left);
            let named = names(said, sentence.clone()).into_iter().map(|(line, word)| (line, Some(word)));
            let named = named.filter(|(line, word)| !is_other_water(facts, said, *line, *word));
            for (line, word) in named.chain(meant.taken) {
                let share = word.and_then(|word| said_share(said, word, &lines[line], line));
                let little = share.is_none() && word.is_some_and(|word| takes_little(said, word));
                let inferred = if little { Share::Part(Portion::Some) } else { Share::All };
                let share_or = share.unwrap_or(inferred);
                takings.add(Taking { step: said.step, line, share: share_or, said: share.is_some(), word });
            }
            hinted.extend(meant.hinted);
            if let Some(share) = pronoun_share(said, sentence.clone()) {
                takings.lessen(said.step, share);
            }
            said.named[sentence].iter().flatten().for_each(|named| takings.speak_of(named.line));
        }
    }
    Taken { takings: takings.settled(), hinted }
}

/// `Soak the gelatine in cold water`, where a later sentence takes `the water`: the tap's, and not the line's.
fn is_other_water(facts: &Facts<'_>, said: &Said<'_>, line: usize, word: Option<usize>) -> bool {
    let (Some(word), true) = (word, facts.lines[said.component][line].rows().any(|row| row.is(Role::Water))) else {
        return false;
    };
    let before = |said: &Said<'_>, at: usize| {
        let idle = |place: &usize| is_droppable(&said.words[*place].stem) && !said.tells_at(Sense::Within, *place);
        (0..at).rev().take_while(idle).last().unwrap_or(at).checked_sub(1)
    };
    let in_some = before(said, word).is_some_and(|at| said.tells_at(Sense::Within, at));
    let names = |said: &Said<'_>, at: usize| said.named[at].iter().any(|named| named.surely && named.line == line);
    let is_the = |said: &Said<'_>, at: usize| before(said, at).is_some_and(|before| said.tells_at(Sense::The, before));
    let behind = facts.said_in(said.component).filter(|other| other.key == StepKey::Do && other.step >= said.step);
    let mut later = behind.flat_map(|other| (0..other.words.len()).map(move |at| (other, at)));
    in_some && later.any(|(other, at)| (other.step > said.step || at > word) && names(other, at) && is_the(other, at))
}

/// The places of the words of each sentence.
fn sentences(words: &[Word]) -> impl Iterator<Item = Range<usize>> {
    let last = words.last().map(|word| word.sentence);
    (0..last.map_or(0, |last| last + 1)).map(|number| sentence(words, number)).filter(|places| !places.is_empty())
}

/// The lines that a sentence surely names, each with the first word of the name.
pub(super) fn names(said: &Said<'_>, sentence: Range<usize>) -> Vec<(usize, usize)> {
    let surely = |at: usize, line: usize| said.named[at].iter().any(|named| named.surely && named.line == line);
    let begins = |at: usize, line: usize| at == sentence.start || !surely(at - 1, line);
    let named = sentence.clone().flat_map(|at| said.named[at].iter().map(move |named| (named.line, at)));
    named.filter(|(line, at)| surely(*at, *line) && begins(*at, *line) && !said.excepted[*at]).collect()
}

/// The takings so far, and what they leave of each line.
struct Takings {
    left: Vec<Left>,
    all: Vec<Taking>,
}

impl Takings {
    /// Adds a taking, fitted to the earlier ones of its line: what is taken later was not all taken before, and what was
    /// is only spoken of.
    fn add(&mut self, mut taking: Taking) {
        let left = &mut self.left[taking.line];
        let (zero, one) = (Number::from_integer(0), Number::from_integer(1));
        match (taking.share, *left) {
            (Share::All, Left::All { .. }) | (Share::Rest, Left::All { .. }) => *left = Left::Nothing,
            (Share::All | Share::Rest, Left::Some(_)) => {
                taking.share = Share::Rest;
                *left = Left::Nothing;
            }
            (Share::Part(portion), Left::All { .. } | Left::Some(_)) => {
                let earlier = if let Left::Some(sum) = *left { sum } else { zero };
                let sum = if let Portion::Of(part) = portion { earlier + part } else { earlier };
                *left = if sum < one { Left::Some(sum) } else { Left::Nothing };
            }
            // What the words say stands, also where it is too much.
            (Share::Rest | Share::Part(Portion::Of(_) | Portion::Stated), Left::Nothing) if taking.said => {
                let part = unmade(&mut self.all, taking.line) && taking.share != Share::Rest;
                *left = if part { Left::Some(zero) } else { Left::Nothing };
            }
            (_, Left::Nothing) | (Share::Again, _) => taking.share = Share::Again,
        }
        self.all.push(taking);
    }

    /// What a step has just taken was a share of it: `chop the nuts and fold in half of them`.
    fn lessen(&mut self, step: usize, share: Share) {
        let Some(last) = self.all.last().filter(|last| last.step == step).copied() else { return };
        for taking in self.all.iter_mut().rev().take_while(|taking| taking.step == step && taking.word == last.word) {
            if taking.share == Share::All {
                (taking.share, taking.said) = (share, true);
                self.left[taking.line] = Left::Some(Number::from_integer(0));
            }
        }
    }

    fn speak_of(&mut self, line: usize) {
        if let Left::All { spoken_of } = &mut self.left[line] {
            *spoken_of = true;
        }
    }

    /// What might have been a part is all that is left where no later step takes any; and what might have been the rest is
    /// nothing where a later step says that it takes some.
    fn settled(mut self) -> Vec<Taking> {
        for line in 0..self.left.len() {
            let taking = |at: &usize| self.all[*at].line == line && self.all[*at].share != Share::Again;
            let places: Vec<usize> = (0..self.all.len()).filter(taking).collect();
            let said = places.iter().rposition(|at| self.all[*at].said).unwrap_or(0);
            for at in &places[..said] {
                if self.all[*at].share == Share::Rest && !self.all[*at].said {
                    self.all[*at].share = Share::Again;
                }
            }
            let Some(last) = places.last().map(|at| &mut self.all[*at]) else { continue };
            if last.share == Share::Part(Portion::Some) && !last.said {
                last.share = if places.len() == 1 { Share::All } else { Share::Rest };
            }
        }
        self.all
    }
}

/// Makes a part of the taking that seemed to be all of a line; whether there was one.
fn unmade(takings: &mut [Taking], line: usize) -> bool {
    let whole = takings.iter_mut().find(|taking| taking.line == line && taking.share == Share::All);
    whole.map(|taking| taking.share = Share::Part(Portion::Some)).is_some()
}

#[cfg(test)]
mod tests {
    use super::super::Facts;
    use super::*;
    use crate::kitchen::Kitchen;
    use crate::language::Dictionary;
    use crate::pantry::Pantry;
    use crate::recipe::{LineReader, read};
    use crate::source::Source;
    use crate::workspace::Site;

    fn shares(lines: &str, steps: &[&str]) -> Vec<(usize, usize, Share)> {
        let steps = serde_json::to_string(steps).unwrap();
        let yaml = format!("title: T\ncomponents: [{{name: C, ingredients: [{lines}], steps: {steps}}}]\n");
        let reader = LineReader::new(Dictionary::of("en-US").unwrap(), Site::default().cups.into());
        let recipe = read(Source::new("t.yaml", yaml), "t", &reader).0.unwrap();
        let kitchen = Kitchen::new(Pantry::embedded(), &Site::default()).unwrap();
        let facts = Facts::of(&recipe, &kitchen);
        facts.taken[0].by_step().into_iter().map(|taking| (taking.step, taking.line, taking.share)).collect()
    }

    #[test]
    fn water_without_an_article_may_be_other_water() {
        let lines = "8 g gelatine sheets, 30 g water, 200 g apricot jam";
        let taken = |steps: &[&str]| shares(lines, steps);
        let others =
            taken(&["Soak the gelatine in cold water.", "Boil the jam with the water, and melt the gelatine in it."]);
        assert_eq!(others.iter().filter(|(_, line, _)| *line == 1).collect::<Vec<_>>(), [&(1, 1, Share::All)]);
        let own = taken(&["Soak the gelatine in cold water.", "Boil the jam, and melt the gelatine in it."]);
        assert_eq!(own.iter().filter(|(_, line, _)| *line == 1).collect::<Vec<_>>(), [&(0, 1, Share::All)]);
    }

    #[test]
    fn a_step_takes_all_unless_it_says_a_part() {
        use Share::{Again, All, Rest};
        let half = Share::Part(Portion::Of(Number::new(1, 2)));
        let some = Share::Part(Portion::Some);
        let lines = "500 g milk, 100 g sugar, 4 egg yolks";
        let case =
            |steps: &[&str], wanted: &[(usize, usize, Share)]| assert_eq!(shares(lines, steps), wanted, "{steps:?}");
        case(
            &["Warm the milk with the sugar.", "Pour the hot milk on the yolks."],
            &[(0, 0, All), (0, 1, All), (1, 0, Again), (1, 2, All)],
        );
        case(
            &["Warm the milk with half of the sugar.", "Whisk the yolks with the other half of the sugar."],
            &[(0, 0, All), (0, 1, half), (1, 1, Rest), (1, 2, All)],
        );
        case(&["Warm the milk.", "Stir in the remaining milk."], &[(0, 0, some), (1, 0, Rest)]);
        case(
            &["Whisk 50 g of the sugar with the yolks.", "Add the sugar."],
            &[(0, 1, half), (0, 2, All), (1, 1, Rest)],
        );
        case(
            &["Sprinkle a little sugar over it.", "Add the rest of the sugar.", "Watch the sugar."],
            &[(0, 1, some), (1, 1, Rest), (2, 1, Again)],
        );
        case(
            &["Brush the tin with a little sugar.", "Mix everything else."],
            &[(0, 1, some), (1, 0, All), (1, 1, Rest), (1, 2, All)],
        );
        case(&["Add half of the milk, then the rest of the milk."], &[(0, 0, All)]);
        case(&["Rest the milk for ten minutes.", "Brush it with the sugar."], &[(0, 0, All), (1, 1, All)]);
        case(&["Add all but 20 g of the sugar.", "Dust with the sugar."], &[(0, 1, some), (1, 1, Rest)]);
        case(&["Whisk the 100 g sugar with two of the yolks."], &[(0, 1, All), (0, 2, half)]);
        case(&["Pour in the milk, holding back a spoonful.", "Add the milk."], &[(0, 0, some), (1, 0, Rest)]);
        case(
            &["Add 400 g of the milk.", "Let it take up the milk.", "Add the last of the milk."],
            &[(0, 0, Share::Part(Portion::Of(Number::new(4, 5)))), (1, 0, Again), (2, 0, Rest)],
        );
        case(&["Whisk the dry things.", "Add the yolks and the milk."], &[(0, 1, All), (1, 0, All), (1, 2, All)]);
        case(
            &["Warm the milk.", "Whisk in half of the sugar.", "Return everything to the pan.", "Add the yolks."],
            &[(0, 0, All), (1, 1, half), (3, 2, All)],
        );
        case(&["Warm the milk.", "Scrape it all back into the pan.", "Add the sugar."], &[(0, 0, All), (2, 1, All)]);
        case(&["Warm the milk.", "Pipe the remaining filling.", "Dust with the sugar."], &[(0, 0, All), (2, 1, All)]);
        case(&["Warm half of the milk. Add the other half."], &[(0, 0, All)]);
        case(&["Mix the milk, the sugar and the yolks."], &[(0, 0, All), (0, 1, All), (0, 2, All)]);
    }
}
