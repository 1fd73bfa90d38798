//! What texts claim of the weights: `2 % of its weight in salt`, `equal weights of butter and sugar`.

use std::ops::Range;

use super::naming::Named;
use super::share::fraction;
use super::{Facts, StepKey};
use crate::language::{Language, Sense, Word};
use crate::source::Span;
use crate::text::number;

/// What a text claims that lines of a component weigh against others.
#[derive(Clone, Debug, PartialEq)]
pub struct Claim {
    /// Index of the component.
    pub component: usize,
    /// The lines that are so much.
    pub part: Vec<usize>,
    /// The lines that they are so much of.
    pub base: Vec<usize>,
    /// How much, as a fraction of the base.
    pub share: f64,
    /// Where it is said.
    pub span: Span,
}

/// How far behind a claim what it is of may be named, in words.
const REACH: usize = 5;

/// What the steps and the summary claim; of the summary, what a single component can be meant by.
pub(super) fn claims(facts: &Facts<'_>) -> Vec<Claim> {
    let steps = facts.said.iter().filter(|said| said.key == StepKey::Do).flat_map(|said| {
        let text = SaidText { text: said.text, words: &said.words, named: &said.named, language: said.language() };
        let found = text.claims().into_iter();
        found.map(|found| found.of(said.component, said.span(place(&said.words, &found.words)))).collect::<Vec<_>>()
    });
    steps.chain(in_summary(facts)).collect()
}

fn in_summary(facts: &Facts<'_>) -> Vec<Claim> {
    let recipe = facts.recipe;
    let Some(summary) = recipe.summary.as_deref() else { return Vec::new() };
    let (language, node) = (facts.kitchen.language(), recipe.root.key("summary"));
    let words = language.read(summary);
    let says = [Sense::Percent, Sense::OfItsWeight, Sense::EqualWeights, Sense::TwiceAsMuch, Sense::HalfAsMuch];
    if !summary.contains('%') && says.into_iter().all(|of| language.lexicon(of).find(&words).is_none()) {
        return Vec::new();
    }
    let mut found: Vec<Claim> = Vec::new();
    for (component, names) in facts.names.iter().enumerate() {
        let named = names.in_text(&words, language);
        let text = SaidText { text: summary, words: &words, named: &named, language };
        let span = |found: &ClaimWords| node.part(&recipe.source, place(&words, &found.words));
        found.extend(text.claims().into_iter().map(|found| found.of(component, span(&found))));
    }
    // What several components may be meant by is of none surely.
    let single = |claim: &Claim| found.iter().all(|other| other == claim || other.span != claim.span);
    found.iter().filter(|claim| single(claim)).cloned().collect()
}

fn place(words: &[Word], range: &Range<usize>) -> Span {
    words[range.start].span.start..words[range.end - 1].span.end
}

/// A claim as words: its lines, the share, and the words that make it.
struct ClaimWords {
    part: Vec<usize>,
    base: Vec<usize>,
    share: f64,
    words: Range<usize>,
}

impl ClaimWords {
    fn of(&self, component: usize, span: Span) -> Claim {
        Claim { component, part: self.part.clone(), base: self.base.clone(), share: self.share, span }
    }
}

/// A text and the lines that its words name.
struct SaidText<'t> {
    text: &'t str,
    words: &'t [Word],
    named: &'t [Vec<Named>],
    language: &'t Language,
}

