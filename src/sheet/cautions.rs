use super::model::Caution;
use crate::facts::Facts;

/// What a recipe gives reason to mind, once each: the worst first, then in the order of the steps; the author's own last.
///
/// The sources of the advice stand beside the hazards, see [`crate::facts::Hazard`].
pub(super) fn cautions(facts: &Facts<'_>) -> Vec<Caution> {
    let language = facts.kitchen.language();
    let mut cautions: Vec<Caution> = Vec::new();
    for found in facts.hazards() {
        let Some(words) = language.hazard(found.hazard.name()) else { continue };
        let names = found.of.iter().map(|name| language.kind(name)).collect::<Vec<_>>().join(", ");
        let said = std::iter::once(&0).chain(&found.more).filter_map(|at| words.say.get(*at));
        let said: Vec<String> = said.map(|text| text.replace("{names}", &names)).collect();
        cautions.push(Caution { topic: words.name.clone(), text: said.join(" ") });
    }
    for mind in facts.recipe.components.iter().flat_map(|c| &c.steps).filter_map(|step| step.mind.as_ref()) {
        if !cautions.iter().any(|caution| caution.text == *mind) {
            cautions.push(Caution { topic: language.say("topic-own", &[]), text: mind.clone() });
        }
    }
    cautions
}
