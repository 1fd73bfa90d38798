use crate::sheet::{Sheet, SheetPhoto};
use crate::text::{path_part, web_address};
use crate::workspace::Site;

/// The recipe's page in the archive; `None` where the site has no address.
pub fn page_url(site: &Site, recipe: &Sheet) -> Option<String> {
    site_url(site, &format!("{}/", path_part(&recipe.slug)))
}

/// Where the archive shows a photograph; `None` where the site has no address.
pub fn photo_url(site: &Site, photo: &SheetPhoto) -> Option<String> {
    // The archive makes JPEGs of all photographs, the largest of them under the photograph's own name.
    let stem = photo.file.rsplit_once('.').map_or(photo.file.as_str(), |(stem, _)| stem);
    let parts: Vec<String> = stem.split('/').map(path_part).collect();
    site_url(site, &format!("photos/{}.jpg", parts.join("/")))
}

/// The anchor of a step on the recipe's page: `rye-pastry--2`.
///
/// Slugs never hold two hyphens in a row, so no component has this anchor.
pub fn step_anchor(component_slug: &str, step_number: usize) -> String {
    format!("{component_slug}--{step_number}")
}

fn site_url(site: &Site, path: &str) -> Option<String> {
    let base = web_address(&site.url)?;
    let slash = if base.ends_with('/') { "" } else { "/" };
    Some(format!("{base}{slash}{path}"))
}
