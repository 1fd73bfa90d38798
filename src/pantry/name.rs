use std::sync::LazyLock;

use rustc_hash::FxHashSet;
use serde::Deserialize;

use crate::language::{singular, without_accents};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WordLists {
    droppable: Vec<Vec<String>>,
    idle: Vec<String>,
    stop: Vec<String>,
    sizes: Vec<String>,
    choices: Vec<String>,
    types: Vec<String>,
    phrases: Vec<Vec<String>>,
}

struct Rules {
    droppable: FxHashSet<String>,
    idle: FxHashSet<String>,
    stop: FxHashSet<String>,
    sizes: FxHashSet<String>,
    choices: Vec<String>,
    types: FxHashSet<String>,
    phrases: Vec<Vec<String>>,
}

static RULES: LazyLock<Rules> = LazyLock::new(|| {
    let lists: WordLists =
        serde_yaml::from_str(include_str!("words.yaml")).expect("the embedded words are well formed");
    let one = |word: String| singular(&word);
    Rules {
        droppable: lists.droppable.into_iter().flatten().map(one).collect(),
        idle: lists.idle.into_iter().map(one).collect(),
        stop: lists.stop.into_iter().collect(),
        sizes: lists.sizes.into_iter().map(one).collect(),
        choices: lists.choices,
        types: lists.types.into_iter().collect(),
        phrases: lists.phrases.into_iter().map(|phrase| phrase.into_iter().map(one).collect()).collect(),
    }
});

/// The words of a name, brought to one spelling: lower case, no accents, singular, no `of` and `the`.
///
/// `Crème fraîche`, `creme fraiche` and `crèmes fraîches` are the same two words.
pub(crate) fn words(name: &str) -> Vec<String> {
    let mut words = Vec::with_capacity(4);
    let mut word = String::new();
    let mut take = |word: &mut String| {
        if !word.is_empty() && !RULES.stop.contains(word.as_str()) {
            words.push(singular(word));
        }
        word.clear();
    };
    let plain: String;
    let text = if name.is_ascii() {
        name
    } else {
        plain = without_accents(name);
        &plain
    };
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '%' if word.bytes().all(|b| b.is_ascii_digit()) && !word.is_empty() => {
                word.push('%');
                take(&mut word);
            }
            ' ' if is_percent(&word, &chars) => {}
            '\'' if chars.peek().is_some_and(|next| next.is_alphabetic()) && word.len() == 1 => take(&mut word),
            '\'' => {}
            _ if c.is_alphanumeric() => word.push(c.to_ascii_lowercase()),
            _ => take(&mut word),
        }
    }
    take(&mut word);
    drop_sizes(&mut words);
    join_types(&mut words);
    words
}

fn is_number(word: &str) -> bool {
    word.bytes().all(|b| b.is_ascii_digit())
}

/// Makes one word of `type 65` and `T 65`, as millers write the grade of a flour: `t65`.
fn join_types(words: &mut Vec<String>) {
    while let Some(at) = words.windows(2).position(|pair| RULES.types.contains(&pair[0]) && is_number(&pair[1])) {
        let number = words.remove(at + 1);
        words[at] = format!("t{number}");
    }
}

/// Drops `6 inch`, `80 proof`: a number that only says how large or strong.
fn drop_sizes(words: &mut Vec<String>) {
    while let Some(at) = words.windows(2).position(|pair| is_number(&pair[0]) && RULES.sizes.contains(&pair[1])) {
        words.drain(at..at + 2);
    }
}

/// `70 %` is one word.
fn is_percent(word: &str, rest: &std::iter::Peekable<std::str::Chars<'_>>) -> bool {
    !word.is_empty() && word.bytes().all(|b| b.is_ascii_digit()) && rest.clone().next() == Some('%')
}

/// Which words of a name may be dropped: the droppable ones, and those of a phrase that is so as a whole (`thin-skinned`).
pub(super) fn droppable(words: &[String]) -> Vec<bool> {
    let mut may: Vec<bool> = words.iter().map(|word| is_droppable(word) && !RULES.idle.contains(word)).collect();
    for phrase in &RULES.phrases {
        for at in 0..(words.len() + 1).saturating_sub(phrase.len()) {
            let fits = |(word, said): (&String, &String)| word == said || word == "%" && said.ends_with('%');
            if phrase.iter().zip(&words[at..]).all(fits) {
                may[at..at + phrase.len()].fill(true);
            }
        }
    }
    may
}

/// What stands between two choices of one name.
pub(super) fn choices() -> &'static [String] {
    &RULES.choices
}

/// Whether a word says nothing beside a name: adjectives that never change what it is, percentages, and parts of a thing
/// that stand for it in a sentence (`the fat`), though no name may lose them.
pub(crate) fn is_droppable(word: &str) -> bool {
    RULES.droppable.contains(word) || RULES.idle.contains(word) || word.ends_with('%')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_come_together() {
        let case = |name: &str, wanted: &[&str]| assert_eq!(words(name), wanted, "{name}");
        case("Crème fraîche", &["creme", "fraich"]);
        case("confectioners' sugar", &["confectioner", "sugar"]);
        case("egg yolks", &["egg", "yolk"]);
        case("jaunes d'œufs", &["jaune", "oeuf"]);
        case("70 % dark chocolate", &["70%", "dark", "chocolate"]);
        case("cream of tartar", &["cream", "tartar"]);
        case("blackberries", &["blackberry"]);
        case("'00' flour", &["00", "flour"]);
        case("all-purpose flour", &["all", "purpose", "flour"]);
        case("bay leaves", &["bay", "leaf"]);
        case("Greek yoghurt", &["greek", "yogurt"]);
        case("farine type 65", &["farine", "t65"]);
        case("farine T 65", &["farine", "t65"]);
        case("farine T65", &["farine", "t65"]);
        assert_eq!(words("figues fraîches"), words("figue fraîche"));
        assert_eq!(words("pêches blanches"), words("pêche blanche"));
    }
}
