use serde::Serialize;

use super::address::{page_url, photo_url};
use super::text::sentence;
use crate::sheet::{Caution, Sheet};
use crate::workspace::Site;

/// What every recipe template sees.
#[derive(Debug, Serialize)]
pub(super) struct RecipeContext<'a> {
    /// Who publishes.
    site: &'a Site,
    /// The recipe, computed.
    recipe: &'a Sheet,
    /// The recipe's page in the archive, where the site has an address.
    page_url: Option<String>,
    /// The photograph in the archive, where there is one and the site has an address.
    photo_url: Option<String>,
    /// The recipe's cautions that no step gives as its own.
    other_cautions: Vec<&'a Caution>,
    /// Addresses that the author earns by; an ingredient line may lead to one too.
    paid_addresses: Vec<&'a str>,
}

impl<'a> RecipeContext<'a> {
    pub(super) fn new(site: &'a Site, recipe: &'a Sheet) -> Self {
        let steps = recipe.components.iter().flat_map(|component| &component.steps);
        let at_steps: Vec<String> = steps.filter_map(|step| step.mind.as_deref()).map(sentence).collect();
        let links = recipe.links.iter().flat_map(|group| &group.links);
        Self {
            site,
            recipe,
            page_url: page_url(site, recipe),
            photo_url: recipe.photo.as_ref().and_then(|photo| photo_url(site, photo)),
            other_cautions: recipe.cautions.iter().filter(|other| !at_steps.contains(&sentence(&other.text))).collect(),
            paid_addresses: links.filter(|link| link.paid).map(|link| link.url.as_str()).collect(),
        }
    }
}
