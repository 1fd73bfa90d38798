use std::cmp::Reverse;

/// The name most like a word that is none of them, where it is enough to be of help: of a dozen letters five may differ,
/// of two one. Of names that are as like the longest, since a letter is sooner left out than mistaken.
pub fn nearest<'n>(word: &str, names: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    let word = word.to_lowercase();
    let scored =
        names.into_iter().map(|name| (strsim::osa_distance(&word, &name.to_lowercase()), Reverse(name.len()), name));
    scored.min().filter(|(distance, _, near)| *distance <= 1 + near.len() / 3).map(|(.., near)| near)
}
