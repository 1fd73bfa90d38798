use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What an ingredient is or does where cooking or safety asks; a row may have several.
///
/// Rules and cautions ask for roles and never for names, so that a row of a workspace's own `pantry.yaml` counts too.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Water and nothing else.
    Water,
    /// Sugar or syrup that melts and boils, and then burns.
    Sugar,
    /// Honey, or food made with it.
    Honey,
    /// A drink above 1.2 % of alcohol, or food soaked in one.
    Alcohol,
    /// Egg that no heat has made safe.
    RawEgg,
    /// A hen's egg, counted by its size.
    WholeEgg,
    /// The white of a hen's egg.
    EggWhite,
    /// The yolk of a hen's egg.
    EggYolk,
    /// Flour, or a mix with it, that no heat has made safe.
    RawFlour,
    /// Flour that holds baking powder.
    SelfRaising,
    /// Raw poultry.
    Poultry,
    /// Raw minced meat and sausage.
    MincedMeat,
    /// Other raw meat.
    RawMeat,
    /// Raw fish.
    RawFish,
    /// Raw crustaceans and molluscs.
    Shellfish,
    /// Gelatine, or a sweet made with it.
    Gelatine,
    /// Gelatine that is soaked before use.
    DryGelatine,
    /// Gelatine in sheets, the grade stated or not.
    GelatineSheet,
    /// Powdered agar.
    Agar,
    /// Pectin.
    Pectin,
    /// Gums that thicken at about a hundredth: xanthan, guar, carrageenan.
    Gum,
    /// Baking powder.
    BakingPowder,
    /// Baking soda.
    BakingSoda,
    /// Baking ammonia.
    BakingAmmonia,
    /// Potassium carbonate.
    Potash,
    /// Active dry and instant yeast.
    DriedYeast,
    /// Fresh yeast.
    FreshYeast,
    /// Flour and water raised by their own yeasts.
    Starter,
}
