/// Help for a field that is not there: the nearest, else all that there are.
pub(super) fn choice<'a>(asked: &str, names: impl IntoIterator<Item = &'a str>) -> String {
    let mut names: Vec<&str> = names.into_iter().collect();
    names.sort_unstable();
    did_you_mean(asked, names.iter().copied()).unwrap_or_else(|| format!("there are: {}", names.join(", ")))
}

/// The nearest of some names, where one is near enough.
pub(super) fn did_you_mean<'a>(asked: &str, names: impl IntoIterator<Item = &'a str>) -> Option<String> {
    let likeness = |name: &str| strsim::jaro_winkler(asked, name);
    let mut names: Vec<&str> = names.into_iter().collect();
    // Of equals the last is taken; sorted, it is the same one every time.
    names.sort_unstable();
    let nearest = names.into_iter().max_by(|one, other| likeness(one).total_cmp(&likeness(other)))?;
    (likeness(nearest) > 0.8).then(|| format!("did you mean `{nearest}`?"))
}
