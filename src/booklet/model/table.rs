//! Tables and what their cells hold.

use super::Text;
use crate::colour::Colour;
use crate::drawn::{Align, Shape};
use serde::Serialize;

/// A table.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What it is, for those who cannot see it; not printed.
    pub summary: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Cells of the heading row.
    pub head: Vec<Text>,
    /// Rows.
    pub rows: Vec<TableRow>,
    /// Column whose cells are headings of their rows; where these are few, see [`Table::told_header`].
    pub row_header: Option<usize>,
}

impl Table {
    /// The column whose cells are told as headings of their rows. In a table of few cells there is none: where
    /// headings outnumber what they head, a reader hears more of them than of the table.
    #[must_use]
    pub fn told_header(&self) -> Option<usize> {
        let (rows, columns) = (self.rows.len(), self.columns.len());
        self.row_header.filter(|_| columns + rows <= rows * columns.saturating_sub(1))
    }
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// How its cells are aligned.
    pub align: Align,
    /// How its width is found.
    pub width: ColumnWidth,
}

/// How a column's width is found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ColumnWidth {
    /// As wide as its widest unbroken cell.
    Fit,
    /// The same, but with room for so many swatches beside one another: tables that are alike have like columns.
    Swatches(usize),
    /// As wide as its widest unbroken cell; but in a table too wide for its page its cells go under those that head their rows.
    Fold,
    /// A share of what is left, broken over lines as needed.
    Share(f64),
}

/// A row of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct TableRow {
    /// Its cells, one a column.
    pub cells: Vec<Cell>,
    /// How it is set.
    pub kind: RowKind,
}

/// How a table row is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum RowKind {
    /// As usual.
    Plain,
    /// A sum: strong, with a rule above.
    Total,
    /// A heading of a group of rows, in its first cell, over the whole width.
    Group,
}

/// What a table cell holds.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Text.
    Text(Text),
    /// One bead with its letter, or with each letter that stands for it.
    Swatches(Vec<Swatch>),
    /// A box to tick.
    Tick(Tick),
    /// Text in parts, some with a box to tick before them.
    Parts(Vec<CellPart>),
    /// Text that runs over this column and all that follow, whose cells are empty.
    Across(Text),
    /// Nothing.
    Empty,
}

/// A part of a cell's text.
#[derive(Clone, Debug, PartialEq)]
pub struct CellPart {
    /// The box to tick before it.
    pub tick: Option<Tick>,
    /// Its text, not broken over lines.
    pub text: Text,
}

/// A bead shown by itself.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Swatch {
    /// Its letter; `None` for a bare swatch.
    pub letter: Option<char>,
    /// Its colour.
    pub colour: Colour,
    /// Its shape.
    pub shape: Shape,
    /// Its pattern in grey, an index from 0; `None` for none.
    pub pattern: Option<u8>,
    /// What to say of it to those who cannot see it.
    pub alt: String,
}

/// A box to tick, on paper and on a tablet.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Tick {
    /// Name of the form field, unique in the file (`row-5`).
    pub name: String,
    /// What a tablet says of it.
    pub tooltip: String,
}
