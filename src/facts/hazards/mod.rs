//! What in a recipe can hurt whoever cooks or eats it.
//!
//! A hazard is told by words in the lines and steps, which stand in the languages' files, and by what happens: which
//! heat an ingredient meets, how much of it a serving holds, in which order things are done. Sources of the figures
//! stand beside them; those of the advice in `hazard.rs`.

mod animals;
mod burns;
mod cooked;
mod dish;
mod egg_and_flour;
mod hazard;
mod keeping;
mod materials;
mod people;
mod plants;

use dish::{Dish, Told};
pub use hazard::{Hazard, Severity};

use super::Facts;

/// A hazard of a recipe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// What it is.
    pub hazard: Hazard,
    /// What brings it in, by name, where that is said: the nuts, the drinks.
    pub of: Vec<String>,
    /// Which of the further things there is reason to say, from 1.
    pub more: Vec<usize>,
    /// Component and step that give the reason first, where one does.
    pub at: Option<(usize, usize)>,
}

/// How a hazard is told.
type Teller = fn(&Dish<'_>, Hazard) -> Option<Told>;

/// Of each hazard that words alone do not tell, what does.
const TELLERS: &[(Hazard, Teller)] = &[
    (Hazard::RawEgg, egg_and_flour::raw_egg),
    (Hazard::SoftEgg, egg_and_flour::soft_egg),
    (Hazard::RawFlour, egg_and_flour::raw_flour),
    (Hazard::RawDough, egg_and_flour::raw_dough),
    (Hazard::HotSugar, burns::hot_sugar),
    (Hazard::HotJam, burns::hot_jam),
    (Hazard::CaramelLiquid, burns::caramel_liquid),
    (Hazard::PulledSugar, burns::pulled_sugar),
    (Hazard::HotOil, burns::hot_oil),
    (Hazard::FryingTemperature, burns::frying_temperature),
    (Hazard::WaterInOil, burns::water_in_oil),
    (Hazard::Flambe, burns::flambe),
    (Hazard::OpenFlame, burns::open_flame),
    (Hazard::IndoorCharcoal, burns::indoor_charcoal),
    (Hazard::HotSteam, burns::hot_steam),
    (Hazard::HotBlender, burns::hot_blender),
    (Hazard::MicrowaveBurst, burns::microwave_burst),
    (Hazard::ChestnutBurst, burns::chestnut_burst),
    (Hazard::GlassShock, burns::glass_shock),
    (Hazard::PaperPlasticHeat, burns::paper_plastic_heat),
    (Hazard::BottlePressure, keeping::bottle_pressure),
    (Hazard::AlcoholStays, keeping::alcohol_stays),
    (Hazard::GarlicInOil, keeping::garlic_in_oil),
    (Hazard::VacuumLowTemp, keeping::vacuum_low_temp),
    (Hazard::LowAcidPreserving, keeping::low_acid_preserving),
    (Hazard::JarsAltitude, keeping::jars_altitude),
    (Hazard::PickleAcidity, keeping::pickle_acidity),
    (Hazard::FermentSalt, keeping::ferment_salt),
    (Hazard::ChillingTime, keeping::chilling_time),
    (Hazard::RiceKept, keeping::rice_kept),
    (Hazard::Reheating, keeping::reheating),
    (Hazard::CreamCakes, keeping::cream_cakes),
    (Hazard::Poultry, animals::poultry),
    (Hazard::GroundMeat, animals::ground_meat),
    (Hazard::PorkGame, animals::pork_game),
    (Hazard::RawBeef, animals::raw_beef),
    (Hazard::RawFish, animals::raw_fish),
    (Hazard::Shellfish, animals::shellfish),
    (Hazard::RawMarinade, animals::raw_marinade),
    (Hazard::RawMilk, animals::raw_milk),
    (Hazard::SoftCheese, animals::soft_cheese),
    (Hazard::KidneyBeans, plants::kidney_beans),
    (Hazard::Sprouts, plants::unless_cooked),
    (Hazard::WildMushrooms, plants::wild_mushrooms),
    (Hazard::GreenPotatoes, plants::green_potatoes),
    (Hazard::RawElderberry, plants::raw_elderberry),
    (Hazard::CassavaBamboo, plants::cassava_bamboo),
    (Hazard::BitterSquash, plants::bitter_squash),
    (Hazard::NutmegDose, plants::nutmeg_dose),
    (Hazard::Liquorice, plants::liquorice),
    (Hazard::CassiaCinnamon, plants::cassia_cinnamon),
    (Hazard::PoppySeed, plants::poppy_seed),
    (Hazard::StarAnise, plants::star_anise),
    (Hazard::Flowers, plants::flowers),
    (Hazard::LeavesDecoration, plants::leaves_decoration),
    (Hazard::HoneyInfant, people::honey_infant),
    (Hazard::SaltInfant, people::salt_infant),
    (Hazard::ChokingNuts, people::choking_nuts),
    (Hazard::ChokingRound, people::choking_round),
    (Hazard::ChokingJelly, people::choking_jelly),
    (Hazard::Nuts, people::nuts),
    (Hazard::GelatineDiet, people::gelatine_diet),
    (Hazard::AlcoholFaith, people::alcohol_faith),
    (Hazard::Caffeine, people::caffeine),
    (Hazard::Quinine, people::quinine),
    (Hazard::GrapefruitMedicine, people::grapefruit_medicine),
    (Hazard::Polyols, people::polyols),
    (Hazard::WiresSticks, materials::wires_sticks),
    (Hazard::StonesShells, materials::stones_shells),
    (Hazard::WholeSpices, materials::whole_spices),
    (Hazard::KansuiAsh, materials::kansui_ash),
    (Hazard::BakingSodaOverdose, materials::baking_soda_overdose),
    (Hazard::CitricAcid, materials::citric_acid),
    (Hazard::ChiliHandling, materials::chili_handling),
];

/// The first says all that the second would.
const COVERS: [(Hazard, Hazard); 5] = [
    (Hazard::RawEgg, Hazard::SoftEgg),
    (Hazard::RawDough, Hazard::RawFlour),
    (Hazard::AlcoholFaith, Hazard::AlcoholStays),
    (Hazard::LowAcidPreserving, Hazard::JarsAltitude),
    (Hazard::LowAcidPreserving, Hazard::PickleAcidity),
];

/// Everything of a recipe that can hurt, each once: the worst first, then in the order of the steps.
pub(super) fn hazards(facts: &Facts<'_>) -> Vec<Found> {
    let dish = Dish::of(facts);
    let tell = |hazard: Hazard| {
        let own = TELLERS.iter().find(|(told, _)| *told == hazard).map(|(_, teller)| *teller);
        let Told { at, more, of } = own.unwrap_or(by_words)(&dish, hazard)?;
        Some(Found { hazard, of, more, at })
    };
    let mut found: Vec<Found> = Hazard::ALL.iter().filter_map(|hazard| tell(*hazard)).collect();
    let covered = |hazard: Hazard, found: &[Found]| {
        COVERS.iter().any(|(all, part)| *part == hazard && found.iter().any(|other| other.hazard == *all))
    };
    let covered: Vec<bool> = found.iter().map(|one| covered(one.hazard, &found)).collect();
    let mut covered = covered.into_iter();
    found.retain(|_| !covered.next().unwrap_or_default());
    found.sort_by_key(|found| (found.hazard.severity(), found.at.unwrap_or_default(), found.hazard));
    found
}

/// Told by a line, else by a step, that has one of its words.
fn by_words(dish: &Dish<'_>, hazard: Hazard) -> Option<Told> {
    let line = dish.lines_telling(hazard).next().map(|line| Told::by(dish, line));
    line.or_else(|| dish.steps_telling(hazard).next().map(Told::at))
}
