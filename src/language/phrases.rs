//! Words and phrases that tell of something, as a language's file has them.

use serde::Deserialize;

/// A change as a language's file has it.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub(super) struct ChangeSection {
    pub(super) said: Vec<String>,
    pub(super) made_by: Vec<String>,
    pub(super) or_by: Vec<String>,
    pub(super) of: Vec<String>,
}

/// A group as a language's file has it.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub(super) struct GroupSection {
    pub(super) takes: bool,
    pub(super) said: Vec<String>,
    pub(super) families: Vec<String>,
    pub(super) names: Vec<String>,
}

/// A hazard's words as a language's file has them.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub(super) struct HazardSection {
    pub(super) name: Option<String>,
    pub(super) say: Vec<String>,
    pub(super) titled: Vec<String>,
    pub(super) line: Vec<String>,
    pub(super) step: Vec<String>,
    pub(super) unless: Vec<String>,
}
