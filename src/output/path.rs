use super::OutputError;
use crate::workspace::is_device;

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
