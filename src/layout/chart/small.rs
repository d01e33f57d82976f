//! Charts without numbers: small ones of colourways, letters only where they can be read, several side by side; and the
//! picture of a whole earring.

use super::extent::of_beads;
use super::part::View;
use crate::booklet::{Chart, ChartBead};
use crate::drawn::Align;
use crate::layout::blocks::Slot;
use crate::layout::fragment::{Fragment, Slab};
use crate::layout::setter::Setter;
use crate::layout::tree::Tree;
use crate::layout::{NodeId, Role};
use crate::units::{Mm, Point};

/// Between small charts side by side; grows with the type, as do those below.
const APART: Mm = Mm(9.0);
/// Above and below a row of them.
const SPACE: Mm = Mm(5.0);
/// Between a small chart, its caption and its legend.
const OVER_CAPTION: Mm = Mm(2.0);
/// A picture is set into this much height at least, however little there is.
const LEAST_PICTURE: Mm = Mm(30.0);
/// Least width of a small chart with its legend, in ems: usual print, large print, screens.
const LEAST_EMS: [f64; 3] = [15.0, 9.0, 12.0];

impl Setter<'_> {
    /// Sets small charts side by side, as many as fit, in even rows.
    pub fn small_charts(&mut self, charts: &[&Chart], slot: Slot) -> Vec<Slab> {
        let gap = self.sheet.grown(APART);
        let [usual, large, screen] = LEAST_EMS;
        let ems = match (self.booklet.setting.large_print, self.booklet.setting.tablet) {
            (true, _) => large,
            (false, true) => screen,
            (false, false) => usual,
        };
        let least = self.sheet.small.size.mm() * ems;
        let widest = charts
            .iter()
            .map(|c| {
                let reach = of_beads(c.beads.iter());
                reach.width() * (c.max_height.unwrap_or(slot.room).min(slot.room) / reach.height())
            })
            .fold(least, Mm::max)
            .min(slot.width);
        let fits = (((slot.width + gap) / (widest + gap)).floor() as usize).clamp(1, charts.len().max(1));
        let rows = charts.len().div_ceil(fits).max(1);
        let columns = charts.len().div_ceil(rows).max(1);
        let column = if columns == 1 { slot.width } else { (slot.width + gap) / columns as f64 - gap };
        let mut slabs = Vec::new();
        for row in charts.chunks(columns) {
            let mut piece = Fragment::default();
            for (i, chart) in row.iter().enumerate() {
                let set = self.small_chart(chart, column, slot);
                piece.height = piece.height.max(set.height);
                piece.absorb(set, (column + gap) * i as f64, Mm::ZERO);
            }
            slabs.push(Slab::spaced(piece, self.sheet.grown(SPACE)));
        }
        slabs
    }

    /// A picture of the earring in the middle of its column, with its caption, as large as the room.
    pub(super) fn bare_chart(&mut self, chart: &Chart, slot: Slot) -> Fragment {
        let caption = self.tried(|on| on.small_caption(chart, slot.width, Tree::ROOT)).height;
        let room = (slot.room - caption).max(LEAST_PICTURE);
        let reach = of_beads(chart.beads.iter());
        let wide = slot.width.min(reach.width() * (room / reach.height()));
        let aside = (slot.width - wide) / 2.0;
        let node = self.tree.add(slot.parent, Role::Figure { alt: chart.alt.clone() });
        let drawn = self.small_beads(chart, Slot { width: wide, room, parent: node });
        let mut piece = Fragment { height: drawn.height, ..Fragment::default() };
        piece.absorb(drawn, aside, Mm::ZERO);
        let caption = self.small_caption(chart, slot.width, node);
        piece.put_below(caption, Mm::ZERO);
        piece
    }

    fn small_chart(&mut self, chart: &Chart, width: Mm, slot: Slot) -> Fragment {
        let node = self.tree.add(slot.parent, Role::Figure { alt: chart.alt.clone() });
        let mut piece = self.small_beads(chart, Slot { width, parent: node, ..slot });
        let caption = self.small_caption(chart, width, node);
        piece.put_below(caption, Mm::ZERO);
        if !chart.legend.is_empty() {
            let legend = self.legend(&chart.legend, width, slot.parent);
            piece.put_below(legend, self.sheet.grown(OVER_CAPTION));
        }
        piece
    }

    /// The beads of a chart as large as a place allows.
    fn small_beads(&mut self, chart: &Chart, slot: Slot) -> Fragment {
        let reach = of_beads(chart.beads.iter());
        let room = chart.max_height.unwrap_or(slot.room).min(slot.room);
        let scale = (slot.width / reach.width()).min(room / reach.height());
        let lettering = self.lettering(chart);
        let letter = Some(self.letter(scale, &lettering));
        let letter = letter.filter(|s| !chart.bare && *s >= self.sheet.least_letter);
        let view = View {
            window: reach,
            shown: reach,
            scale,
            at: Point::default(),
            gap: Mm::ZERO,
            letter,
            clear: Mm::ZERO,
            node: slot.parent,
        };
        let shown: Vec<(usize, &ChartBead)> = chart.beads.iter().enumerate().collect();
        let mut piece = Fragment { height: reach.height() * scale, ..Fragment::default() };
        self.chart_beads(&shown, &view, &mut vec![false; chart.beads.len()], &mut piece);
        piece
    }

    /// The caption of a chart with the white over it; nothing where it has none.
    fn small_caption(&mut self, chart: &Chart, width: Mm, figure: NodeId) -> Fragment {
        let mut piece = Fragment::default();
        if chart.caption.0.is_empty() {
            return piece;
        }
        let caption = self.tree.add(figure, Role::Caption);
        let (style, how) = (self.sheet.small, self.plain());
        let words = self.block(&chart.caption, &style, width, how, Align::Start, caption);
        let gap = self.sheet.grown(OVER_CAPTION);
        piece.height = gap + words.height;
        piece.absorb(words, Mm::ZERO, gap);
        piece
    }
}
