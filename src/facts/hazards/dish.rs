use std::borrow::Cow;

use super::hazard::Hazard;
use crate::facts::{Facts, LineFacts, Said, StepKey};
use crate::language::{self, HazardWords, Language, Lexicon, Sense, Word, sentence_at};
use crate::measure::Use;
use crate::pantry::Role;

/// Grams of a serving where nobody says how many there are. Common practice.
const SERVING: f64 = 200.0;

/// A recipe as hazards look at it: lines and steps as words, with what is stated of heat and time.
pub(super) struct Dish<'f> {
    pub(super) facts: &'f Facts<'f>,
    /// The title, the summary and the tags.
    pub(super) titled: Vec<Word>,
    pub(super) lines: Vec<DishLine<'f>>,
    pub(super) steps: Vec<DishStep<'f>>,
}

/// An ingredient line.
pub(super) struct DishLine<'f> {
    pub(super) component: usize,
    /// Its place in the component.
    pub(super) index: usize,
    pub(super) facts: &'f LineFacts<'f>,
    pub(super) words: Vec<Word>,
}

/// What a step does, to what heat and until when, as one text.
pub(super) struct DishStep<'f> {
    pub(super) component: usize,
    pub(super) step: usize,
    pub(super) said: &'f Said<'f>,
    pub(super) words: Cow<'f, [Word]>,
    pub(super) heats: Vec<Heat>,
    /// The longest time that it states, in seconds.
    pub(super) seconds: Option<u64>,
    /// Whether it sets the oven in a key of its own.
    pub(super) sets_oven: bool,
}

/// A temperature that a step states, in °C.
#[derive(Clone, Copy, Debug)]
pub(super) struct Heat {
    pub(super) low: f64,
    pub(super) high: f64,
    pub(super) to_use: Use,
    /// The sentence it stands in; of another key than `do`, the last of that.
    pub(super) sentence: usize,
}

/// What tells of a hazard.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Told {
    /// Component and step that give the reason.
    pub(super) at: Option<(usize, usize)>,
    /// Which of the further things there is reason to say, from 1.
    pub(super) more: Vec<usize>,
    /// What brings it in, by name.
    pub(super) of: Vec<String>,
}

impl<'f> Dish<'f> {
    pub(super) fn of(facts: &'f Facts<'f>) -> Self {
        let recipe = facts.recipe;
        let named = [recipe.title.as_str(), recipe.summary.as_deref().unwrap_or_default()];
        let titled = named.into_iter().chain(recipe.tags.iter().map(String::as_str)).collect::<Vec<_>>().join(". ");
        let lines = facts.lines.iter().enumerate().flat_map(|(component, lines)| {
            lines.iter().enumerate().map(move |(index, line)| {
                let text = recipe.source.slice(&line.ingredient.span);
                DishLine { component, index, facts: line, words: facts.kitchen.language().read(text) }
            })
        });
        let steps = facts.said.iter().filter(|said| said.key == StepKey::Do).map(|said| step(facts, said));
        Self { facts, titled: facts.kitchen.language().read(&titled), lines: lines.collect(), steps: steps.collect() }
    }

