//! Tables: column widths shared by the whole card, rows that are never split.

use std::collections::BTreeMap;

use super::blocks::{Block, Content, Table};
use super::color::Rgb;
use super::linebreak::Justification;
use super::lines::TextLine;
use super::strips::{Look, Strip, StripStyle, set_gap};
use super::text::Paragraph;

/// Space between columns, in ems.
const BETWEEN: f32 = 0.85;

/// Size of column headings beside running text.
const HEAD_SIZE: f32 = 0.84;

/// What the columns of a card's tables need; tables with the same number of columns share their widths, so that
/// the eye finds the weights of every component in one place.
#[derive(Clone, Debug, Default)]
pub(crate) struct Columns {
    needs: BTreeMap<usize, Vec<Need>>,
}

/// Widths in thousandths of an em.
#[derive(Clone, Copy, Debug, Default)]
struct Need {
    natural: f32,
    least: f32,
}

impl Columns {
    /// Measures all tables of a card.
    pub(crate) fn of(content: &Content) -> Self {
        let mut columns = Self::default();
        columns.measure(&content.opening);
        content.sections.iter().for_each(|section| columns.measure(&section.blocks));
        columns
    }

    fn measure(&mut self, blocks: &[Block]) {
        for block in blocks {
            match block {
                Block::Table(table) => self.measure_table(table),
                Block::List(entries) => entries.iter().for_each(|entry| self.measure(&entry.blocks)),
                Block::Caution(blocks) => self.measure(blocks),
                Block::Text { .. } | Block::Bar(_) | Block::Rule => {}
            }
        }
    }

    fn measure_table(&mut self, table: &Table) {
        let needs = self.needs.entry(table.right_aligned.len()).or_default();
        needs.resize(table.right_aligned.len(), Need::default());
        for (index, row) in table.rows.iter().enumerate() {
            let share = if index == 0 { HEAD_SIZE } else { 1.0 };
            for ((need, cell), &right) in needs.iter_mut().zip(row).zip(&table.right_aligned) {
                let natural = cell.natural_width() * share;
                need.natural = need.natural.max(natural);
                // Amounts stay on one line.
                need.least = need.least.max(if right { natural } else { cell.widest_word() * share });
            }
        }
    }

    /// Widths in points of the columns of a table `width` points wide, spaces between them left out.
    ///
    /// The last column takes what is left. Where the natural widths do not fit, the widest columns give way first.
    fn widths(&self, count: usize, width: f32, size: f32) -> Vec<f32> {
        let em = size / 1000.0;
        let Some(needs) = self.needs.get(&count) else { return Vec::new() };
        let room = (width - BETWEEN * size * (count.saturating_sub(1)) as f32).max(width * 0.5);
        let mut widths: Vec<f32> = needs.iter().map(|need| need.natural * em).collect();
        if widths.iter().sum::<f32>() > room {
            let least: Vec<f32> = needs.iter().map(|need| need.least * em).collect();
            widths = squeeze(&widths, &least, room);
        }
        if let Some((last, others)) = widths.split_last_mut() {
            *last = room - others.iter().sum::<f32>();
        }
        widths
    }
}

/// Natural widths brought down to the room: all columns are cut to one width, but none below its least unless the
/// least widths alone are too wide.
fn squeeze(natural: &[f32], least: &[f32], room: f32) -> Vec<f32> {
    let cut = |cap: f32, least: &[f32]| -> Vec<f32> {
        natural.iter().zip(least).map(|(&width, &least)| width.min(cap).max(least)).collect()
    };
    let nothing = vec![0.0; natural.len()];
    let least = if least.iter().sum::<f32>() <= room { least } else { &nothing };
    let (mut low, mut high) = (0.0, room);
    for _ in 0..24 {
        let middle = (low + high) / 2.0;
        if cut(middle, least).iter().sum::<f32>() <= room { low = middle } else { high = middle }
    }
    cut(low, least)
}

impl StripStyle<'_> {
    /// Strips of a table: one a row, under a row of quiet column headings with a hairline.
    pub(crate) fn table(&mut self, table: &Table, x: f32, width: f32) -> Vec<Strip> {
        let widths = self.columns.widths(table.right_aligned.len(), width, self.size);
        let body = Look { fill: Justification::Ragged, ..self.body() };
        let head = Look {
            size: self.size * HEAD_SIZE,
            leading: self.size * 1.15,
            color: Rgb::QUIET,
            fill: Justification::Ragged,
        };
        let mut strips = Vec::with_capacity(table.rows.len() + 1);
        let count = table.rows.len();
        for (index, row) in table.rows.iter().enumerate() {
            let look = if index == 0 { head } else { body };
            let mut rows = self.row(row, table, &widths, look, x);
            if index == 0
                && let Some(last) = rows.last_mut()
            {
                let line = self.hairline(x, last.height + self.size * 0.08, width);
                last.items.push(line);
                last.height += self.size * 0.2;
            }
            set_gap(&mut rows, if index == 0 { self.size * 0.3 } else { self.size * 0.12 });
            if let Some(last) = rows.last_mut() {
                // Headings stay with the first two rows, and the last row is not left alone.
                last.keep = index + 1 < count && (index <= 1 || index + 2 == count);
            }
            strips.append(&mut rows);
        }
        let height: f32 = strips.iter().map(|strip| strip.gap + strip.height).sum();
        if self.whole_tables && height < self.tallest / 2.0 {
            let others = strips.len().saturating_sub(1);
            strips.iter_mut().take(others).for_each(|strip| strip.keep = true);
        }
        strips
    }

    /// The strip of a row, or a strip a line where the row alone is higher than a column.
    fn row(&self, row: &[Paragraph], table: &Table, widths: &[f32], look: Look, x: f32) -> Vec<Strip> {
        let cells: Vec<Vec<TextLine>> =
            row.iter().zip(widths).map(|(cell, &width)| self.lines(cell, look, width)).collect();
        let count = cells.iter().map(Vec::len).max().unwrap_or(0);
        let whole = count as f32 * look.leading <= self.tallest;
        let height = if whole { count as f32 * look.leading } else { look.leading };
        let mut strips = vec![Strip { height, ..Strip::default() }; if whole { count.min(1) } else { count }];
        let mut left = x;
        // Cell by cell, not line by line: this is the order in which a row is read.
        for (column, (set, &width)) in cells.iter().zip(widths).enumerate() {
            for (index, line) in set.iter().enumerate() {
                let right = table.right_aligned.get(column).copied().unwrap_or(false);
                let indent = if right { width - line.width * look.size / 1000.0 } else { 0.0 };
                let (strip, y) = if whole { (0, index as f32 * look.leading) } else { (index, 0.0) };
                strips[strip].items.extend(self.line(line, look, left + indent.max(0.0), y));
            }
            left += width + BETWEEN * self.size;
        }
        strips
    }
}
