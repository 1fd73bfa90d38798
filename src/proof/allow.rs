use std::collections::BTreeMap;

use super::{Rule, explain, rules};
use crate::recipe::{Allow, Recipe};
use crate::source::{Finding, Level};
use crate::workspace::{RuleSetting, Site};

/// The level of each rule under a site's settings.
#[derive(Clone, Debug, Default)]
pub struct Levels(BTreeMap<String, RuleSetting>);

impl Levels {
    /// The settings of a site; a name in them that is no rule's sets nothing.
    pub fn of_site(site: &Site) -> Self {
        Self(site.levels.clone())
    }

    /// The level of a rule; none where it is off.
    pub(super) fn of(&self, rule: &Rule) -> Option<Level> {
        match self.0.get(rule.name) {
            None => Some(rule.level),
            Some(RuleSetting::Error) => Some(Level::Error),
            Some(RuleSetting::Warning) => Some(Level::Warning),
            Some(RuleSetting::Note) => Some(Level::Note),
            Some(RuleSetting::Off) => None,
        }
    }
}

fn near(name: &str) -> String {
    super::explain::nearest(name).map(|near| format!("; did you mean `{near}`?")).unwrap_or_default()
}

/// Takes out what the recipe allows; adds findings for allows that name no rule, give no reason, or do nothing.
pub(super) fn apply(recipe: &Recipe, findings: Vec<Finding>, levels: &Levels) -> Vec<Finding> {
    let judged = recipe.allow.iter().enumerate().filter_map(|(at, allow)| judged(recipe, at, allow, &findings, levels));
    let own: Vec<Finding> = judged.collect();
    let allowed = |finding: &Finding| recipe.allow.iter().any(|allow| allow.rule == finding.rule);
    let kept = findings.into_iter().filter(|finding| !allowed(finding));
    kept.chain(own).collect()
}

fn judged(recipe: &Recipe, at: usize, allow: &Allow, findings: &[Finding], levels: &Levels) -> Option<Finding> {
    let span = allow.span.clone();
    let name = &allow.rule;
    let Some(rule) = rules::RULES.iter().find(|rule| rule.name == name) else {
        let message = match explain(name) {
            Some(_) => format!("`{name}` cannot be allowed: without it the file cannot be used"),
            None => format!("no rule is called `{name}`{}", near(name)),
        };
        return Some(
            Finding::warning("unknown-allow", span, message).help("`levelcup proof --explain` lists the rules"),
        );
    };
    if recipe.allow[..at].iter().any(|earlier| earlier.rule == *name) {
        return Some(Finding::warning("unused-allow", span, format!("`{name}` is allowed twice")).help("keep one"));
    }
    levels.of(rule)?;
    if !findings.iter().any(|finding| finding.rule == name) {
        let message = format!("nothing here breaks `{name}`");
        return Some(Finding::warning("unused-allow", span, message).help("take the line out"));
    }
    allow.because.is_none().then(|| {
        let message = format!("`{name}` is allowed without a reason");
        let help = format!("write why: `{{rule: {name}, because: ...}}`");
        Finding::warning("allow-without-reason", span, message).help(help)
    })
}