    pub(super) fn language(&self) -> &'f Language {
        self.facts.kitchen.language()
    }

    pub(super) fn sense(&self, of: Sense) -> Lexicon {
        self.language().lexicon(of)
    }

    /// The words of a hazard.
    pub(super) fn words_of(&self, hazard: Hazard) -> &'f HazardWords {
        self.language().hazard(hazard.name()).expect("every language has the words of every hazard")
    }

    /// Lines that tell of a hazard.
    pub(super) fn lines_telling(&self, hazard: Hazard) -> impl Iterator<Item = &DishLine<'f>> {
        let told = self.words_of(hazard);
        self.lines.iter().filter(move |line| self.tells(&line.words, told.line, told.unless))
    }

    /// Steps that tell of a hazard.
    pub(super) fn steps_telling(&self, hazard: Hazard) -> impl Iterator<Item = &DishStep<'f>> {
        let told = self.words_of(hazard);
        self.steps.iter().filter(move |step| self.tells(&step.words, told.step, told.unless))
    }

    /// Whether the title, the summary or a tag tells of a hazard.
    pub(super) fn title_tells(&self, hazard: Hazard) -> bool {
        let told = self.words_of(hazard);
        self.tells(&self.titled, told.titled, told.unless)
    }

    /// Whether a phrase stands in some words, as itself and not denied: not inside another phrase, not behind `without`.
    pub(super) fn tells(&self, words: &[Word], told: Lexicon, unless: Lexicon) -> bool {
        self.place(words, told, unless).is_some()
    }

    pub(super) fn place(&self, words: &[Word], told: Lexicon, unless: Lexicon) -> Option<usize> {
        let masked = masked(words, unless);
        (0..words.len()).find(|at| {
            let length = told.at(words, *at);
            length > 0
                && (masked.is_empty() || !masked[*at..at + length].iter().all(|masked| *masked))
                && !self.is_denied(words, *at, length)
        })
    }

    /// `no nuts`, `without any flour`, `nut-free`.
    fn is_denied(&self, words: &[Word], at: usize, length: usize) -> bool {
        let without = self.sense(Sense::Without);
        let near = at.saturating_sub(2)..at;
        let same = |other: usize| words[other].sentence == words[at].sentence;
        let before =
            near.into_iter().any(|other| same(other) && without.at(words, other) > 0 && gap_is_small(words, other, at));
        let free = self.sense(Sense::FreeOf);
        let free = words.get(at + length).is_some_and(|next| free.has(next) && next.before == "-");
        before || free
    }

    /// Whether a sense is told in some words, and not denied.
    pub(super) fn has(&self, words: &[Word], of: Sense) -> bool {
        self.tells(words, self.sense(of), Lexicon::default())
    }

    /// All lines and steps, as words.
    pub(super) fn texts(&self) -> impl Iterator<Item = &[Word]> {
        self.lines.iter().map(|line| line.words.as_slice()).chain(self.steps.iter().map(|step| &*step.words))
    }

    /// Steps that tell of a sense.
    pub(super) fn step_with(&self, of: Sense) -> Option<&DishStep<'f>> {
        self.steps.iter().find(|step| self.has(&step.words, of))
    }

    /// Whether a step tells of a sense.
    pub(super) fn does(&self, of: Sense) -> bool {
        self.step_with(of).is_some()
    }

    /// Whether a line tells of a sense.
    pub(super) fn lists(&self, of: Sense) -> bool {
        self.lines.iter().any(|line| self.has(&line.words, of))
    }

    /// The first line that tells of a hazard by its word, or by a role of its ingredient.
    pub(super) fn line_of(&self, hazard: Hazard, role: Role) -> Option<&DishLine<'f>> {
        let told = self.words_of(hazard);
        self.lines.iter().find(|line| {
            let by_role = line.is(role) && told.unless.find(&line.words).is_none();
            by_role || self.tells(&line.words, told.line, told.unless)
        })
    }

    /// Whether children are meant to eat it.
    pub(super) fn is_for_children(&self) -> bool {
        self.tells(&self.titled, self.sense(Sense::Children), self.sense(Sense::SmallNotYoung))
    }

    /// Whether a child in its first year is.
    pub(super) fn is_for_babies(&self) -> bool {
        self.tells(&self.titled, self.sense(Sense::Infant), self.sense(Sense::SmallNotYoung))
    }

    /// Grams of all lines that are weighed.
    pub(super) fn grams(&self) -> f64 {
        self.grams_of(|_| true)
    }

    /// Grams of some lines.
    pub(super) fn grams_of(&self, is: impl Fn(&DishLine<'f>) -> bool) -> f64 {
        self.lines.iter().filter(|line| is(line)).filter_map(|line| line.facts.grams()).sum()
    }

    /// Servings, as the recipe or a step says; else as many as it weighs.
    pub(super) fn servings(&self) -> f64 {
        let counted = || {
            let steps = self.steps.iter().flat_map(|step| step.words.windows(2));
            let count = |two: &[Word]| {
                let served = self.sense(Sense::Serving).at(two, 1) > 0 && two[1].written.ends_with('s');
                self.language().count(&two[0].written).filter(|count| served && (1..=100).contains(count))
            };
            steps.map(count).find_map(|count| count).map(|count| count as f64)
        };
        let stated = self.facts.recipe.serves.map(|serves| f64::from(serves.reckoned()));
        stated.or_else(counted).unwrap_or_else(|| (self.grams() / SERVING).round().clamp(1.0, 12.0))
    }

    /// Grams a serving of the lines that tell of a hazard.
    pub(super) fn a_serving(&self, hazard: Hazard) -> f64 {
        self.lines_telling(hazard).filter_map(|line| line.facts.grams()).sum::<f64>() / self.servings()
    }

    /// Lines whose ingredient has one of some roles.
    pub(super) fn lines_with(&self, roles: &'static [Role]) -> impl Iterator<Item = &DishLine<'f>> {
        let real = |line: &DishLine<'_>| line.facts.row.is_some() || !self.has(&line.words, Sense::Imitation);
        self.lines.iter().filter(move |line| real(line) && line.facts.rows().any(|row| row.is_any(roles)))
    }

    /// The step that names a line first, as a place; none where no step does.
    pub(super) fn place_of(&self, line: &DishLine<'_>) -> Option<(usize, usize)> {
        self.steps.iter().find(|step| step.names(line)).map(DishStep::place)
    }

    /// The name of a line's ingredient, or the line's own.
    pub(super) fn name(&self, line: &DishLine<'_>) -> String {
        let own = &line.facts.ingredient.line.name;
        line.facts.row.map_or_else(|| own.clone(), |row| self.language().name(row.name(), own).to_string())
    }
}

impl DishStep<'_> {
    /// The words of a sentence, and the place of the first.
    pub(super) fn sentence(&self, sentence: usize) -> (usize, &[Word]) {
        let places = language::sentence(&self.words, sentence);
        (places.start, &self.words[places])
    }

    pub(super) fn place(&self) -> (usize, usize) {
        (self.component, self.step)
    }

    /// Whether it names a line of its component.
    pub(super) fn names(&self, line: &DishLine<'_>) -> bool {
        self.component == line.component && self.said.named.iter().flatten().any(|named| named.line == line.index)
    }

    /// Temperatures of a pan, a probe or a bath.
    pub(super) fn probed(&self) -> impl Iterator<Item = &Heat> {
        self.heats.iter().filter(|heat| heat.to_use == Use::Thermometer)
    }
}