impl SaidText<'_> {
    fn claims(&self) -> Vec<ClaimWords> {
        (0..self.words.len()).filter_map(|at| self.claim(at)).filter(|found| found.part != found.base).collect()
    }

    fn claim(&self, at: usize) -> Option<ClaimWords> {
        if let Some((share, behind)) = self.percent(at).or_else(|| self.fraction(at)) {
            let length = self.tells(Sense::OfItsWeight, behind);
            return if length > 0 {
                self.of_its_weight(at, behind + length, share)
            } else {
                self.of_another(at, behind, share)
            };
        }
        let compared = [(Sense::EqualWeights, 1.0), (Sense::TwiceAsMuch, 2.0), (Sense::HalfAsMuch, 0.5)];
        let (length, share) =
            compared.into_iter().map(|(of, share)| (self.tells(of, at), share)).find(|(length, _)| *length > 0)?;
        // `twice as much` holds `as much`.
        let within =
            |before: usize| [Sense::TwiceAsMuch, Sense::HalfAsMuch].iter().any(|of| self.tells(*of, before) > 1);
        if at.checked_sub(1).is_some_and(within) {
            return None;
        }
        // `ten times as much sugar as egg white`
        let times = match at.checked_sub(2).filter(|_| self.tells(Sense::TimesOver, at - 1) > 0) {
            Some(count) => self.language.count(&self.words[count].written)? as f64,
            None => 1.0,
        };
        self.of_two(at, at + length, share * times, Sense::ComparedWith)
    }

    /// `2 %` from a word on: the share, and the word behind it.
    fn percent(&self, at: usize) -> Option<(f64, usize)> {
        let word = &self.words[at];
        let (value, length) = number(&self.text[word.span.start..])?;
        let rest = self.text[word.span.start + length..].trim_start();
        let behind = self.words.partition_point(|other| other.span.start < word.span.start + length);
        let spelled = self.tells(Sense::Percent, behind);
        (rest.starts_with('%') || spelled > 0)
            .then(|| (*value.numer() as f64 / *value.denom() as f64 / 100.0, behind + spelled))
    }

    /// `half`, `a third` from a word on, before what says that it is of a weight.
    fn fraction(&self, at: usize) -> Option<(f64, usize)> {
        let share = fraction(self.words, at, self.language)?;
        let behind = (at + 1..=at + 2).find(|behind| self.tells(Sense::OfItsWeight, *behind) > 0)?;
        Some((*share.numer() as f64 / *share.denom() as f64, behind))
    }

    /// `the cabbage with 2 % of its weight in salt`: of what stands before, so much of what stands behind.
    fn of_its_weight(&self, at: usize, behind: usize, share: f64) -> Option<ClaimWords> {
        let sentence = self.words[at].sentence;
        let mut before = (0..at).rev().take_while(|place| self.words[*place].sentence == sentence);
        let base = before.find(|place| !self.named[*place].is_empty())?;
        let part = self.name_from(behind, sentence)?;
        Some(ClaimWords { part: self.lines(part.start), base: self.lines(base), share, words: at..part.end })
    }

    /// `80 % water to flour`.
    fn of_another(&self, at: usize, behind: usize, share: f64) -> Option<ClaimWords> {
        self.of_two(at, behind, share, Sense::RatioTo)
    }

    /// Two names with a word between them, right behind what says how much.
    fn of_two(&self, at: usize, behind: usize, share: f64, link: Sense) -> Option<ClaimWords> {
        let sentence = self.words[at].sentence;
        let part = self.name_from(behind, sentence)?;
        let base = self.name_from(part.end, sentence)?;
        let close = part.start <= behind + 1 && (part.end..base.start).any(|place| self.tells(link, place) > 0);
        // `3 % salt on meat and water`: what is joined to the base belongs to it, whatever it is.
        let is_and = |place: usize| self.tells(Sense::And, place) > 0 && self.tells(link, place) == 0;
        let goes_on = self.words.get(base.end).is_some_and(|word| word.sentence == sentence) && is_and(base.end);
        let close = close && !goes_on && !(part.end..base.start).any(is_and);
        close.then(|| ClaimWords {
            part: self.lines(part.start),
            base: self.lines(base.start),
            share,
            words: at..base.end,
        })
    }

    /// The words of the next name.
    fn name_from(&self, from: usize, sentence: usize) -> Option<Range<usize>> {
        let last = self.words.len().min(from + REACH);
        let start = (from..last).find(|at| !self.named[*at].is_empty() && self.words[*at].sentence == sentence)?;
        let same = |at: &usize| self.named[*at] == self.named[start] && self.words[*at].before == " ";
        Some(start..start + 1 + (start + 1..self.words.len()).take_while(same).count())
    }

    fn lines(&self, at: usize) -> Vec<usize> {
        let mut lines: Vec<usize> = self.named[at].iter().map(|named| named.line).collect();
        lines.sort_unstable();
        lines.dedup();
        lines
    }

    fn tells(&self, of: Sense, at: usize) -> usize {
        self.language.lexicon(of).at(self.words, at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kitchen::Kitchen;
    use crate::language::Dictionary;
    use crate::pantry::Pantry;
    use crate::recipe::{LineReader, read};
    use crate::source::Source;
    use crate::workspace::Site;

    /// The claims of a step: part and base by the first letters of their lines, and the share in per cent.
    fn told(tag: &str, lines: &[&str], step: &str) -> Vec<(String, String, i64)> {
        let site = Site { language: tag.into(), ..Site::default() };
        let list: String = lines.iter().map(|line| format!("      - {line}\n")).collect();
        let text = format!(
            "title: T\nmakes: one\ncomponents:\n  - name: C\n    ingredients:\n{list}    steps:\n      - \"{step}\"\n"
        );
        let reader = LineReader::new(Dictionary::of(tag).unwrap(), site.cups.into());
        let (recipe, _) = read(Source::new("t.yaml", text), "t", &reader);
        let (recipe, kitchen) = (recipe.unwrap(), Kitchen::new(Pantry::embedded(), &site).unwrap());
        let facts = Facts::of(&recipe, &kitchen);
        let name = |of: &[usize]| of.iter().map(|line| facts.lines[0][*line].ingredient.line.name.clone()).collect();
        let shown = |claim: Claim| (name(&claim.part), name(&claim.base), (claim.share * 100.0).round() as i64);
        facts.claims().into_iter().map(shown).collect()
    }

    #[test]
    fn shares_said_in_words_are_understood() {
        let case = |lines: &[&str], step: &str, wanted: &[(&str, &str, i64)]| {
            let found = told("en-US", lines, step);
            let found: Vec<_> =
                found.iter().map(|(part, base, share)| (part.as_str(), base.as_str(), *share)).collect();
            assert_eq!(found, wanted, "{step}");
        };
        let kraut = ["1 kg cabbage", "20 g salt"];
        case(&kraut, "Toss the cabbage with 2 % of its weight in salt.", &[("salt", "cabbage", 2)]);
        case(&kraut, "Toss the cabbage with 2 per cent of its weight of salt.", &[("salt", "cabbage", 2)]);
        case(&kraut, "Toss the cabbage with the salt, 2 % of guests ask.", &[]);
        let jam = ["1 kg plums", "500 g sugar"];
        case(&jam, "Boil the plums with half their weight in sugar.", &[("sugar", "plums", 50)]);
        case(&jam, "Boil the plums with half the sugar.", &[]);
        case(&jam, "Boil equal weights of plums and sugar.", &[("plums", "sugar", 100)]);
        case(&jam, "Boil twice as much sugar as plums.", &[("sugar", "plums", 200)]);
        case(&jam, "Boil three times as much sugar as plums.", &[("sugar", "plums", 300)]);
        case(&jam, "Boil the plums as much as you like, and add sugar.", &[]);
        let dough = ["500 g flour", "400 g water", "10 g salt"];
        case(&dough, "Mix to a dough of 80 % water to flour.", &[("water", "flour", 80)]);
        case(&dough, "Mix to a dough of 2 % salt to meat and water together.", &[]);
        case(&dough, "Mix to a dough of 2 % salt to flour and meat.", &[]);
        case(&dough, "Prove at 80 % humidity, flour the bench and add water.", &[]);
    }

    #[test]
    fn shares_are_understood_in_french() {
        let told = |step: &str| told("fr", &["1 kg de chou", "20 g de sel"], step);
        assert_eq!(told("Mélangez le chou avec 2 % de son poids en sel."), [("sel".into(), "chou".into(), 2)]);
        assert_eq!(told("Mélangez le chou avec le sel à 2 %."), []);
    }
}
