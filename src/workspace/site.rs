use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::language::Language;
use crate::measure::Standard;
use crate::pantry::{REGIONS, sizes};

/// Grades of gelatine sheet.
pub(crate) const GRADES: [&str; 5] = ["bronze", "silver", "gold", "platinum", "titanium"];

/// `site/site.yaml`: who publishes, and how amounts are shown. Every key may be left out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
#[schemars(title = "Settings of a levelcup workspace")]
pub struct Site {
    /// Name of the publisher, shown on every page and card.
    pub name: String,
    /// One line under the name.
    pub tagline: String,
    /// Address of the archive, with a trailing slash; feeds and canonical links need it.
    #[schemars(extend("pattern" = "^$|^[hH][tT][tT][pP][sS]?://"))]
    pub url: String,
    /// Who writes the recipes.
    pub author: String,
    /// Language of units and of the pages' `lang`, by its tag.
    #[schemars(extend("enum" = Language::tags().collect::<Vec<_>>()))]
    pub language: String,
    /// The cup in the kitchen.
    pub cups: Cups,
    /// The eggs bought.
    pub eggs: Eggs,
    /// Grade of gelatine sheet: `bronze`, `silver`, `gold`, `platinum` or `titanium`.
    #[schemars(extend("enum" = GRADES))]
    pub gelatin: String,
    /// Which of a stated pair is believed.
    pub authority: Authority,
    /// Accent colour, `#rrggbb`.
    #[schemars(extend("pattern" = "^#[0-9a-fA-F]{6}$"))]
    pub accent: String,
    /// Shown beside paid links.
    pub disclosure: String,
    /// Words of your own in place of those that every output shares, by their key: `need: Get ready`.
    #[serde(skip_serializing)]
    pub words: BTreeMap<String, String>,
    /// Levels of proof's rules, by name: `error`, `warning`, `note` or `off`. Nothing that templates need.
    #[serde(skip_serializing)]
    pub levels: BTreeMap<String, RuleSetting>,
}

/// How a rule of proof is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum RuleSetting {
    /// Nothing is published from the recipe.
    Error,
    /// Probably wrong.
    Warning,
    /// Worth knowing.
    Note,
    /// Not looked at.
    Off,
}

/// Cup standards; see the measure room for their sizes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Cups {
    /// US customary cup, 236.588 2365 mL.
    #[default]
    Customary,
    /// US label cup, 240 mL.
    Label,
    /// 250 mL cup, 15 mL tablespoon.
    Metric,
    /// 250 mL cup, 20 mL tablespoon.
    Australian,
    /// What is sold in the UK today: 250 mL cup, 15 mL tablespoon, imperial pint.
    Uk,
    /// Ten imperial fluid ounces, 284 mL.
    Imperial,
}

/// Egg size by national class.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Eggs {
    /// `US`, `EU` or `UK`.
    #[schemars(extend("examples" = REGIONS))]
    pub region: String,
    /// `small`, `medium`, `large`, `extra large` or `jumbo`.
    #[schemars(extend("examples" = sizes("US")))]
    pub size: String,
}

/// Which measure of a line is believed when both are stated.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Authority {
    /// The weight.
    #[default]
    Weights,
    /// The cups.
    Cups,
}

impl From<Cups> for Standard {
    fn from(cups: Cups) -> Self {
        match cups {
            Cups::Customary => Standard::Customary,
            Cups::Label => Standard::Label,
            Cups::Metric | Cups::Uk => Standard::Metric,
            Cups::Australian => Standard::Australian,
            Cups::Imperial => Standard::Imperial,
        }
    }
}

impl Default for Site {
    fn default() -> Self {
        Self {
            name: "Our kitchen".into(),
            tagline: String::new(),
            url: "https://kitchen.example/".into(),
            author: "The kitchen".into(),
            language: "en-US".into(),
            cups: Cups::default(),
            eggs: Eggs::default(),
            gelatin: "silver".into(),
            authority: Authority::default(),
            accent: "#1f3a4d".into(),
            disclosure: "Links marked * are paid: we earn a commission when you buy through them.".into(),
            words: BTreeMap::new(),
            levels: BTreeMap::new(),
        }
    }
}

impl Site {
    /// Says in a language what the site leaves to us: the disclosure of paid links, where it has none of its own.
    pub fn speak(&mut self, language: &Language) {
        if self.disclosure == Self::default().disclosure {
            self.disclosure = language.say("disclosure", &[]);
        }
    }
}

impl Default for Eggs {
    fn default() -> Self {
        Self { region: "US".into(), size: "large".into() }
    }
}
