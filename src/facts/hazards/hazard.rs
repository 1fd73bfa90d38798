/// How bad it is, the worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Can kill.
    Kills,
    /// Can injure.
    Injures,
    /// Can make ill.
    Sickens,
    /// Spoils the dish, or somebody's day.
    Disappoints,
}

/// Declares the hazards, each with the name that the languages know it by and how bad it is.
macro_rules! hazards {
    ($($(#[$doc:meta])* $hazard:ident = $name:literal, $severity:ident;)*) => {
        /// Something to mind.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Hazard {
            $($(#[$doc])* $hazard,)*
        }

        impl Hazard {
            /// All of them, in their order.
            pub const ALL: &[Self] = &[$(Self::$hazard,)*];

            /// What the languages know it by.
            pub fn name(self) -> &'static str {
                match self {
                    $(Self::$hazard => $name,)*
                }
            }

            /// How bad it is.
            pub fn severity(self) -> Severity {
                match self {
                    $(Self::$hazard => Severity::$severity,)*
                }
            }
        }
    };
}

hazards! {
    /// Raw egg in the portion. Source: FDA 65 FR 76092 and 21 CFR 101.17, 2000; 9 CFR 590.570.
    RawEgg = "raw-egg", Kills;
    /// Soft yolk, molten centre. Source: FSIS chart ; FSA 2017; Real Decreto 1021/2022.
    SoftEgg = "soft-egg", Sickens;
    /// Flour that is eaten raw. Source: FDA and CDC ; home heat treatment not advised, FDA.
    RawFlour = "raw-flour", Sickens;
    /// Raw dough or batter as the dish. Source: FDA, Handling Flour Safely, 2016-.
    RawDough = "raw-dough", Sickens;
    /// Boiling sugar, by stage and colour. Source: first-aid pages; stages, four tables in.
    HotSugar = "hot-sugar", Injures;
    /// Boiling jam and thick fruit. Source: common practice.
    HotJam = "hot-jam", Injures;
    /// Caramel meets liquid. Source: common practice.
    CaramelLiquid = "caramel-liquid", Injures;
    /// Pulled, blown and cast sugar, isomalt. Source: common practice.
    PulledSugar = "pulled-sugar", Injures;
    /// Frying. Source: US Fire Administration and UK fire services, from memory.
    HotOil = "hot-oil", Injures;
    /// Oil too hot or too cool. Source: Reg. 2017/2158 Annex I, from memory; common practice.
    FryingTemperature = "frying-temperature", Disappoints;
    /// Water and ice in hot oil. Source: US fire and food agencies on turkey fryers, from memory.
    WaterInOil = "water-in-oil", Injures;
    /// Lighting alcohol. Source: common practice; fire services, from memory.
    Flambe = "flambe", Injures;
    /// Torch, candles, sparklers. Source: common practice.
    OpenFlame = "open-flame", Injures;
    /// Charcoal and smoke indoors. Source: CDC, carbon monoxide, from memory.
    IndoorCharcoal = "indoor-charcoal", Kills;
    /// Steam. Source: common practice.
    HotSteam = "hot-steam", Injures;
    /// Hot liquid in a closed blender. Source: common practice.
    HotBlender = "hot-blender", Injures;
    /// Microwave: bursts and late boils.
    /// Source: FDA, Risk of Burns from Eruptions of Hot Water Overheated in Microwave Ovens, 2007.
    MicrowaveBurst = "microwave-burst", Injures;
    /// Chestnuts and unshelled eggs in dry heat. Source: common practice.
    ChestnutBurst = "chestnut-burst", Injures;
    /// Glass that bursts. Source: US consumer product advice on glass bakeware, from memory; common practice.
    GlassShock = "glass-shock", Injures;
    /// Pressure cooker. Source: appliance standards and manuals, common practice.
    PressureCooker = "pressure-cooker", Injures;
    /// Paper, film, silicone over their limit. Source: makers' labels, common practice.
    PaperPlasticHeat = "paper-plastic-heat", Disappoints;
    /// Dry ice. Source: FDA Food Code interpretation, 31 October 2018; FSA, from memory.
    DryIce = "dry-ice", Injures;
    /// Liquid nitrogen. Source: FDA safety alert, 30 August 2018.
    LiquidNitrogen = "liquid-nitrogen", Kills;
    /// Cream whipper and gas cartridges.
    /// Source: DGCCRF, siphons culinaires, 2017 and later; FDA on inhaling nitrous oxide, 2025, from memory.
    CreamWhipper = "cream-whipper", Injures;
    /// Bottles that ferment. Source: common practice; extension pages, from memory.
    BottlePressure = "bottle-pressure", Injures;
    /// Alcohol stays in the dish. Source: USDA Table of Nutrient Retention Factors, release 6, 2007.
    AlcoholStays = "alcohol-stays", Sickens;
    /// Garlic, herbs, vegetables under oil. Source: authorities differ: 7 days at 40 °F, 2-4 days, 2-3 days, 10 days.
    GarlicInOil = "garlic-in-oil", Kills;
    /// Vacuum packed, low temperature. Source: Food Code 3-401.11 table; FSA 60 °C 45 min, 70 °C 2 min.
    VacuumLowTemp = "vacuum-low-temp", Kills;
    /// Low-acid food in jars. Source: USDA Complete Guide to Home Canning; Montana State Extension.
    LowAcidPreserving = "low-acid-preserving", Kills;
    /// Jars that keep: seal and altitude.
    /// Source: USDA altitude additions; UK and French hot-fill practice, common practice.
    JarsAltitude = "jars-altitude", Sickens;
    /// Vinegar pickles. Source: USDA Complete Guide, from memory.
    PickleAcidity = "pickle-acidity", Kills;
    /// Fermented vegetables.
    /// Source: 3/4 cup salt to 25 lb of cabbage, Michigan State Extension after USDA,; 2-2.5 %, common practice.
    FermentSalt = "ferment-salt", Sickens;
    /// Nitrite and nitrate.
    /// Source: FSIS Processing Inspectors' Calculations Handbook, 1995, as quoted; 9 CFR 424.21, from memory.
    CuringSalt = "curing-salt", Kills;
    /// Left out too long. Source: USDA; Food Code 3-501.14 ; Anses, 2 h and 4 °C.
    ChillingTime = "chilling-time", Sickens;
    /// Cooked rice kept or reheated. Source: FSA on rice, in quotations.
    RiceKept = "rice-kept", Sickens;
    /// Reheating. Source: FSIS chart; FSA 70 °C 2 min and Scotland 82 °C.
    Reheating = "reheating", Sickens;
    /// Cakes and pastries with cream or custard. Source: Food Code 1-201.10.
    CreamCakes = "cream-cakes", Sickens;
    /// Poultry and stuffing. Source: FSIS; FSA; Canada: 82 °C whole, before 85,; Food Code 74 °C under 1 s.
    Poultry = "poultry", Sickens;
    /// Minced meat. Source: FSIS; FSA; France, steak haché at heart 70 °C for children, from memory.
    GroundMeat = "ground-meat", Sickens;
    /// Pork, boar, bear, horse. Source: FSIS chart ; Canada pork 71 °C and large game 74 °C,; FSA 70 °C 2 min.
    PorkGame = "pork-game", Sickens;
    /// Raw and rare whole meat.
    /// Source: Anses on tartare and carpaccio,; whole seared cuts, FSA, in a copy, and Food Code.
    RawBeef = "raw-beef", Sickens;
    /// Raw, cured and lightly cooked fish. Source: Food Code 3-402.11, in a quotation.
    RawFish = "raw-fish", Sickens;
    /// Oysters, mussels, clams, crab. Source: FSIS, FDA, from memory; Canada 74 °C and unopened shells.
    Shellfish = "shellfish", Kills;
    /// Raw juices. Source: FSIS, from memory.
    RawMarinade = "raw-marinade", Sickens;
    /// Raw milk. Source: 21 CFR 1240.61; Anses,; France, raw milk to be boiled for children, from memory.
    RawMilk = "raw-milk", Sickens;
    /// Soft and raw-milk cheese. Source: CDC, NHS, from memory; Anses,. They differ.
    SoftCheese = "soft-cheese", Sickens;
    /// Dried kidney beans. Source: FDA Bad Bug Book, 2nd ed. 2012, as quoted; UK 10 min, from memory. They differ.
    KidneyBeans = "kidney-beans", Sickens;
    /// Raw sprouts. Source: FDA, FSA, Anses, from memory.
    Sprouts = "sprouts", Sickens;
    /// Gathered and raw mushrooms.
    /// Source: Anses, warnings of autumn 2020,; 20-30 min and photograph, Anses, from memory.
    WildMushrooms = "wild-mushrooms", Kills;
    /// Gathered leaves and berries. Source: Anses on confusions of plants, 2020 and later, from memory.
    WildPlants = "wild-plants", Kills;
    /// Rhubarb leaves. Source: extension pages, from memory.
    RhubarbLeaves = "rhubarb-leaves", Sickens;
    /// Green and sprouted potatoes. Source: BfR opinion, 2018,; EFSA 2020.
    GreenPotatoes = "green-potatoes", Sickens;
    /// Bitter almonds, apricot and other kernels. Source: EFSA, 27 April 2016,; FSA, 12 May 2016,; FSAI, 2016.
    BitterKernels = "bitter-kernels", Kills;
    /// Elderberries raw. Source: CDC, MMWR 33, 1984, Poisoning from Elderberry Juice.
    RawElderberry = "raw-elderberry", Sickens;
    /// Cassava, bamboo, bitter yam, taro. Source: FSANZ, March 2017.
    CassavaBamboo = "cassava-bamboo", Sickens;
    /// Bitter squash, ornamental gourds. Source: Anses, 27 October 2022.
    BitterSquash = "bitter-squash", Sickens;
    /// Nutmeg. Source: toxicology review, ACMT and ALiEM,; Illinois Poison Center, 2014.
    NutmegDose = "nutmeg-dose", Sickens;
    /// Licorice. Source: Reg. 1169/2011 Annex III point 3,; FDA, 2 oz a day for 2 weeks over 40, from memory.
    Liquorice = "liquorice", Sickens;
    /// Tonka bean. Source: 21 CFR 189.130,; TDI 0.1 mg a kg, BfR and EFSA.
    TonkaBean = "tonka-bean", Sickens;
    /// Cinnamon in quantity.
    /// Source: BfR 2007,; coumarin 2.1-4.4 g a kg cassia,; Reg. 1334/2008 Annex III, from memory.
    CassiaCinnamon = "cassia-cinnamon", Sickens;
    /// Poppy seeds in quantity. Source: EFSA 2011 and 16 May 2018,; Reg. 2021/2142.
    PoppySeed = "poppy-seed", Sickens;
    /// Star anise. Source: FDA advisory of 10 September 2003; France, badiane teas withdrawn 2001, from memory.
    StarAnise = "star-anise", Sickens;
    /// Essential oils. Source: common practice; Anses and DGCCRF, from memory.
    EssentialOil = "essential-oil", Sickens;
    /// Flowers on food.
    /// Source: NC State HIL 8513, 1999, and Colorado State University Extension, Edible Flowers: Quick Facts.
    Flowers = "flowers", Kills;
    /// Leaves and branches as decoration.
    /// Source: CSU table,; the rest from memory. Bay against cherry laurel: a known confusion, from memory.
    LeavesDecoration = "leaves-decoration", Kills;
    /// Honey and babies. Source: Quebec INSPQ, California infant botulism programme, FDA 2018; NHS, from memory.
    HoneyInfant = "honey-infant", Kills;
    /// Salt for babies. Source: NHS and FSA, in quotations; France, Santé publique France, from memory.
    SaltInfant = "salt-infant", Sickens;
    /// Whole nuts and small children. Source: NHS, in quotations; AAP ; France, from memory. They differ.
    ChokingNuts = "choking-nuts", Kills;
    /// Grapes, sweets, marshmallows, popcorn.
    /// Source: UK early years guidance, in a school's copy; AAP; France, from memory.
    ChokingRound = "choking-round", Kills;
    /// Mini jellies, mochi, glutinous sweets.
    /// Source: EU, gelling agents E 400-418 and konjac not allowed in jelly mini-cups, Reg. 1333/2008.
    ChokingJelly = "choking-jelly", Kills;
    /// Peanuts and nuts. Source: FDA Edition 5, January 2025, and Reg. 1169/2011 Annex II.
    Nuts = "nuts", Kills;
    /// Gelatin and other hidden animal things. Source: EU: gelatine is food, not an additive, from memory.
    GelatineDiet = "gelatine-diet", Disappoints;
    /// Alcohol as a matter of faith. Source: common practice.
    AlcoholFaith = "alcohol-faith", Disappoints;
    /// Caffeine. Source: EFSA 2015, from memory; Reg. 1169/2011 Annex III point 4,; contents SR28, from memory.
    Caffeine = "caffeine", Sickens;
    /// Tonic and quinine.
    /// Source: 21 CFR 172.575,; EU: quinine named in the list, Reg. 1169/2011 Annex VII, from memory.
    Quinine = "quinine", Sickens;
    /// Activated charcoal. Source: FDA talk by Anderson, 9 May 2019; New York City orders since 2016.
    CharcoalMedicine = "charcoal-medicine", Sickens;
    /// Grapefruit and Seville orange. Source: FDA consumer update on grapefruit juice, from memory.
    GrapefruitMedicine = "grapefruit-medicine", Sickens;
    /// Isomalt and other polyols. Source: Reg. 1169/2011 Annex III point 2.4,; xylitol and dogs, FDA, from memory.
    Polyols = "polyols", Sickens;
    /// Colors by region. Source: as in the table.
    FoodColors = "food-colors", Disappoints;
    /// Glitter, luster dust, metal leaf.
    /// Source: FDA and CDC MMWR 70, 29 October 2021; FSA 2015 and later, from memory.
    GlitterDust = "glitter-dust", Sickens;
    /// Wires, sticks, dowels, toothpicks. Source: FDA.
    WiresSticks = "wires-sticks", Injures;
    /// Stones, pits, bones, shells left in. Source: common practice.
    StonesShells = "stones-shells", Injures;
    /// Bay, cinnamon sticks, whole spices left in. Source: common practice.
    WholeSpices = "whole-spices", Disappoints;
    /// Lye. Source: common practice; CDC/NIOSH on sodium hydroxide, from memory.
    Lye = "lye", Injures;
    /// Kansui, washing soda, lime, ammonia. Source: USDA on pickling lime, from memory; common practice.
    KansuiAsh = "kansui-ash", Injures;
    /// Too much baking soda. Source: common practice; antacid labels, from memory.
    BakingSodaOverdose = "baking-soda-overdose", Disappoints;
    /// Citric and other pure acids. Source: common practice.
    CitricAcid = "citric-acid", Sickens;
    /// Concentrated acetic acid. Source: common practice.
    VinegarEssence = "vinegar-essence", Injures;
    /// Hot chilies. Source: common practice.
    ChiliHandling = "chili-handling", Injures;
    /// Mandoline, slicer, grinder. Source: common practice.
    MandolineSlicer = "mandoline-slicer", Injures;
}
