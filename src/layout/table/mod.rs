//! Tables: columns find their widths, rows stay whole, the heading repeats over pages; where no widths
//! will do, each row becomes a card.

mod cards;
mod parts;
mod rows;
mod widths;

use super::NodeId;
use super::fragment::Slab;
use super::setter::Setter;
use crate::booklet::Table;
use crate::units::Mm;

impl Setter<'_> {
    /// Sets a table into a column.
    pub fn table(&mut self, table: &Table, width: Mm, parent: NodeId) -> Vec<Slab> {
        match self.column_widths(table, width) {
            Some(widths) => self.table_rows(table, &widths, parent),
            None => self.cards(table, width, parent),
        }
    }

    /// Space between columns; half of it belongs to each.
    fn column_gap(&self) -> Mm {
        self.sheet.cell.size.mm() * 1.3
    }

    /// Side of a swatch in a table.
    fn cell_swatch(&self) -> Mm {
        self.sheet.cell.size.mm() * 1.65
    }

    /// Side of a box to tick.
    pub(super) fn tick_side(&self) -> Mm {
        self.sheet.cell.size.mm() * 1.1
    }
}
