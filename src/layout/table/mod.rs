//! Tables: columns find their widths, rows stay whole, the heading repeats over pages; where no widths
//! will do, each row becomes a card.

mod cards;
mod fold;
mod parts;
mod rows;
mod widths;

use super::fragment::{Fragment, Slab};
use super::setter::Setter;
use super::sheet::LEAST_TICK;
use super::{NodeId, Role};
use crate::booklet::{Swatch, Table};
use crate::units::Mm;

/// Most swatches side by side in a cell.
const ABREAST: usize = 3;

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

    /// Width of so many swatches side by side; further ones stand below.
    fn swatches_width(&self, swatches: &[Swatch]) -> Mm {
        self.swatches_room(swatches.len())
    }

    /// How wide so many swatches in one cell are.
    fn swatches_room(&self, swatches: usize) -> Mm {
        let abreast = swatches.min(ABREAST);
        self.cell_swatch() * (abreast as f64) + self.swatch_gap() * (abreast.saturating_sub(1) as f64)
    }

    fn swatch_gap(&self) -> Mm {
        self.cell_swatch() * 0.15
    }

    /// The swatches of a cell.
    fn swatches(&mut self, swatches: &[Swatch], cell: NodeId) -> Fragment {
        let (side, gap) = (self.cell_swatch(), self.swatch_gap());
        let mut piece = Fragment::default();
        for (i, swatch) in swatches.iter().enumerate() {
            let figure = self.tree.add(cell, Role::Figure { alt: swatch.alt.clone() });
            let bead = self.swatch(swatch, side, figure);
            let (x, y) = ((side + gap) * (i % ABREAST) as f64, (side + gap) * (i / ABREAST) as f64);
            piece.absorb(bead, x, y);
            piece.height = y + side;
        }
        piece
    }

    /// Side of a box to tick.
    pub(super) fn tick_side(&self) -> Mm {
        (self.sheet.cell.size.mm() * 1.1).max(LEAST_TICK)
    }
}
