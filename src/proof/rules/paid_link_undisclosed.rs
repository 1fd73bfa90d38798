//! What it finds: a link that earns money and is not marked `paid`, or paid links under a site without a disclosure.
//!
//! Why it matters: the audience has a right to know, and the law asks for it.
//!
//! Example: `{what: ring, url: "https://shop.example/ring?tag=quay-21"}`
//!
//! Instead: `{what: ring, url: "https://shop.example/ring?tag=quay-21", paid: true}`, and `disclosure:` in `site.yaml`
//!
//! Source: 16 CFR 255.5 (2023); known by the usual parameters of partner addresses (common practice).

use crate::proof::Context;
use crate::source::Finding;

/// Parameters of an address by which a shop knows its partner.
const PARTNER: [&str; 15] = [
    "tag",
    "aff",
    "affid",
    "aff_id",
    "affiliate",
    "affiliate_id",
    "partner",
    "partner_id",
    "ref",
    "referral",
    "refid",
    "awc",
    "clickref",
    "irclickid",
    "rfsn",
];

pub(in crate::proof) fn check(context: &Context<'_>) -> Vec<Finding> {
    let silent = context.site().disclosure.trim().is_empty();
    let links = context.recipe.links.iter().enumerate();
    let wrong = links.filter_map(|(at, link)| {
        let node = context.recipe.root.key("links").item(at);
        if link.paid && silent {
            let found = Finding::at(node.key("paid").span.clone(), "a paid link, and the site has no disclosure");
            return Some(
                found.help("write `disclosure:` in `site/site.yaml`: `I earn a commission from links marked *.`"),
            );
        }
        let parameter = parameter(&link.url).filter(|_| !link.paid)?;
        let message = format!("`{parameter}=` looks like a paid link, and it is not marked");
        Some(Finding::at(node.key("url").span.clone(), message).help("add `paid: true`, or take the parameter out"))
    });
    wrong.collect()
}

fn parameter(url: &str) -> Option<&str> {
    let (_, query) = url.split_once('?')?;
    let mut names = query.split(['&', ';', '#']).filter_map(|part| part.split_once('=')).map(|(name, _)| name);
    names.find(|name| PARTNER.contains(&name.to_ascii_lowercase().as_str()))
}
