//! How much of a line a step takes.

use super::Said;
use crate::language::{PartWords, Word};

/// How much of a line's amount is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Share {
    /// All that is listed.
    All,
    /// A part: half, a stated amount, or what later steps leave.
    Part,
    /// What earlier steps left.
    Rest,
    /// Nothing more: it went in before, and is only spoken of.
    Again,
}

/// A line that a step names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Taking {
    /// Index of the step in its component.
    pub step: usize,
    /// Index of the line in its component.
    pub line: usize,
    /// How much of it.
    pub share: Share,
}

/// Words between a part and the name: `half of the caster sugar`.
const REACH: usize = 4;

/// What the steps of one component take, by what each is told to do, in their order and that of the lines.
pub(super) fn takings<'s>(said: impl Iterator<Item = &'s Said<'s>>, words: &PartWords) -> Vec<Taking> {
    let mut takings: Vec<Taking> = Vec::new();
    for said in said {
        let mut here: Vec<Taking> = Vec::new();
        for (at, named) in said.named.iter().enumerate() {
            for line in named.iter().filter(|named| named.surely).map(|named| named.line) {
                let share = share_before(&said.words, at, words);
                let earlier = here.iter_mut().find(|taking| taking.line == line);
                match (earlier, share) {
                    (Some(taking), Some(share)) => taking.share = share,
                    (Some(_), None) => {}
                    (None, share) => {
                        here.push(Taking { step: said.step, line, share: share.unwrap_or(Share::All) });
                    }
                }
            }
        }
        here.sort_by_key(|taking| taking.line);
        for taking in &mut here {
            follow(&mut takings, taking);
        }
        takings.extend(here);
    }
    takings
}

/// Fits a taking to the earlier ones of its line: what is taken later was not all taken before, and what was is only
/// spoken of.
fn follow(earlier: &mut [Taking], taking: &mut Taking) {
    let had = |share| earlier.iter().any(|before| before.line == taking.line && before.share == share);
    let (all, part, rest) = (had(Share::All), had(Share::Part), had(Share::Rest));
    match taking.share {
        Share::All if all || rest => taking.share = Share::Again,
        Share::All if part => taking.share = Share::Rest,
        Share::Part | Share::Rest if all => {
            let whole = earlier.iter_mut().filter(|before| before.line == taking.line && before.share == Share::All);
            whole.for_each(|before| before.share = Share::Part);
        }
        _ => {}
    }
}

/// What the words in front of a name say of how much of it: `half of the`, `the rest of the`, `200 g of the`.
fn share_before(words: &[Word], at: usize, known: &PartWords) -> Option<Share> {
    let mut first = at;
    for back in 1..=REACH {
        let Some(place) = at.checked_sub(back) else { break };
        let joined = words[place + 1].before.trim().is_empty() && words[place].sentence == words[at].sentence;
        if !joined {
            break;
        }
        first = place;
    }
    let before = &words[first..at];
    let says = |list: &[String]| before.iter().any(|word| list.contains(&word.stem));
    let counted = before.iter().any(|word| word.written.starts_with(|c: char| c.is_ascii_digit()));
    match () {
        () if says(&known.rest) => Some(Share::Rest),
        () if says(&known.part) || counted => Some(Share::Part),
        () => None,
    }
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
        facts.takings(0).into_iter().map(|taking| (taking.step, taking.line, taking.share)).collect()
    }

    #[test]
    fn a_step_takes_all_unless_it_says_a_part() {
        use Share::{Again, All, Part, Rest};
        let lines = "500 g milk, 100 g sugar, 4 egg yolks";
        let case =
            |steps: &[&str], wanted: &[(usize, usize, Share)]| assert_eq!(shares(lines, steps), wanted, "{steps:?}");
        case(
            &["Warm the milk with the sugar.", "Pour the hot milk on the yolks."],
            &[(0, 0, All), (0, 1, All), (1, 0, Again), (1, 2, All)],
        );
        case(
            &["Warm the milk with half of the sugar.", "Whisk the yolks with the other half of the sugar."],
            &[(0, 0, All), (0, 1, Part), (1, 1, Rest), (1, 2, All)],
        );
        case(&["Warm the milk.", "Stir in the remaining milk."], &[(0, 0, Part), (1, 0, Rest)]);
        case(
            &["Whisk 50 g of the sugar with the yolks.", "Add the sugar."],
            &[(0, 1, Part), (0, 2, All), (1, 1, Rest)],
        );
        case(
            &["Sprinkle a little sugar over it.", "Add the rest of the sugar.", "Watch the sugar."],
            &[(0, 1, Part), (1, 1, Rest), (2, 1, Again)],
        );
        case(&["Mix the milk, the sugar and the yolks."], &[(0, 0, All), (0, 1, All), (0, 2, All)]);
    }
}
