//! Tables for a terminal: columns aligned by what a terminal shows, whatever the script.

use crate::diagnostic::harmless;
use unicode_width::UnicodeWidthStr;

/// Which edge of a column is straight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Align {
    /// Words.
    Left,
    /// Numbers.
    Right,
}

/// A table under a heading of its own. Columns without any text in a row are left out.
#[derive(Clone, Debug)]
pub(super) struct Table {
    columns: Vec<(String, Align)>,
    rows: Vec<Vec<String>>,
}

/// Blanks between two columns.
const GAP: &str = "  ";

impl Table {
    /// An empty table with these columns.
    pub(super) fn new(columns: &[(&str, Align)]) -> Table {
        Table {
            columns: columns.iter().map(|(name, align)| ((*name).to_owned(), *align)).collect(),
            rows: Vec::new(),
        }
    }

    /// Adds a row; cells that are missing at its end are empty.
    pub(super) fn row(&mut self, cells: Vec<String>) {
        self.rows.push(cells.iter().map(|cell| harmless(cell).into_owned()).collect());
    }

    /// Whether it has no rows.
    pub(super) fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// The table as lines, each ended.
    pub(super) fn lines(&self) -> String {
        let cell = |row: &'_ [String], column: usize| row.get(column).cloned().unwrap_or_default();
        let shown: Vec<usize> = (0..self.columns.len())
            .filter(|column| self.rows.iter().any(|row| !cell(row, *column).is_empty()))
            .collect();
        let names: Vec<String> = self.columns.iter().map(|(name, _)| name.clone()).collect();
        let all = || std::iter::once(&names).chain(&self.rows);
        let widths: Vec<usize> = shown
            .iter()
            .map(|column| all().map(|row| cell(row, *column).width()).max().unwrap_or(0))
            .collect();
        let mut text = String::new();
        for row in all() {
            let cells: Vec<String> = shown
                .iter()
                .zip(&widths)
                .map(|(column, width)| pad(&cell(row, *column), *width, self.columns[*column].1))
                .collect();
            text.push_str(cells.join(GAP).trim_end());
            text.push('\n');
        }
        text
    }
}

fn pad(text: &str, width: usize, align: Align) -> String {
    let blanks = " ".repeat(width.saturating_sub(text.width()));
    match align {
        Align::Left => format!("{text}{blanks}"),
        Align::Right => format!("{blanks}{text}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_are_straight_in_every_script_and_empty_ones_are_left_out() {
        let mut table = Table::new(&[("bead", Align::Left), ("code", Align::Left), ("beads", Align::Right)]);
        table.row(vec!["Café crème".to_owned(), String::new(), "7".to_owned()]);
        table.row(vec!["日本".to_owned(), String::new(), "1200".to_owned()]);
        table.row(vec!["Ink".to_owned()]);
        assert_eq!(table.lines(), "bead        beads\nCafé crème      7\n日本         1200\nInk\n");
    }
}
