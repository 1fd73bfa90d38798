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
    /// Acid that makes low-acid fruit safe in jars.
    AcidAdded,
    /// Acid, or treacle, that baking soda works against.
    AcidForSoda,
    /// Baking ammonia.
    Ammonia,
    /// Bark of the cinchona tree.
    Bark,
    /// A bath of water at some heat.
    Bath,
    /// A machine with a lid.
    Blender,
    /// A hard boil.
    BoilsHard,
    /// Jars that are boiled.
    BoilsJars,
    /// Bottles and jars that are closed.
    Bottles,
    /// Glass that is cold when something is poured into it.
    ColdGlass,
    /// Heat from above or of a flame.
    Browned,
    /// What bursts in a microwave.
    Bursts,
    /// Mushrooms that may be eaten raw.
    ButtonMushroom,
    /// Caffeine itself.
    Caffeine,
    /// Candles and sparklers.
    Candle,
    /// Fire of charcoal and wood.
    Charcoal,
    /// Where no fire belongs.
    Indoors,
    /// A canner under pressure.
    Canner,
    /// What is hidden to be found.
    Charm,
    /// Words for children.
    Children,
    /// Made of chocolate.
    ChocolateThing,
    /// Churned to ice.
    Churned,
    /// Coffee to drink.
    Coffee,
    /// Sugar that has a colour.
    Coloured,
    /// Sugar that has taken a colour in a pan, by what the colour is like.
    SugarColour,
    /// Bought or made ready, so that no heat is asked.
    CookedAlready,
    /// Cooled first.
    Cooled,
    /// Cream or custard that is made into a filling.
    CreamMade,
    /// What spoils soon outside the cold.
    CreamThing,
    /// What sours milk on purpose.
    Culture,
    /// Cut so small that nobody chokes.
    CutUp,
    /// Dried.
    Dried,
    /// What may stand because it dries.
    Dries,
    /// What is dry to the middle, and keeps.
    KeepsDry,
    /// A dish that is drunk.
    Drink,
    /// Dry heat, and water that boils.
    DryHeat,
    /// Dry heat that flour alone is given.
    HeatsFlour,
    /// Dough and batter, as a dish is called.
    DoughDish,
    /// Eaten as it is, without baking.
    EatenRaw,
    /// Flowers that are eaten.
    EdibleFlower,
    /// Eggs, whole or beaten.
    Egg,
    /// Yolk that stays soft.
    StaysSoft,
    /// Strong coffee.
    Espresso,
    /// Extract.
    Extract,
    /// Wrapped in foil, paper or a leaf.
    WrapsIn,
    /// Closed tightly.
    Seals,
    /// Words for those who avoid alcohol.
    Faith,
    /// Oil and fat for a pan.
    Fat,
    /// For the bench and the tin, not for the dish.
    ForTheBench,
    /// Frozen.
    Frozen,
    /// Gathered in the wild.
    Gathered,
    /// Picked by oneself, in the words of a tale.
    FromTheWild,
    /// Grown from seed that was kept at home.
    SavedSeed,
    /// A little grated.
    Grating,
    /// Ground or puréed, so that no piece is left.
    GrindsFine,
    /// Ground.
    Ground,
    /// Coffee to brew.
    GroundCoffee,
    /// Hard cheese, which ripens long.
    HardCheese,
    /// Flour that heat has made safe.
    HeatTreated,
    /// Liquid that is hot, where the heat is no order.
    HotLiquid,
    /// Hot from the stove.
    HotThing,
    /// Put into hot fat.
    LowersIn,
    /// Kept in the cold.
    InTheCold,
    /// Coffee that dissolves.
    InstantCoffee,
    /// Into a mould, or over something dry.
    IntoMould,
    /// Kept for days.
    Kept,
    /// Cooked before, and kept.
    KeptCooked,
    /// A lid that lets gas out.
    LooseLid,
    /// Fruit that is not sour enough for jars.
    LowAcidFruit,
    /// Made of sugar and the like, so that it is none.
    MadeOfSugar,
    /// Words of an order to boil sugar.
    MakesCaramel,
    /// A marinade.
    Marinade,
    /// What raw meat has lain in, by where it is left.
    LeftOfMarinade,
    /// Powdered tea.
    Matcha,
    /// Melted.
    Melts,
    /// Meat that was minced, said behind its name.
    Minced,
    /// Meringue.
    Meringue,
    /// Milk and cream.
    MilkThing,
    /// Mushrooms.
    Mushroom,
    /// Made to be looked at.
    NotEaten,
    /// A part without nuts is offered beside.
    NutFreePart,
    /// Nuts that are no pieces.
    NutPaste,
    /// Off the heat.
    OffHeat,
    /// Oil.
    Oil,
    /// An order to bake.
    OvenCooks,
    /// Whisked, not cooked.
    Pale,
    /// An order to cook on the hob.
    PanCooks,
    /// An order to fry.
    PanFries,
    /// Paper and silicone that line a tin.
    Paper,
    /// Dried before frying.
    PattedDry,
    /// Lime that is no fruit.
    PicklingLime,
    /// Pierced or scored.
    Pierced,
    /// A pod whose seeds are used.
    PodScraped,
    /// Leaves that poison what they touch.
    PoisonousLeaf,
    /// Thick pastes that spit.
    Polenta,
    /// Pork.
    Pork,
    /// Potatoes.
    Potato,
    /// An order to put something in.
    PutsIn,
    /// Not cooked through, on purpose.
    Rare,
    /// Milk as it comes from the animal.
    Untreated,
    /// Rice.
    Rice,
    /// Rinsed away.
    Rinsed,
    /// Flours that are sold roasted, and crumbs.
    RoastedFlour,
    /// Out of the cold.
    RoomTemperature,
    /// Yolks and whites apart.
    Separated,
    /// Eaten hot at once.
    ServedHot,
    /// Set aside before meat went in.
    SetAsideFirst,
    /// A little fat in a pan.
    ShallowFat,
    /// Without its shell.
    Shelled,
    /// Heat too gentle for beans.
    SlowCooker,
    /// Small things, not young people.
    SmallNotYoung,
    /// So hot that it smokes.
    Smokes,
    /// Soaked in water.
    Soaks,
    /// A blender that goes into the pan.
    StickBlender,
    /// Stock, soup and stew.
    Stock,
    /// Rice that is sticky.
    StickyRice,
    /// Shaped into pieces.
    ShapesPieces,
    /// Squash and the like.
    Squash,
    /// Stones, bones and shells taken out.
    StonesOut,
    /// Strained off.
    Strained,
    /// Sugar that boils.
    Syrup,
    /// Taken out again.
    TakenOut,
    /// Whole, and taken out.
    TakenOutWhole,
    /// Raw meat as a dish.
    Tartare,
    /// Cut up as it is.
    CutsRaw,
    /// Tea.
    Tea,
    /// Tea beside which something is eaten.
    BesideTea,
    /// Tea to brew.
    TeaLeaves,
    /// Thawed.
    Thawed,
    /// Cooked until egg thickens.
    Thickened,
    /// Dry heat in a pan.
    Toasts,
    /// Held below the brine.
    UnderBrine,
    /// Vinegar.
    Vinegar,
    /// Water or ice that is thrown.
    WaterOrIce,
    /// Liquid, or fat with water in it.
    WetThing,
    /// Egg whites.
    White,
    /// Everything that is in the bowl or the tin.
    WholeMass,
    /// Stems and leaves with the berries.
    WithStems,
    /// Words that deny what follows.
    Without,
    /// Birch sugar, which kills dogs.
    Xylitol,
    /// Egg yolks.
    Yolk,
    /// Something is on the heat.
    OnHeat,
    /// Rolled or tossed in a coating.
    Coats,
    /// Squid and the like, which are no shellfish to sort.
    Cephalopod,
    /// Shells that are sorted, live ones from dead.
    Bivalve,
    /// Bought alive.
    Live,
    /// Sweets and ices that are held by a stick.
    HeldByStick,
    /// The stick that something is held by.
    HoldingStick,
    /// Greens that are leaves and no flowers.
    Evergreen,
    /// What a serving is eaten from.
    Serving,
    /// Custard that coats a spoon, from 82 °C.
    Nappe,
    /// A verb that begins another clause.
    ClauseVerb,
    /// Into water that boils or simmers.
    IntoHotWater,
    /// A vessel that stands in hot water.
    Bowl,
    /// Custard and creams, as a component is called.
    Custard,
    /// Words that end no phrase.
    WeakEnd,
    /// Words that begin another clause.
    JoinsClauses,
    /// Flour, or all that is dry.
    Flour,
    /// All that has not gone in yet.
    Everything,
    /// What is left, where nothing is named that it is of.
    RestAlone,
    /// All, as what a verb acts on.
    All,
    /// A verb that brings things together.
    Mixes,
    /// The first of the lines.
    FirstOf,
    /// The last of the lines.
    LastOf,
    /// Words behind `all` that leave it the object of its verb.
    AfterAll,
    /// What stands for what was spoken of before.
    Pronoun,
    /// What stands before a thing that is known.
    The,
    /// What is made on the way, and is no ingredient.
    MadeThing,
    /// Fat that is for frying or greasing, and stays behind.
    ForFrying,
    /// A freezer.
    Freezer,
    /// A refrigerator.
    Fridge,
    /// Chocolate that is used.
    Works,
    /// The point at which jam sets.
    SettingPoint,
    /// Custard.
    CustardThing,
    /// Brought to a temperature.
    CooksTo,
    /// Yeast.
    Yeast,
    /// A dough that rises.
    Proves,
    /// Dough.
    Dough,
    /// Caramel by its colour.
    Amber,
    /// Meat and poultry.
    Flesh,
    /// What a probe says.
    Registers,
    /// What only a hot oven does.
    Browns,
    /// An oven that is meant to be low.
    LowOven,
    /// A time that is not that of the whole step.
    PartOfTime,
    /// Cut or weighed into pieces.
    Divides,
    /// A half.
    Half,
    /// A third.
    Third,
    /// A quarter.
    Quarter,
    /// Said of a sum.
    InAll,
    /// What only tastes or looks like something.
    Imitation,
    /// Verbs that put nothing into the dish.
    NotAdding,
    /// Boiled through in water.
    BoilsThrough,
    /// What is salted much more than a dish is, as a component is called.
    SaltyName,
    /// What is left of a line: `the rest of`.
    Rest,
    /// A part of a line that no number says.
    SomeOf,
    /// All of a line but a part.
    AllBut,
    /// A fifth.
    Fifth,
    /// Verbs that take a little of a line where more of it is wanted elsewhere.
    TakesLittle,
    /// Words that keep a part of what was named back.
    HoldsBack,
    /// Words between a part and the name that it is of.
    Linking,
    /// What stands before a thing, so that a word before it is a verb: `cream the butter`.
    Article,
    /// What leaves out what follows.
    Except,
    /// Names that are also orders which take nothing of that name: `cream the butter`.
    VerbToo,
    /// Said of a line that goes in at several times.
    Divided,
    /// Orders to put something in.
    Adds,
    /// Small words between an order to add and what is added.
    AddsIn,
    /// What joins the parts of a list.
    And,
    /// What follows the last of a list.
    ClauseEnd,
    /// What is bought ready, though what is made may be called so too.
    Bought,
    /// What is salted as a caramel is.
    Toffee,
}
