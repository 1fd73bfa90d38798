use serde::Deserialize;

/// Declares the senses and the list of all.
macro_rules! senses {
    ($($(#[$doc:meta])* $name:ident,)*) => {
        /// What words in a recipe tell of; each language keeps the words under the name of the sense.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
        #[serde(rename_all = "kebab-case")]
        pub enum Sense {
            $($(#[$doc])* $name,)*
        }

        impl Sense {
            /// All of them, in their order.
            pub const ALL: &[Self] = &[$(Self::$name,)*];
        }
    };
}

senses! {
    /// Caramel.
    Caramel,
    /// Frying in a pan of oil.
    Frying,
    /// What is not eaten.
    Inedible,
    /// Dry ice and liquid nitrogen.
    DryIce,
    /// Jars that are kept.
    Preserving,
    /// The heat of an oven.
    Baked,
    /// The heat of boiling and frying.
    Boiled,
    /// Egg that needs no heat.
    Pasteurized,
    /// What makes that hold for some alone.
    Condition,
    /// The middle of a piece, where a probe goes.
    Core,
    /// A dish that egg sets, by its name.
    EggDish,
    /// A dish that egg sets, where a step calls it so.
    EggDishSurely,
    /// What a temperature is for, if not for eating: cooling, melting, proving.
    NotDone,
    /// Dusts that are not all for eating.
    Dust,
    /// What says that dust is food.
    Edible,
    /// What flowers are made of that are none.
    MadeFlower,
    /// Wire, thread and pins.
    Binding,
    /// What says that something is taken off before eating.
    TakenOff,
    /// Plants that poison what they touch.
    PoisonousPlant,
    /// Gelatine that has been soaked.
    Bloomed,
    /// What is set much firmer than a spoon wants.
    FirmJelly,
    /// Children in their first year.
    Infant,
    /// Moulds and tins.
    Mould,
    /// Words before an order to bake.
    BeforeOrder,
    /// Words behind `baking` that make it no order.
    NoOrder,
    /// How an oven is set without a number.
    OvenSetting,
    /// Ovens hotter than a kitchen's.
    HotOven,
    /// What is salted much more than a dish is.
    Salty,
    /// Words that move a stage of sugar: past, before.
    PastStage,
    /// What has to do with heat.
    Heat,
    /// What a number before it counts, so that it is no temperature.
    NoDegree,
    /// What says how long all of it takes.
    Promise,
    /// What makes a dish lighter than its ingredients.
    Loss,
    /// What a dial is for.
    Oven,
    /// What a thermometer is for.
    Probe,
    /// A dial that is turned from one setting to another.
    Turned,
    /// Words between two ways of one temperature.
    BetweenWays,
    /// Adjectives that name no ingredient alone.
    NotAlone,
    /// Words for more than one of a family.
    Several,
    /// Egg parts that are counted alone.
    Apart,
    /// Juice, and what is pressed.
    Juice,
    /// Zest, and what is grated.
    Zest,
    /// Words beside juice and zest.
    BesideJuice,
    /// What is done after measuring.
    AfterMeasuring,
    /// A cup that is filled loosely.
    Loose,
}
