//! Colours of the screen.

/// The red, green and blue of `#rrggbb`, 0 to 255 each.
pub fn colour(text: &str) -> Option<[u8; 3]> {
    let digits = text.trim().strip_prefix('#').filter(|digits| digits.len() == 6)?;
    let plain = digits.bytes().all(|digit| digit.is_ascii_hexdigit());
    let [_, red, green, blue] = plain.then(|| u32::from_str_radix(digits, 16).ok())??.to_be_bytes();
    Some([red, green, blue])
}

#[cfg(test)]
mod tests {
    use super::colour;

    #[test]
    fn only_six_digits_are_a_colour() {
        assert_eq!(colour(" #1f3a4D"), Some([0x1f, 0x3a, 0x4d]));
        for text in ["1f3a4d", "#1f3", "#1f3a4g", "#+f3a4d", "red", "#1f3a4d;}", ""] {
            assert_eq!(colour(text), None, "{text}");
        }
    }
}
