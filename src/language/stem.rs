//! One form for a word's spellings.

use std::sync::LazyLock;

use rustc_hash::FxHashMap;
use unicode_normalization::UnicodeNormalization;

use super::section;

/// Words that no rule covers, of all languages.
static STEMS: LazyLock<FxHashMap<&'static str, &'static str>> = LazyLock::new(|| section::stems().collect());

/// Lower case, accents gone, ligatures spelled out.
pub(crate) fn without_accents(name: &str) -> String {
    if name.is_ascii() {
        return name.to_ascii_lowercase();
    }
    let mut plain = String::with_capacity(name.len());
    for c in name.nfd() {
        match c {
            'œ' | 'Œ' => plain.push_str("oe"),
            'æ' | 'Æ' => plain.push_str("ae"),
            'ß' => plain.push_str("ss"),
            'ø' | 'Ø' => plain.push('o'),
            '’' | '‘' | 'ʼ' => plain.push('\''),
            '\u{300}'..='\u{36F}' => {}
            _ => plain.extend(c.to_lowercase()),
        }
    }
    plain
}

/// Behind these sounds the plural of English words is `es`.
const HISSES: [&str; 5] = ["ches", "shes", "xes", "sses", "zes"];

/// One form for singular and plural; it need not be a word, only the same for both.
pub(crate) fn singular(word: &str) -> String {
    if let Some(known) = STEMS.get(word) {
        return (*known).to_string();
    }
    // `boyaux` are `boyau`, `pruneaux` `pruneau`.
    if let Some(one) = word.strip_suffix('x').filter(|one| one.ends_with("eau") || one.ends_with("yau")) {
        return one.to_string();
    }
    if !word.ends_with('s') {
        // `cuisses` loses what `glasses` does, and so must `cuisse`.
        let silent = word.len() > 4 && HISSES.iter().any(|end| word.ends_with(&end[..end.len() - 1]));
        return word[..word.len() - usize::from(silent)].to_string();
    }
    let cut = |end: &str, with: &str| word.strip_suffix(end).map(|stem| [stem, with].concat());
    let singular = match word {
        _ if word.len() < 4 || word.ends_with("ss") || word.ends_with("us") || word.ends_with("is") => None,
        _ if word.ends_with("ies") && word.len() > 4 => cut("ies", "y"),
        _ if HISSES.iter().any(|end| word.ends_with(end)) => cut("es", ""),
        _ if word.ends_with("oes") => cut("es", ""),
        _ => cut("s", ""),
    };
    let singular = singular.unwrap_or_else(|| word.to_string());
    STEMS.get(singular.as_str()).map_or(singular, |known| (*known).to_string())
}
