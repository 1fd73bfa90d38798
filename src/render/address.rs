use percent_encoding::{AsciiSet, CONTROLS, NON_ALPHANUMERIC, utf8_percent_encode};

use crate::sheet::{Sheet, SheetPhoto};
use crate::workspace::Site;

/// What is encoded in a whole address: all that could end it or open something else, in text, Markdown or HTML.
const IN_ADDRESS: &AsciiSet = &CONTROLS
    .add(b' ')
    .add(b'"')
    .add(b'\'')
    .add(b'<')
    .add(b'>')
    .add(b'`')
    .add(b'\\')
    .add(b'(')
    .add(b')')
    .add(b'{')
    .add(b'}')
    .add(b'|')
    .add(b'^')
    .add(b'*');

/// What is encoded in one part of a path: all but the unreserved characters of RFC 3986, section 2.3.
const IN_SEGMENT: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~');

/// Whether an address may be linked: http, https or mailto, nothing else.
pub fn is_web_address(address: &str) -> bool {
    let Some((scheme, rest)) = address.split_once(':') else { return false };
    let host_follows =
        rest.strip_prefix("//").is_some_and(|host| !host.is_empty() && !host.starts_with(['/', '?', '#']));
    (host_follows && (scheme.eq_ignore_ascii_case("http") || scheme.eq_ignore_ascii_case("https")))
        || (scheme.eq_ignore_ascii_case("mailto") && !rest.is_empty())
}

/// A linkable address with every character that could end it, in text, Markdown or HTML, percent-encoded.
///
/// `None` where the address may not be linked.
pub fn web_address(address: &str) -> Option<String> {
    let address = address.trim();
    is_web_address(address).then(|| utf8_percent_encode(address, IN_ADDRESS).to_string())
}

/// The recipe's page in the archive; `None` where the site has no address.
pub fn page_url(site: &Site, recipe: &Sheet) -> Option<String> {
    site_url(site, &format!("{}/", utf8_percent_encode(&recipe.slug, IN_SEGMENT)))
}

/// Where the archive shows a photograph; `None` where the site has no address.
pub fn photo_url(site: &Site, photo: &SheetPhoto) -> Option<String> {
    // The archive makes JPEGs of all photographs, the largest of them under the photograph's own name.
    let stem = photo.file.rsplit_once('.').map_or(photo.file.as_str(), |(stem, _)| stem);
    let parts: Vec<String> = stem.split('/').map(|part| utf8_percent_encode(part, IN_SEGMENT).to_string()).collect();
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_web_and_mail_addresses_are_linked() {
        for good in ["https://tern-quay.example/", "HTTP://a.example", "mailto:cook@tern-quay.example"] {
            assert!(is_web_address(good), "{good}");
        }
        for bad in
            ["javascript:alert(1)", "data:text/html,x", "//a.example", "/x", "https:///x", "http:", "mailto:", ""]
        {
            assert!(!is_web_address(bad), "{bad}");
        }
    }

    #[test]
    fn nothing_ends_an_address_early() {
        assert_eq!(web_address("https://a.example/x y)<b>").as_deref(), Some("https://a.example/x%20y%29%3Cb%3E"));
        assert_eq!(web_address(" https://a.example/?a=1&b=2#c ").as_deref(), Some("https://a.example/?a=1&b=2#c"));
        assert_eq!(web_address("https://a.example/\u{202E}x").as_deref(), Some("https://a.example/%E2%80%AEx"));
        assert_eq!(web_address("javascript:alert(1)"), None);
    }
}
