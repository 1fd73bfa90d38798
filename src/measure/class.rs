use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What an ingredient does in a recipe; it decides how exact its measure must be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Class {
    /// Baking powder, soda, yeast.
    Leavening,
    /// Gelatine, agar, pectin, gums.
    Gelling,
    /// Salt.
    Salt,
    /// Flour, sugar, egg, fat.
    Structure,
    /// Water, milk, juice.
    Liquid,
    /// Everything that is there for its taste.
    Flavour,
}

impl Class {
    /// How far a level measure may be from the weight, in thousandths: 50, or 70 for liquids and flavours.
    ///
    /// Source: rule of the house; a household cup itself may be off by 5 %.
    pub fn tolerance_per_mille(self) -> u32 {
        match self {
            Class::Leavening | Class::Gelling | Class::Salt | Class::Structure => 50,
            Class::Liquid | Class::Flavour => 70,
        }
    }

    /// Whether less than 1/8 tsp must be weighed rather than pinched.
    pub fn must_be_weighed_when_small(self) -> bool {
        matches!(self, Class::Leavening | Class::Gelling)
    }
}
