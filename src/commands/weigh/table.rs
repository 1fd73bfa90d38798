use super::answer::Answer;
use crate::source::shown;

const HEADS: [&str; 7] = ["line", "weight", "level measure", "count", "error", "range", "source"];

/// Answers in aligned columns, problems below their line; a column that nothing stands in is left out.
pub(super) fn table(answers: &[Answer]) -> String {
    let rows: Vec<[String; 7]> = answers.iter().map(cells).collect();
    let width = |column: usize| {
        let widest = rows.iter().map(|row| row[column].chars().count()).max().unwrap_or_default();
        if widest == 0 { 0 } else { widest.max(HEADS[column].len()) }
    };
    let widths: Vec<usize> = (0..HEADS.len()).map(width).collect();
    let mut text = padded(&HEADS.map(String::from), &widths);
    for (row, answer) in rows.iter().zip(answers) {
        text.push_str(&padded(row, &widths));
        if let Some(problem) = &answer.problem {
            text.push_str(&format!("  {problem}\n"));
        }
        for other in &answer.instead {
            text.push_str(&format!("  or {other}\n"));
        }
    }
    text
}

fn cells(answer: &Answer) -> [String; 7] {
    let level = answer.level.clone().unwrap_or_default();
    let level = if answer.weigh { format!("{level} (better weighed)") } else { level };
    [
        shown(answer.line.trim()).into_owned(),
        answer.weight_text.clone(),
        level,
        answer.count.clone().unwrap_or_default(),
        answer.error_percent.map(|percent| format!("{percent:+.1} %")).unwrap_or_default(),
        answer.range_text.clone(),
        answer.source.clone().unwrap_or_default(),
    ]
}

fn padded(row: &[String; 7], widths: &[usize]) -> String {
    let cells = row.iter().zip(widths).filter(|(_, width)| **width > 0);
    let line: Vec<String> = cells.map(|(cell, width)| format!("{cell:<width$}", width = *width)).collect();
    format!("{}\n", line.join("  ").trim_end())
}
