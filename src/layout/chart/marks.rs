//! Marks on a chart's strands: every fifth bead.

use super::labels::{pitch, strands_shown};
use super::part::View;
use crate::booklet::{Chart, ChartStrand};
use crate::colour::Colour;
use crate::drawn::{Align, Face};
use crate::layout::faces::cap_height;
use crate::layout::fragment::{Fragment, line};
use crate::layout::setter::{Ink, Setter};
use crate::layout::sheet::SMALLEST_LETTER;
use crate::layout::{Item, Layer};
use crate::units::{Mm, Point, Pt};

/// The bar under every fifth bead of a strand, and the white under it.
const FIFTH_BAR: Mm = Mm(0.35);
const FIFTH_GROUND: Mm = Mm(0.75);

impl Setter<'_> {
    /// A short bar under every fifth bead of a strand, and counts at both sides.
    pub(super) fn fifths(&mut self, chart: &Chart, view: &View, piece: &mut Fragment) {
        let strands = strands_shown(chart, view);
        let pitch = pitch(&strands);
        let bar = pitch * view.scale * 0.36;
        let seen = |y: Mm| y >= view.shown.top && y <= view.shown.bottom;
        for strand in &strands {
            for &y in strand.fifths.iter().filter(|y| seen(**y)) {
                let (x, y) = (view.x(strand.x), view.y(y));
                let (from, to) = (Point { x: x - bar, y }, Point { x: x + bar, y });
                piece.path(view.node, Some(Layer::Grid), line(from, to, Colour::WHITE, FIFTH_GROUND));
                piece.path(view.node, Some(Layer::Grid), line(from, to, self.sheet.ink, FIFTH_BAR));
            }
        }
        let size = Pt((self.sheet.chart_label.0 * 0.86).max(SMALLEST_LETTER.0));
        let most = strands.iter().map(|s| s.fifths.len()).max().unwrap_or(0);
        for k in 0..most {
            let mut having = strands.iter().filter(|s| s.fifths.get(k).is_some_and(|y| seen(*y)));
            let first = having.next().copied();
            let last = having.next_back().copied().or(first);
            for (strand, align) in [(first, Align::End), (last, Align::Start)] {
                let Some(strand) = strand else { continue };
                let Some(&y) = strand.fifths.get(k) else { continue };
                let away = pitch * 0.5;
                let (x, gap) = (strand.x, size.mm() * 0.35);
                let x = if align == Align::End { view.x(x - away) - gap } else { view.x(x + away) + gap };
                let y = view.y(y) + cap_height(Face::Regular, size) / 2.0;
                let text = ((k + 1) * 5).to_string();
                let wide = self.shaper.width(Face::Regular, &text, size);
                let left = if align == Align::End { x - wide } else { x };
                if self.meets_number(&strands, view, left, left + wide, y) {
                    continue;
                }
                let colour = self.sheet.muted;
                let mut items = self.label(
                    Ink { face: Face::Regular, size, colour },
                    &text,
                    Point { x, y },
                    align,
                    view.node,
                );
                items.iter_mut().for_each(|i: &mut Item| i.layer = Some(Layer::Grid));
                piece.items.extend(items);
            }
        }
    }

    /// Whether a count at this place would meet a bead, a number or a box of a neighbouring strand.
    fn meets_number(&self, strands: &[&ChartStrand], view: &View, left: Mm, right: Mm, y: Mm) -> bool {
        let below = self.sheet.chart_label.mm() * 3.4 + self.tick_side();
        let half = pitch(strands) * view.scale * 0.5;
        strands.iter().any(|s| {
            let x = view.x(s.x);
            let end = view.y(s.bottom.min(view.shown.bottom));
            x + half > left && x - half < right && y.0 < (end + below).0
        })
    }
}
