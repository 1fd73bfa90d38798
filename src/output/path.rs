use super::OutputError;

/// Longest name that common file systems take, in bytes.
const LONGEST_NAME: usize = 255;

/// Accepts a relative path whose every part is a plain name on every common system.
pub(super) fn check(path: &str) -> Result<(), OutputError> {
    if path.split('/').all(is_plain) { Ok(()) } else { Err(OutputError::Outside { path: path.into() }) }
}

fn is_plain(name: &str) -> bool {
    let forbidden = |c: char| c.is_control() || matches!(c, '\\' | ':' | '*' | '?' | '"' | '<' | '>' | '|');
    // Names ending in a dot or a space lose it on some systems, and then stand for another file.
    !name.is_empty()
        && name.len() <= LONGEST_NAME
        && !name.contains(forbidden)
        && !name.ends_with(['.', ' '])
        && !name.starts_with(".levelcup")
        && !is_device(name)
}

/// Names that one system keeps for devices, with any ending.
pub(crate) fn is_device(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or(name).to_ascii_lowercase();
    let numbered = |kind: &str| stem.strip_prefix(kind).is_some_and(|n| matches!(n.as_bytes(), [b'1'..=b'9']));
    matches!(stem.as_str(), "con" | "prn" | "aux" | "nul") || numbered("com") || numbered("lpt")
}

#[cfg(test)]
mod tests {
    use super::check;

    #[test]
    fn plain_names_pass() {
        for path in ["index.html", "apricot-tart/index.html", "tags/crème/index.html", ".htaccess", "a b.txt", "cone"]
        {
            assert!(check(path).is_ok(), "{path}");
        }
    }

    #[test]
    fn everything_else_is_refused() {
        let long = "x".repeat(256);
        let refused = [
            "",
            "/",
            "/etc/passwd",
            "..",
            "../x",
            "a/../../x",
            "a/./b",
            "a//b",
            "a/",
            "c:\\x",
            "c:x",
            "a\\b",
            "a\0b",
            "a\nb",
            "con",
            "NUL.txt",
            "com1",
            "a./b",
            "a /b",
            ".levelcup-new/1",
            ".levelcup-files.json",
            &long,
        ];
        for path in refused {
            assert!(check(path).is_err(), "{path:?}");
        }
    }
}
