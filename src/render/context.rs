use serde::Serialize;

use super::address::{page_url, photo_url};
use crate::sheet::Sheet;
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
}

impl<'a> RecipeContext<'a> {
    pub(super) fn new(site: &'a Site, recipe: &'a Sheet) -> Self {
        let photo_url = recipe.photo.as_ref().and_then(|photo| photo_url(site, photo));
        Self { site, recipe, page_url: page_url(site, recipe), photo_url }
    }
}
