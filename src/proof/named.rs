//! Which ingredient lines a text names.

use super::words::Word;
use crate::kitchen::Kitchen;
use crate::pantry::{is_droppable, words};
use crate::recipe::Component;

/// The names by which a component's lines may be called.
#[derive(Debug)]
pub(super) struct Names {
    /// Of each line, its own name first, then those of its row in the pantry; each as words in the singular.
    lines: Vec<Vec<Vec<String>>>,
}

/// Words of a name that say nothing when they stand alone.
const NOT_ALONE: [&str; 24] = [
    "white", "dark", "black", "light", "heavy", "brown", "red", "green", "golden", "dry", "self", "double", "single",
    "thick", "thin", "low", "high", "strong", "sharp", "mild", "sweet", "hard", "powder", "paste",
];

impl Names {
    /// The names of a component's lines; `with_rows` adds what the pantry calls them.
    pub(super) fn of(component: &Component, kitchen: &Kitchen, with_rows: bool) -> Self {
        let names = |ingredient: &crate::recipe::Ingredient| {
            let own = words(&ingredient.line.name);
            let row = if with_rows { kitchen.ingredient(&ingredient.line) } else { None };
            let others = row.into_iter().flat_map(|row| row.names.iter().map(|name| words(name)));
            std::iter::once(own).chain(others).filter(|name| !name.is_empty()).collect()
        };
        Self { lines: component.ingredients.iter().map(names).collect() }
    }

    /// For each word of a text, the lines that it names: those with the longest part of a name over that word.
    pub(super) fn in_text(&self, said: &[Word]) -> Vec<Vec<usize>> {
        let mut best: Vec<(usize, Vec<usize>)> = vec![(0, Vec::new()); said.len()];
        for start in 0..said.len() {
            for (line, names) in self.lines.iter().enumerate() {
                let length = names.iter().map(|name| longest_part(name, &said[start..])).max().unwrap_or_default();
                for covered in &mut best[start..start + length] {
                    if length > covered.0 {
                        *covered = (length, vec![line]);
                    } else if length == covered.0 && !covered.1.contains(&line) {
                        covered.1.push(line);
                    }
                }
            }
        }
        best.into_iter().map(|(_, lines)| lines).collect()
    }
}

/// How many words a text starts with that stand together in a name; a mere adjective alone is none.
fn longest_part(name: &[String], said: &[Word]) -> usize {
    let mut longest = 0;
    for from in 0..name.len() {
        let same = name[from..].iter().zip(said).take_while(|(part, word)| **part == word.stem).count();
        // `the white` is that of an egg; beside other things it is a colour.
        let of_egg = name.first().is_some_and(|first| first == "egg");
        let alone = same == 1 && name.len() > 1 && !of_egg;
        if alone && (is_droppable(&name[from]) || NOT_ALONE.contains(&name[from].as_str())) {
            continue;
        }
        longest = longest.max(same);
    }
    longest
}

#[cfg(test)]
mod tests {
    use super::super::words::words as said;
    use super::*;

    fn mentioned(names: &[&str], text: &str) -> Vec<usize> {
        let lines = names.iter().map(|name| vec![words(name)]).collect();
        let mut found: Vec<usize> = Names { lines }.in_text(&said(text)).concat();
        found.sort_unstable();
        found.dedup();
        found
    }

    #[test]
    fn the_longest_name_wins() {
        let case = |names: &[&str], text: &str, wanted: &[usize]| assert_eq!(mentioned(names, text), wanted, "{text}");
        case(&["cold butter", "plain flour"], "Rub the butter into the flour.", &[0, 1]);
        case(&["caster sugar", "brown sugar"], "Add the caster sugar.", &[0]);
        case(&["caster sugar", "brown sugar"], "Add both sugars.", &[0, 1]);
        case(&["lemon juice", "lemon zest"], "Rub in the lemon zest.", &[1]);
        case(&["egg yolks", "egg whites"], "Whip the whites, then the eggs.", &[0, 1]);
        case(&["egg whites"], "Whip the whites.", &[0]);
        case(&["ground white pepper"], "White and ground.", &[]);
        case(&["crème fraîche"], "Fold in the creme fraiche", &[0]);
        case(&["vanilla extract"], "Stir in the vanilla.", &[0]);
    }
}
