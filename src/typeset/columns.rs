//! How wide the columns of tables are, which the whole card shares.

use std::collections::BTreeMap;

use super::blocks::{Block, Content, Table};

/// Space between columns, in ems.
pub(crate) const BETWEEN: f32 = 0.85;

/// Size of column headings beside running text.
pub(crate) const HEAD_SIZE: f32 = 0.84;

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
    pub(crate) fn widths(&self, count: usize, width: f32, size: f32) -> Vec<f32> {
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
