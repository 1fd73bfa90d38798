use std::collections::BTreeMap;

use serde::Deserialize;

/// How a language makes many of one.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Plurals {
    /// Of single words, by the one.
    irregular: BTreeMap<String, String>,
    /// Words of which one and many are the same.
    unchanged: Vec<String>,
    /// Ends of one and of many, the first that fits; else an `s` is added.
    endings: Vec<[String; 2]>,
    /// Behind these the head of a name is over: `pod of cardamom`.
    behind: Vec<String>,
}

impl Plurals {
    /// A name for more than one: its head, the last word before `of` and the like, in the plural.
    pub fn many(&self, name: &str) -> String {
        self.at_head(name, |word| self.plural(word))
    }

    /// A name for one, all its words in the singular.
    pub fn one(&self, name: &str) -> String {
        name.split(' ').map(|word| self.singular(word)).collect::<Vec<_>>().join(" ")
    }

    fn at_head(&self, name: &str, change: impl Fn(&str) -> String) -> String {
        let ends = self.behind.iter().filter_map(|mark| name.find(mark.as_str()));
        let end = ends.filter(|end| *end > 0).min().unwrap_or(name.len());
        let start = name[..end].rfind([' ', '-']).map_or(0, |at| at + 1);
        format!("{}{}{}", &name[..start], change(&name[start..end]), &name[end..])
    }

    fn plural(&self, word: &str) -> String {
        if self.unchanged.iter().any(|same| same == word) {
            return word.to_string();
        }
        if let Some(many) = self.irregular.get(word) {
            return many.clone();
        }
        let ending = self.endings.iter().find_map(|[one, many]| Some((word.strip_suffix(one.as_str())?, many)));
        ending.map_or_else(|| format!("{word}s"), |(stem, many)| format!("{stem}{many}"))
    }

    /// The word whose plural this one is; the word itself where there is none.
    fn singular(&self, word: &str) -> String {
        if self.unchanged.iter().any(|same| same == word) {
            return word.to_string();
        }
        if let Some((one, _)) = self.irregular.iter().find(|(_, many)| *many == word) {
            return one.clone();
        }
        let by_ending = self.endings.iter().filter(|[one, many]| one != many).filter_map(|[one, many]| {
            let stem = word.strip_suffix(many.as_str()).filter(|stem| stem.len() > 1)?;
            Some(format!("{stem}{one}"))
        });
        let by_letter = word.strip_suffix('s').filter(|stem| stem.len() > 2).map(str::to_string);
        let mut known = by_ending.chain(by_letter).filter(|one| self.plural(one) == word);
        known.next().unwrap_or_else(|| word.to_string())
    }
}

#[cfg(test)]
mod tests {
    use crate::language::Language;

    #[test]
    fn heads_of_names_become_many() {
        let english = Language::default();
        let case = |one: &str, many: &str| assert_eq!(english.plurals().many(one), many);
        case("peach", "peaches");
        case("strawberry", "strawberries");
        case("potato", "potatoes");
        case("avocado", "avocados");
        case("mango", "mangoes");
        case("bay leaf", "bay leaves");
        case("loaf of bread", "loaves of bread");
        case("egg white", "egg whites");
        case("anchovy fillet in oil", "anchovy fillets in oil");
        case("radish", "radishes");
        case("box", "boxes");
        case("olive", "olives");
        case("asparagus", "asparagus");
        case("oats", "oats");
        case("turkey", "turkeys");
        case("half", "halves");
        case("shallot", "shallots");
        case("fish", "fish");
    }

    #[test]
    fn one_comes_back_of_many() {
        let english = Language::default();
        let french = Language::of("fr").unwrap();
        for one in
            ["peach", "cherry", "potato", "leaf", "orange", "lime", "box", "glass", "loaf", "olive", "kiwi", "grape"]
        {
            let many = english.plurals().many(one);
            assert_eq!(english.plurals().one(&many), one, "{many}");
            assert_eq!(english.plurals().one(one), one);
        }
        for (one, many) in [("gâteau", "gâteaux"), ("noix", "noix"), ("chou", "choux"), ("orange", "oranges")] {
            assert_eq!((french.plurals().many(one), french.plurals().one(many)), (many.to_string(), one.to_string()));
        }
    }

    /// Every name of the pantry has a plural that has an end once, and is no other word's.
    #[test]
    fn every_name_has_many() {
        let english = Language::default();
        for row in crate::pantry::Pantry::embedded().rows() {
            let many = english.plurals().many(row.name());
            assert!(
                !many.is_empty() && !many.ends_with("sss") && !many.ends_with("ys ") && !many.ends_with("chs"),
                "{many}"
            );
        }
    }
}
