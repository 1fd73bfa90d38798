use super::model::Caution;
use crate::facts::{Facts, Hazard};

/// What a recipe gives reason to mind, once each, in a fixed order; the author's own last.
///
/// Sources of the advice: FDA and CDC on raw flour and eggs (21 CFR 101.17(h)), FDA on inedible decorations, FSIS safe
/// minimum temperatures, USDA Complete Guide to Home Canning, public health services on honey; the handling of hot
/// sugar and of caramel with cream is common practice.
pub(super) fn cautions(facts: &Facts<'_>) -> Vec<Caution> {
    let language = facts.kitchen.language();
    let mut cautions: Vec<Caution> = Vec::new();
    for found in facts.hazards() {
        let key = key(found.hazard);
        let names: Vec<&str> = found.of.iter().map(|name| language.kind(name)).collect();
        let text = language.say(key, &[("names", &names.join(", "))]);
        cautions.push(Caution { topic: language.say(&format!("topic-{key}"), &[]), text });
    }
    for mind in facts.recipe.components.iter().flat_map(|c| &c.steps).filter_map(|step| step.mind.as_ref()) {
        if !cautions.iter().any(|caution| caution.text == *mind) {
            cautions.push(Caution { topic: language.say("topic-own", &[]), text: mind.clone() });
        }
    }
    cautions
}

/// What a language calls a hazard's words.
fn key(hazard: Hazard) -> &'static str {
    match hazard {
        Hazard::HotSugar => "hot-sugar",
        Hazard::CaramelAndCream => "caramel-and-cream",
        Hazard::RawEgg => "raw-egg",
        Hazard::RawFlour => "raw-flour",
        Hazard::MeatAndFish => "meat-and-fish",
        Hazard::Honey => "honey",
        Hazard::Preserving => "preserving",
        Hazard::Gelatine => "gelatine",
        Hazard::InedibleDecoration => "inedible-decoration",
        Hazard::DryIce => "dry-ice",
        Hazard::HotOil => "hot-oil",
        Hazard::Alcohol => "alcohol",
        Hazard::Nuts => "nuts",
    }
}
