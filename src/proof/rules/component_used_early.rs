//! What it finds: a component used by one that stands before it.
//!
//! Why it matters: the reader reaches for something that is not made yet, and timetables come out wrong.
//!
//! Example: `uses: [Glaze]` in the second component, and `Glaze` as the fourth
//!
//! Instead: the components in the order they are made
//!
//! Source: rule of the house.

use crate::proof::Context;
use crate::recipe::ComponentUse;
use crate::source::Finding;

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let components = &context.recipe.components;
    let mut findings = Vec::new();
    for (at, component) in components.iter().enumerate() {
        let in_steps = component.steps.iter().flat_map(|step| &step.uses);
        let early = component.uses.iter().chain(in_steps).filter(|used| used.component > at);
        findings.extend(early.map(|used: &ComponentUse| {
            let made = &components[used.component];
            Finding::at(used.span.clone(), format!("`{}` is used before it is made", made.name))
                .other(made.span.clone(), "made here")
                .help(format!("move `{}` above `{}`", made.name, component.name))
        }));
    }
    findings
}
