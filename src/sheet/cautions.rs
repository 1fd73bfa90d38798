use super::model::Caution;
use crate::facts::{Facts, Hazard};

/// What a recipe gives reason to mind, once each, in a fixed order; the author's own last.
///
/// Sources of the advice: FDA and CDC on raw flour and eggs (21 CFR 101.17(h)), FDA on inedible decorations, FSIS safe
/// minimum temperatures, USDA Complete Guide to Home Canning, public health services on honey; the handling of hot
/// sugar and of caramel with cream is common practice.
pub(super) fn cautions(facts: &Facts<'_>) -> Vec<Caution> {
    let mut cautions: Vec<Caution> = Vec::new();
    for found in facts.hazards() {
        let (topic, text) = said(found.hazard);
        let text = text.replace("{of}", &found.of.join(", "));
        cautions.push(Caution { topic: topic.into(), text });
    }
    for mind in facts.recipe.components.iter().flat_map(|c| &c.steps).filter_map(|step| step.mind.as_ref()) {
        if !cautions.iter().any(|caution| caution.text == *mind) {
            cautions.push(Caution { topic: "the author's own".into(), text: mind.clone() });
        }
    }
    cautions
}

/// The topic of a hazard, and what to say of it.
fn said(hazard: Hazard) -> (&'static str, &'static str) {
    match hazard {
        Hazard::HotSugar => ("hot sugar", HOT_SUGAR),
        Hazard::CaramelAndCream => ("caramel and cream", CARAMEL),
        Hazard::RawEgg => ("raw egg", RAW_EGG),
        Hazard::RawFlour => ("raw flour", RAW_FLOUR),
        Hazard::MeatAndFish => ("meat and fish", MEAT),
        Hazard::Honey => ("honey", HONEY),
        Hazard::Preserving => ("preserving", PRESERVE),
        Hazard::Gelatine => ("bloomed gelatine", GELATINE),
        Hazard::InedibleDecoration => ("inedible decoration", INEDIBLE),
        Hazard::DryIce => ("dry ice and nitrogen", DRY_ICE),
        Hazard::HotOil => ("hot oil", HOT_OIL),
        Hazard::Alcohol => ("alcohol", ALCOHOL),
        Hazard::Nuts => ("nuts", NUTS),
    }
}

const HOT_SUGAR: &str = "Boiling sugar sticks and goes on burning. Wear long sleeves, keep a bowl of cold water within \
reach and children and pets out of the kitchen. Cool a burn under running water for 10 to 20 minutes and see a doctor \
if it is large.";
const CARAMEL: &str = "Caramel boils up and spits when liquid meets it. Use a deep pan, take it off the heat, warm the \
liquid and pour it in slowly.";
const RAW_EGG: &str = "Some of the egg here is not cooked through. Use pasteurized egg for young children, older people, \
in pregnancy and wherever immunity is weak, and keep the dish refrigerated.";
const RAW_FLOUR: &str =
    "Flour is a raw food: do not taste dough or batter before it is cooked, and wash hands and tools.";
const MEAT: &str = "Check the core with a probe: 74 °C (165 °F) for poultry and stuffing, 71 °C (160 °F) for minced meat \
and egg dishes, 63 °C (145 °F) for fish. Chill what is left within two hours.";
const HONEY: &str = "Honey is not for children under one year, nor is food made with it.";
const PRESERVE: &str = "This is not a tested canning process: keep it refrigerated. For jars that stay on the shelf follow \
a tested procedure of your food authority, with the times for your altitude.";
const GELATINE: &str = "Gelatine comes from animals: the dish is neither vegetarian nor vegan.";
const INEDIBLE: &str = "Use leaf, dust and glitter only if they are labelled edible with a list of ingredients, and take \
out every wire, pick and dowel before serving.";
const DRY_ICE: &str = "Never touch, swallow or seal in dry ice or liquid nitrogen; air the room, and serve only when none \
of it is left.";
const HOT_OIL: &str = "Hot oil catches fire and water makes it spit: stay with it, fill the pan to a third, and smother a \
flame with a lid, never with water.";
const ALCOHOL: &str = "Contains alcohol: {of}. Cooking takes away only a part of it.";
const NUTS: &str = "Contains nuts: {of}. Tell your guests.";
