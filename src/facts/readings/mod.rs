//! What is at a temperature, told by the words around it, by what the component is and by where it stands; and the
//! readings that such a thing has.
//!
//! Sources: `readings.tsv`, and `ovens.tsv` among the kinds; mostly common practice, a row says where it is not.

mod around;
mod lines;
mod row;
mod words;

use row::{Of, ReadingRow, rows};
use words::Heard;

use super::{Facts, Said, Setting, Stated, StepKey, kinds};
use crate::language::Sense;
use crate::measure::Use;

pub(super) use around::Around;
pub use lines::InLine;
pub(super) use lines::lines as in_lines;

/// What is at a temperature, and what it may read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    /// What it is.
    pub what: String,
    /// So wide, in °C, that no sound recipe leaves them.
    pub range: (i64, i64),
    /// The usual ones, for a temperature in another scale than all else in the recipe.
    pub usual: (i64, i64),
    /// Whether a slip of a digit is looked for beside one of the scale.
    pub digits: bool,
    /// Whether no recipe goes there, slip or none.
    pub never: bool,
    /// Whether it is the only one in its scale, where all else in the recipe is in the other.
    pub lone: bool,
}

impl Reading {
    fn of(row: &ReadingRow, lone: bool) -> Self {
        let ReadingRow { range, usual, digits, never, .. } = *row;
        Self { what: row.what.to_string(), range, usual, digits, never, lone }
    }
}

/// What a setting of a step may be of, the surest first.
pub(super) fn readings(facts: &Facts<'_>, said: &Said<'_>, setting: &Setting, stated: &Stated) -> Vec<Reading> {
    let lone = facts.around().is_lone(stated.temperature.scale, Some((said.component, said.step)));
    let own = Heard::around(facts, said, stated);
    let whole = Heard::step(facts, said);
    let to_use = to_use(facts, said, setting, stated, own.as_ref());
    let place = TextPlace { facts, said, to_use };
    let told = |heard: &Heard<'_>, whole: bool| {
        let mut fitting = rows().iter().filter(|row| !row.is_general() && (!whole || row.whole));
        fitting.find(|row| place.is(row, heard))
    };
    let row = own.as_ref().and_then(|heard| told(heard, false));
    let row = row.or_else(|| whole.as_ref().and_then(|heard| told(heard, own.is_some())));
    let oven = if to_use == Use::Oven { place.oven(lone) } else { None };
    let general = || {
        let heard = own.as_ref().or(whole.as_ref())?;
        rows().iter().find(|row| row.is_general() && place.is(row, heard))
    };
    // What is known of a kind is surer than what holds for any oven.
    let row = if oven.is_some() { row } else { row.or_else(general) };
    oven.into_iter().chain(row.map(|row| Reading::of(row, lone))).collect()
}

/// What a setting is for. `Bake to 95 °C in the middle` speaks of a core where the step's oven is at another temperature.
fn to_use(facts: &Facts<'_>, said: &Said<'_>, setting: &Setting, stated: &Stated, own: Option<&Heard<'_>>) -> Use {
    let under = |key: StepKey| facts.said_under(said.component, said.step, key);
    let same = |key: StepKey| {
        let ways = under(key).into_iter().flat_map(|said| &said.settings).flat_map(|setting| &setting.ways);
        ways.into_iter().any(|way| way.temperature == stated.temperature)
    };
    let in_text = matches!(said.key, StepKey::Do | StepKey::Until) && setting.to_use == Use::Oven;
    let core = || own.is_some_and(|heard| heard.tells_near(Sense::Core));
    let of_core =
        in_text && !same(StepKey::Oven) && (same(StepKey::Heat) || (under(StepKey::Oven).is_some() && core()));
    // `Melt the sugar dry` and `beat the dry butter` are of no oven that dries.
    let oven = |heard: &Heard<'_>| {
        let turned = heard.tells(Sense::Turned) && !heard.tells(Sense::Syrup);
        turned || heard.tells(Sense::Baked) || heard.tells(Sense::OvenCooks)
    };
    let dry =
        in_text && under(StepKey::Oven).is_none() && own.is_some_and(|heard| heard.tells(Sense::Dries) && !oven(heard));
    if of_core || dry { Use::Thermometer } else { setting.to_use }
}

