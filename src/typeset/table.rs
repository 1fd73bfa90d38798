//! Tables, of rows that are never split.

use super::blocks::Table;
use super::color::Rgb;
use super::columns::{BETWEEN, HEAD_SIZE};
use super::linebreak::Justification;
use super::lines::TextLine;
use super::strips::{Look, Strip, StripStyle, set_gap};
use super::text::Paragraph;

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
