//! What a text without quotes may be.

/// A number as YAML writes them: finite, and no word.
pub(super) fn number(text: &str) -> Option<f64> {
    let is_number = text.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | '-' | '+'));
    text.parse().ok().filter(|number: &f64| is_number && number.is_finite())
}

/// A truth value as YAML writes them.
pub(super) fn truth(text: &str) -> Option<bool> {
    match text {
        "true" | "True" | "TRUE" => Some(true),
        "false" | "False" | "FALSE" => Some(false),
        _ => None,
    }
}
