//! A table too wide for its page gives up columns: their cells go under those that head their rows.

use crate::booklet::{Cell, ColumnWidth, RunStyle, Table, TableRow, Text, TextRun};

/// Between what stood in two columns.
const BETWEEN: &str = " · ";

/// The table without its columns that may fold; `None` when there are none, or no cells to take theirs.
pub(super) fn folded(table: &Table) -> Option<Table> {
    let into = table.row_header?;
    let folds = |i: usize| i != into && table.columns.get(i).is_some_and(|c| c.width == ColumnWidth::Fold);
    if !(0..table.columns.len()).any(folds) {
        return None;
    }
    let kept: Vec<usize> = (0..table.columns.len()).filter(|&i| !folds(i)).collect();
    let gone: Vec<usize> = (0..table.columns.len()).filter(|&i| folds(i)).collect();
    let with = |text: &Text, more: &mut dyn Iterator<Item = &Text>| {
        let mut runs = text.0.clone();
        for text in more.filter(|t| !t.0.is_empty() && !t.words().is_empty()) {
            runs.push(TextRun { text: BETWEEN.to_owned(), style: RunStyle::Plain });
            runs.extend(text.0.iter().cloned());
        }
        Text(runs)
    };
    let text_of = |cell: &'_ Cell| if let Cell::Text(text) = cell { text.clone() } else { Text::default() };
    let row = |row: &TableRow| {
        let more: Vec<Text> = gone.iter().filter_map(|&i| row.cells.get(i)).map(text_of).collect();
        let cell = |&i: &usize| match row.cells.get(i) {
            Some(Cell::Text(text)) if i == into => Cell::Text(with(text, &mut more.iter())),
            Some(cell) => cell.clone(),
            None => Cell::Empty,
        };
        TableRow { cells: kept.iter().map(cell).collect(), kind: row.kind }
    };
    let head = |&i: &usize| {
        let own = table.head.get(i).cloned().unwrap_or_default();
        if i == into { with(&own, &mut gone.iter().filter_map(|&g| table.head.get(g))) } else { own }
    };
    Some(Table {
        summary: table.summary.clone(),
        columns: kept.iter().map(|&i| table.columns[i].clone()).collect(),
        head: kept.iter().map(head).collect(),
        rows: table.rows.iter().map(row).collect(),
        row_header: kept.iter().position(|&i| i == into),
    })
}
