use unicode_normalization::UnicodeNormalization;

/// A text as the name of a page or anchor: lower case, no accents, words joined by hyphens.
///
/// Letters of other scripts stay; a text without any letter or digit gives `part`.
pub fn slug(text: &str) -> String {
    let mut slug = String::with_capacity(text.len());
    for c in text.nfd().filter(|c| !matches!(c, '\u{300}'..='\u{36F}')) {
        if c.is_alphanumeric() {
            slug.extend(c.to_lowercase());
        } else if !slug.is_empty() && !slug.ends_with('-') && !matches!(c, '\'' | '’') {
            slug.push('-');
        }
    }
    let slug = slug.trim_end_matches('-');
    if slug.is_empty() { "part".into() } else { slug.chars().take(80).collect() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slugs_are_plain() {
        assert_eq!(slug("Crème brûlée & tea"), "creme-brulee-tea");
        assert_eq!(slug("Baker's dozen"), "bakers-dozen");
        assert_eq!(slug("///"), "part");
    }
}