impl DishLine<'_> {
    pub(super) fn is(&self, role: Role) -> bool {
        self.facts.rows().any(|row| row.is(role))
    }

    pub(super) fn family(&self) -> &str {
        self.facts.rows().next().map_or("", |row| row.family.as_str())
    }
}

impl Told {
    /// The same with one further thing to say, where there is reason.
    pub(super) fn and(mut self, more: usize, reason: bool) -> Self {
        self.more.extend(reason.then_some(more));
        self
    }

    pub(super) fn at(step: &DishStep<'_>) -> Self {
        Self { at: Some(step.place()), ..Self::default() }
    }

    pub(super) fn by(dish: &Dish<'_>, line: &DishLine<'_>) -> Self {
        Self { at: dish.place_of(line), ..Self::default() }
    }
}

/// Which words stand inside phrases that are something else.
fn masked(words: &[Word], unless: Lexicon) -> Vec<bool> {
    if unless.is_empty() {
        return Vec::new();
    }
    let mut masked = vec![false; words.len()];
    for at in 0..words.len() {
        let length = unless.at(words, at);
        masked[at..at + length].fill(true);
    }
    masked
}

/// Nothing but blanks and hyphens between two words.
fn gap_is_small(words: &[Word], from: usize, to: usize) -> bool {
    words[from + 1..=to].iter().all(|word| !word.before.contains([',', '.', ';', ':', '(', ')']))
}

fn step<'f>(facts: &'f Facts<'f>, said: &'f Said<'f>) -> DishStep<'f> {
    let stated = &facts.recipe.components[said.component].steps[said.step];
    let parts = facts.said_in(said.component).filter(|other| other.step == said.step && other.key != StepKey::Mind);
    let (mut all, mut heats) = (Cow::Borrowed(said.words.as_slice()), Vec::new());
    for part in parts {
        for setting in &part.settings {
            heats.extend(setting.ways.iter().filter(|way| !way.gas).map(|way| {
                let (low, high) = way.temperature.celsius();
                let degrees = |number: crate::measure::Number| *number.numer() as f64 / *number.denom() as f64;
                let sentence = if part.key == StepKey::Do { sentence_at(&part.words, way.span.start) } else { 0 };
                Heat { low: degrees(low), high: degrees(high), to_use: setting.to_use, sentence }
            }));
        }
        if part.key == StepKey::Until {
            let last = said.words.last().map_or(0, |word| word.sentence + 1);
            all.to_mut().extend(part.words.iter().map(|word| word.later(last)));
        }
    }
    let in_text = said.durations.iter().map(|(_, time)| time.high);
    let stated_times = [stated.time, stated.wait].into_iter().flatten().map(|time| time.high);
    DishStep {
        component: said.component,
        step: said.step,
        said,
        words: all,
        heats,
        seconds: in_text.chain(stated_times).max(),
        sets_oven: stated.oven.is_some(),
    }
}
