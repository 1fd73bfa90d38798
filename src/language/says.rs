use serde::Deserialize;

/// What readers see in one place: with names to fill in, and for a count in two forms.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(untagged)]
pub(super) enum Message {
    /// One form.
    Plain(String),
    /// The form for one, and the form for many.
    Counted([String; 2]),
}

impl Message {
    /// The words with `{name}`s filled in; the form goes by the number `{count}`, from `plural_from` on the second.
    ///
    /// What is filled in is text and never looked into.
    pub(super) fn filled(&self, with: &[(&str, &str)], plural_from: i64) -> String {
        let count = || with.iter().find(|(name, _)| *name == "count").and_then(|(_, count)| count.parse::<i64>().ok());
        let form = match self {
            Self::Plain(form) => form,
            Self::Counted([one, many]) => match count() {
                Some(count) if count.abs() < plural_from => one,
                _ => many,
            },
        };
        let mut text = String::with_capacity(form.len() + 16);
        let mut rest = form.as_str();
        while let Some((before, after)) = rest.split_once('{') {
            text.push_str(before);
            let (name, behind) = after.split_once('}').unwrap_or((after, ""));
            text.push_str(with.iter().find(|(known, _)| *known == name).map_or("", |(_, value)| value));
            rest = behind;
        }
        text.push_str(rest);
        text
    }

    /// The names that are filled in, and whether it goes by a count.
    #[cfg(test)]
    pub(super) fn names(&self) -> std::collections::BTreeSet<String> {
        let forms = match self {
            Self::Plain(form) => vec![form],
            Self::Counted([one, many]) => vec![one, many],
        };
        let names = forms.iter().flat_map(|form| form.split('{').skip(1));
        names.filter_map(|part| part.split_once('}').map(|(name, _)| name.to_string())).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_filled_in_once() {
        let plain = Message::Plain("From {from} to {to}.".into());
        assert_eq!(plain.filled(&[("from", "{to}"), ("to", "3 h")], 2), "From {to} to 3 h.");
        assert_eq!(Message::Plain("{ open".into()).filled(&[], 2), "");
        let counted = Message::Counted(["{count} recipe".into(), "{count} recipes".into()]);
        let said = |count: &str| counted.filled(&[("count", count)], 2);
        assert_eq!([said("0"), said("1"), said("2")], ["0 recipe", "1 recipe", "2 recipes"]);
    }
}