/// Where a setting stands.
struct TextPlace<'f, 'a> {
    facts: &'f Facts<'a>,
    said: &'f Said<'a>,
    to_use: Use,
}

impl TextPlace<'_, '_> {
    /// Whether a row is of what stands here.
    fn is(&self, row: &ReadingRow, heard: &Heard<'_>) -> bool {
        let around =
            || row.around.is_empty() || row.around.iter().any(|of| self.facts.around().tells(self.said.component, *of));
        let of_kind = || row.kinds.is_empty() || self.kinds().iter().any(|kind| row.kinds.contains(kind));
        let within = row.within.is_none_or(|minutes| self.minutes(true).is_some_and(|given| given <= minutes));
        let beyond = row.beyond.is_none_or(|minutes| self.minutes(false).is_some_and(|given| given > minutes));
        // What is fried has a core, and `heat` speaks of that.
        let of_core = row.fried && self.said.key == StepKey::Heat && heard.tells(Sense::Flesh);
        self.is_for(row.of, heard) && within && beyond && !of_core && heard.fits(row) && around() && of_kind()
    }

    fn is_for(&self, of: Of, heard: &Heard<'_>) -> bool {
        let (key, to_use) = (self.said.key, self.to_use);
        let in_oven = self.step().oven.is_some();
        match of {
            Of::Any => true,
            Of::Oven => to_use == Use::Oven,
            Of::Probe => to_use == Use::Thermometer,
            Of::Cooked => key == StepKey::Heat && !in_oven,
            Of::Core => key == StepKey::Heat && in_oven,
            Of::Baked => to_use == Use::Thermometer && (in_oven || heard.tells(Sense::OvenCooks)),
            Of::Line => false,
        }
    }

    fn step(&self) -> &crate::recipe::Step {
        &self.facts.recipe.components[self.said.component].steps[self.said.step]
    }

    /// The minutes of the step, alone or with what is waited.
    fn minutes(&self, with_wait: bool) -> Option<u64> {
        let step = self.step();
        let time = step.time.map(|time| time.high);
        let wait = step.wait.filter(|_| with_wait || time.is_none()).map(|wait| wait.high);
        let seconds = time.unwrap_or_default().saturating_add(wait.unwrap_or_default());
        (seconds > 0).then_some(seconds / 60)
    }

    /// What the component is, else what goes into it.
    fn kinds(&self) -> Vec<&'static str> {
        let own = self.facts.around().kinds(self.facts, self.said.component);
        if !own.is_empty() {
            return own.to_vec();
        }
        let component = &self.facts.recipe.components[self.said.component];
        let used = component.uses.iter().chain(&self.step().uses);
        used.flat_map(|used| self.facts.around().kinds(self.facts, used.component)).copied().collect()
    }

    /// The oven of what is baked here, as wide as all that it may be.
    fn oven(&self, lone: bool) -> Option<Reading> {
        let step = Heard::step(self.facts, self.said);
        let low = |step: &Heard<'_>| step.tells(Sense::StaysWarm) || step.tells(Sense::Proves);
        let dries = step.is_some_and(|step| low(&step) && !step.tells(Sense::BakesThrough));
        let fire = self.facts.said.iter().any(|said| said.tells(Sense::HotOven) && said.tells(Sense::OvenOfFire));
        let mut found: Option<Reading> = None;
        for kind in self.kinds() {
            let of = |with_wait| kinds::oven(kind, self.minutes(with_wait));
            for oven in of(false).into_iter().chain(of(true)) {
                if dries && !oven.dries {
                    return None;
                }
                let high = if fire { oven.range.1.max(600) } else { oven.range.1 };
                let before = found.as_ref().map_or(oven.range, |found| found.range);
                let range = (before.0.min(oven.range.0), before.1.max(high));
                let what = match &found {
                    Some(found) if !found.what.starts_with(kind) => "what is baked here".to_string(),
                    _ => format!("{kind} in the oven"),
                };
                found = Some(Reading { what, range, usual: range, digits: true, never: false, lone });
            }
        }
        found
    }
}
