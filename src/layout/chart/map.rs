//! The little map on each page of a split chart: which part this is.

use super::extent::Extent;
use crate::booklet::Chart;
use crate::drawn::{Align, Face};
use crate::layout::NodeId;
use crate::layout::fragment::{Fragment, filled, stroked};
use crate::layout::measures::FINE_RULE;
use crate::layout::setter::{Ink, Setter, baseline};
use crate::units::{Mm, Point};

/// Height of the drawn map.
const MAP: Mm = Mm(17.0);
/// White below it.
const UNDER_MAP: Mm = Mm(5.0);
/// Most that a strand is wide on it, in millimetres of the earring.
const STRAND: Mm = Mm(1.0);
/// Line round the part that is shown.
const PART_LINE: Mm = Mm(0.6);

impl Setter<'_> {
    /// Height of map and the space below it.
    pub(super) fn map_height(&self) -> Mm {
        MAP + UNDER_MAP
    }

    /// `Part 2 of 4` at the left, the map at the right.
    pub(super) fn map(
        &mut self,
        chart: &Chart,
        (whole, window): (&Extent, &Extent),
        part: &str,
        width: Mm,
        node: NodeId,
    ) -> Fragment {
        let mut piece = Fragment { height: self.map_height(), ..Fragment::default() };
        let style = self.sheet.small;
        let at = Point { x: Mm::ZERO, y: baseline(&style) };
        let colour = self.sheet.ink;
        piece.items =
            self.label(Ink { face: Face::Bold, size: style.size, colour }, part, at, Align::Start, node);
        let scale = (MAP / whole.height()).min(width * 0.5 / whole.width());
        let left = width - whole.width() * scale;
        let x = |mm: Mm| left + (mm - whole.left) * scale;
        let y = |mm: Mm| (mm - whole.top) * scale;
        for row in &chart.rows {
            let (w, h) = ((row.right - row.left) * scale, (row.bottom - row.top) * scale);
            piece.rule(filled(x(row.left), y(row.top), w, h, self.sheet.hairline));
        }
        for strand in &chart.strands {
            let wide = STRAND.min(whole.width() / (chart.strands.len() as f64 * 1.3)) * scale;
            let h = (strand.bottom - strand.top) * scale;
            piece.rule(filled(x(strand.x) - wide / 2.0, y(strand.top), wide, h, self.sheet.hairline));
        }
        piece.rule(stroked(
            x(whole.left),
            y(whole.top),
            whole.width() * scale,
            whole.height() * scale,
            self.sheet.hairline,
            FINE_RULE,
        ));
        let (w, h) = (window.width() * scale, window.height() * scale);
        piece.rule(stroked(x(window.left), y(window.top), w, h, self.sheet.accent_text, PART_LINE));
        piece
    }
}
