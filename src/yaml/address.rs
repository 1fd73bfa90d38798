/// Whether a text is an address that is safe to print and to follow: http(s), no space, no quotes, no brackets.
pub fn is_web_address(url: &str) -> bool {
    let lower = url.to_ascii_lowercase();
    let host = lower.strip_prefix("https://").or_else(|| lower.strip_prefix("http://"));
    let safe = |c: char| !c.is_whitespace() && !c.is_control() && !"<>\"'`\\{}|^".contains(c);
    host.is_some_and(|host| host.starts_with(char::is_alphanumeric)) && url.chars().all(safe)
}
