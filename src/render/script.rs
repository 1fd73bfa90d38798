use serde::Serialize;

/// A value as JSON that can stand inside a `<script>` element: no `<`, `>` or `&`, and no line separator that older
/// script readers take for a line's end.
///
/// # Errors
/// When the value cannot be written as JSON, as a map whose keys are not text.
pub fn script_json(value: &impl Serialize) -> Result<String, serde_json::Error> {
    let json = serde_json::to_string(value)?;
    let mut safe = String::with_capacity(json.len());
    // Outside strings JSON holds none of these, so an escape is always inside one.
    let barred = |character: char| matches!(character, '<' | '>' | '&' | '\u{2028}' | '\u{2029}');
    let mut from = 0;
    for (at, found) in json.match_indices(barred) {
        safe.push_str(&json[from..at]);
        safe.extend(found.chars().map(|character| format!("\\u{:04x}", u32::from(character))));
        from = at + found.len();
    }
    safe.push_str(&json[from..]);
    Ok(safe)
}
