//! Addresses of the web and of mail.

use percent_encoding::{AsciiSet, CONTROLS, NON_ALPHANUMERIC, utf8_percent_encode};

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

/// Whether a text is an address of the web that is safe to print as it stands: http(s), no space, no quotes, no brackets.
pub fn is_web_address(url: &str) -> bool {
    let safe = |c: char| !c.is_whitespace() && !c.is_control() && !"<>\"'`\\{}|^".contains(c);
    let host = url.split_once("://").map(|(_, host)| host);
    is_linkable(url) && host.is_some_and(|host| host.starts_with(char::is_alphanumeric)) && url.chars().all(safe)
}

/// Whether an address may be linked: http, https or mailto, nothing else.
pub fn is_linkable(address: &str) -> bool {
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
    is_linkable(address).then(|| utf8_percent_encode(address, IN_ADDRESS).to_string())
}

/// One part of a path, with all that could end it percent-encoded.
pub fn path_part(part: &str) -> String {
    utf8_percent_encode(part, IN_SEGMENT).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_web_and_mail_addresses_are_linked() {
        for good in ["https://tern-quay.example/", "HTTP://a.example", "mailto:cook@tern-quay.example"] {
            assert!(is_linkable(good), "{good}");
        }
        for bad in
            ["javascript:alert(1)", "data:text/html,x", "//a.example", "/x", "https:///x", "http:", "mailto:", ""]
        {
            assert!(!is_linkable(bad), "{bad}");
        }
    }

    #[test]
    fn what_is_printed_as_it_stands_is_stricter() {
        for good in ["https://tern-quay.example/a?b=c#d", "http://1.example"] {
            assert!(is_web_address(good), "{good}");
        }
        for bad in ["mailto:a@b.example", "https://.example", "https://a.example/x y", "https://a.example/\"", "www.a"]
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
