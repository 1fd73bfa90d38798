use super::model::Line;

/// The names of a component's lines, each as its words.
pub(super) fn names(lines: &[Line]) -> Vec<Vec<String>> {
    lines.iter().map(|line| words(&line.name)).collect()
}

/// The lines of a component that a step's text names, by index into their names.
///
/// A line is named by its whole name, or by its last word where no other line of the component shares that word
/// (`the sugar` for caster sugar), in singular or plural.
pub(super) fn mentions(text: &str, names: &[Vec<String>]) -> Vec<usize> {
    let said = words(text);
    (0..names.len()).filter(|at| is_named(&said, names, *at)).collect()
}

fn is_named(said: &[String], named: &[Vec<String>], at: usize) -> bool {
    let name = &named[at];
    if name.is_empty() {
        return false;
    }
    let contains = |part: &[String]| said.windows(part.len()).any(|window| window == part);
    if contains(name) {
        return true;
    }
    // Adjectives in front may be left out, as long as what remains names no other line.
    (1..name.len()).any(|from| {
        let part = &name[from..];
        let ends_so = |other: &Vec<String>| other.len() >= part.len() && other[other.len() - part.len()..] == *part;
        let shared = named.iter().enumerate().any(|(other, words)| other != at && ends_so(words));
        contains(part) && !shared
    })
}

/// Lower-case words in the singular.
fn words(text: &str) -> Vec<String> {
    text.split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(|word| {
            let word = word.to_lowercase();
            match word.strip_suffix("es").filter(|stem| stem.ends_with(['o', 'h', 'x'])) {
                Some(stem) => stem.to_string(),
                None if word.len() > 3 && !word.ends_with("ss") => word.trim_end_matches('s').to_string(),
                None => word,
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(names: &[&str]) -> Vec<Line> {
        names
            .iter()
            .map(|name| Line {
                name: (*name).into(),
                prep: None,
                note: None,
                optional: false,
                ingredient: None,
                link: None,
                batches: Vec::new(),
                weight: None,
                measure: None,
                milligrams: 0,
                error_percent: None,
                source: None,
                weigh: false,
            })
            .collect()
    }

    #[test]
    fn a_step_names_its_lines() {
        let case = |text: &str, names: &[&str], wanted: &[usize]| {
            assert_eq!(mentions(text, &super::names(&lines(names))), wanted)
        };
        case("Rub the butter into the flour.", &["cold butter", "plain flour"], &[0, 1]);
        case("Add the flour.", &["plain flour", "buckwheat flour"], &[]);
        case("Add the plain flour.", &["plain flour", "buckwheat flour"], &[0]);
        case("Beat in the eggs.", &["egg", "egg yolk"], &[0]);
        case("Stir in the potatoes.", &["potato"], &[0]);
    }
}
