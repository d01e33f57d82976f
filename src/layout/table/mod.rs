//! Tables: columns find their widths, rows stay whole, the heading repeats over pages; where no widths
//! will do, each row becomes a card.

mod cards;
mod fold;
mod parts;
mod rows;
mod widths;

use super::NodeId;
use super::fragment::Slab;
use super::setter::Setter;
use super::sheet::LEAST_TICK;
use crate::booklet::Table;
use crate::units::Mm;

impl Setter<'_> {
    /// Sets a table into a column.
    pub fn table(&mut self, table: &Table, width: Mm, parent: NodeId) -> Vec<Slab> {
        let widths = self.column_widths(table, width);
        let folded = fold::folded(table);
        let narrow = |setter: &mut Self, widths: &[Mm]| folded.is_some() && setter.is_narrow(table, widths);
        if let Some(widths) = widths.filter(|widths| !narrow(self, widths)) {
            return self.table_rows(table, &widths, parent);
        }
        match folded.as_ref().and_then(|folded| self.column_widths(folded, width).map(|w| (folded, w))) {
            Some((folded, widths)) => self.table_rows(folded, &widths, parent),
            None => self.cards(table, width, parent),
        }
    }

    /// Space between columns; half of it belongs to each.
    fn column_gap(&self) -> Mm {
        let setting = &self.booklet.setting;
        let ems = match (setting.large_print, setting.bench) {
            (true, _) => 0.9,
            (false, true) => 1.0,
            (false, false) => 1.3,
        };
        self.sheet.cell.size.mm() * ems
    }

    /// Side of a swatch in a table.
    fn cell_swatch(&self) -> Mm {
        self.sheet.cell.size.mm() * 1.65
    }

    /// Side of a box to tick.
    pub(super) fn tick_side(&self) -> Mm {
        (self.sheet.cell.size.mm() * 1.1).max(LEAST_TICK)
    }
}
