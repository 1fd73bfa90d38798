use super::model::{Caution, SheetComponent};
use crate::facts::{Facts, Severity};

/// What a recipe gives reason to mind, once each: the worst first, then in the order of the steps; the author's own last.
///
/// The sources of the advice stand beside the hazards, see [`crate::facts::Hazard`].
///
/// At a step that gives the reason for one, its topic is noted.
pub(super) fn cautions(facts: &Facts<'_>, components: &mut [SheetComponent]) -> Vec<Caution> {
    let language = facts.kitchen.language();
    let mut cautions: Vec<Caution> = Vec::new();
    for found in facts.hazards() {
        let Some(words) = language.hazard(found.hazard.name()) else { continue };
        let names = found.of.iter().map(|name| language.kind(name)).collect::<Vec<_>>().join(", ");
        let said = std::iter::once(&0).chain(&found.more).filter_map(|at| words.say.get(*at));
        let said: Vec<String> = said.map(|text| text.replace("{names}", &names)).collect();
        let at = found.at.and_then(|(component, step)| components.get_mut(component)?.steps.get_mut(step));
        // What spoils a dish or somebody's day is said once; what the author minds there himself is said there.
        let hurts = found.hazard.severity() < Severity::Disappoints;
        if let Some(step) = at.filter(|step| hurts && step.mind.is_none()) {
            step.cautions.push(words.name.clone());
        }
        cautions.push(Caution { topic: words.name.clone(), text: said.join(" ") });
    }
    for mind in facts.recipe.components.iter().flat_map(|c| &c.steps).filter_map(|step| step.mind.as_ref()) {
        if !cautions.iter().any(|caution| caution.text == *mind) {
            cautions.push(Caution { topic: language.say("topic-own", &[]), text: mind.clone() });
        }
    }
    cautions
}
