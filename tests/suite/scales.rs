//! Temperatures of sound recipes written under the other scale with the same number, in text and key together.

use std::collections::BTreeSet;

/// What may stand between two ways of one setting.
const BETWEEN: [&str; 7] = ["", "/", "(", ",", "fan", "or", "with a fan"];

/// A number of degrees in a line.
#[derive(Clone, Debug)]
struct Degrees {
    line: usize,
    /// Where its letter stands.
    letter: usize,
    number: String,
}

/// Every setting in degrees of one letter, written under the other; those that stand beside another scale are left out.
pub(crate) fn slips(lines: &[&'static str], own: char, other: char) -> Vec<String> {
    let mut made = Vec::new();
    for block in blocks(lines) {
        let settings: Vec<Vec<Degrees>> = block.clone().flat_map(|line| settings(lines, line)).collect();
        let mut done: BTreeSet<BTreeSet<String>> = BTreeSet::new();
        for setting in settings.iter().filter(|setting| is_alone(lines, setting, own)) {
            let numbers: BTreeSet<String> = setting.iter().map(|degrees| degrees.number.clone()).collect();
            if !done.insert(numbers.clone()) {
                continue;
            }
            let mut changed: Vec<String> = lines.iter().map(|line| (*line).to_string()).collect();
            let alike = settings.iter().flatten().filter(|degrees| {
                numbers.contains(&degrees.number) && lines[degrees.line][degrees.letter..].starts_with(own)
            });
            for Degrees { line, letter, .. } in alike {
                changed[*line].replace_range(*letter..letter + 1, &other.to_string());
            }
            made.push(changed.join("\n"));
        }
    }
    made
}

/// The lines of each step and of each ingredient.
fn blocks(lines: &[&str]) -> Vec<std::ops::Range<usize>> {
    let starts: Vec<usize> = (0..lines.len()).filter(|at| lines[*at].trim_start().starts_with("- ")).collect();
    let end = |at: usize| starts.get(at + 1).copied().unwrap_or(lines.len());
    starts.iter().enumerate().map(|(at, start)| *start..end(at)).collect()
}

fn settings(lines: &[&str], line: usize) -> Vec<Vec<Degrees>> {
    let text = lines[line];
    let mut settings: Vec<Vec<Degrees>> = Vec::new();
    for (sign, _) in text.match_indices('°') {
        let letter = sign + '°'.len_utf8();
        if !text[letter..].starts_with(['C', 'F']) {
            continue;
        }
        let number = text[..sign].trim_end();
        let from = number.rfind(|c: char| !(c.is_ascii_digit() || "–−.".contains(c)));
        let from = from.map_or(0, |at| at + number[at..].chars().next().map_or(1, char::len_utf8));
        let degrees = Degrees { line, letter, number: number[from..].to_string() };
        let joined = settings.last_mut().filter(|setting| {
            let gap = &text[setting[setting.len() - 1].letter + 1..from];
            gap.split([' ', ')']).all(|word| BETWEEN.contains(&word.trim_matches(['(', ','])))
        });
        match joined {
            Some(setting) => setting.push(degrees),
            None => settings.push(vec![degrees]),
        }
    }
    settings
}

/// Whether a setting is in one scale alone.
fn is_alone(lines: &[&str], setting: &[Degrees], own: char) -> bool {
    let last = &setting[setting.len() - 1];
    let behind = lines[last.line][last.letter + 1..].trim_start_matches([' ', '/', ',', '(']);
    let gas = behind.trim_start_matches("fan").trim_start_matches([' ', '/', ',', '(']).starts_with("gas");
    !gas && setting.iter().all(|degrees| lines[degrees.line][degrees.letter..].starts_with(own))
}
