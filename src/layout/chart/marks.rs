//! Marks on a chart's strands: every fifth bead.

use super::part::View;
use super::strands::{pitch, strands_shown};
use crate::booklet::{Chart, ChartStrand};
use crate::colour::Colour;
use crate::drawn::{Align, Face};
use crate::layout::faces::cap_height;
use crate::layout::fragment::{Fragment, line};
use crate::layout::setter::{Ink, Setter};
use crate::layout::{Item, Layer};
use crate::units::{Mm, Point, Pt};

/// Thickness of the bar under every fifth bead of a strand, as a share of the size of letters. It takes no more than this
/// share of the white between letters and the edges of their beads, and with the white under it no more than that.
const BAR: f64 = 0.1;
const BAR_SHARE: f64 = 0.9;
const GROUND_SHARE: f64 = 1.7;
/// Half the length of the bar: as a share of the bead's width, and at most of the distance of strands.
const BAR_LENGTH: f64 = 0.46;
const MOST_LENGTH: f64 = 0.38;
/// Size of the counts beside the strands, as a share of the other numbers'.
const COUNT_SIZE: f64 = 0.86;
/// White between a strand and its count, and width of three digits, in sizes of the count.
const BESIDE: f64 = 0.35;
const COUNT_WIDTH: f64 = 1.6;

impl Setter<'_> {
    fn count_size(&self) -> Pt {
        (self.sheet.chart_label * COUNT_SIZE).max(self.sheet.least)
    }

    /// What counts of three digits take beside the strands.
    pub(super) fn counts_beside(&self) -> Mm {
        self.count_size().mm() * (BESIDE + COUNT_WIDTH)
    }

    /// A short bar under every fifth bead of a strand, and counts at both sides.
    pub(super) fn fifths(&mut self, chart: &Chart, view: &View, piece: &mut Fragment) {
        let strands = strands_shown(chart, view);
        let pitch = pitch(&strands);
        let size = self.count_size();
        let pen = (view.letter.unwrap_or(size).mm() * BAR).min(view.clear * BAR_SHARE);
        let ground = (pen * 2.0).min(view.clear * GROUND_SHARE);
        let seen = |y: Mm| y >= view.shown.top && y <= view.shown.bottom;
        for strand in &strands {
            let bar = (strand.wide * BAR_LENGTH).min(pitch * MOST_LENGTH) * view.scale;
            for &y in strand.fifths.iter().filter(|y| seen(**y)) {
                let (x, y) = (view.x(strand.x), view.hung(y));
                let (from, to) = (Point { x: x - bar, y }, Point { x: x + bar, y });
                piece.path(view.node, Some(Layer::Grid), line(from, to, Colour::WHITE, ground));
                piece.path(view.node, Some(Layer::Grid), line(from, to, self.sheet.ink, pen));
            }
        }
        let most = strands.iter().map(|s| s.fifths.len()).max().unwrap_or(0);
        for k in 0..most {
            let mut having = strands.iter().filter(|s| s.fifths.get(k).is_some_and(|y| seen(*y)));
            let first = having.next().copied();
            let last = having.next_back().copied().or(first);
            for (strand, align) in [(first, Align::End), (last, Align::Start)] {
                let Some(strand) = strand else { continue };
                let Some(&y) = strand.fifths.get(k) else { continue };
                let away = pitch * 0.5;
                let (x, gap) = (strand.x, size.mm() * BESIDE);
                let x = if align == Align::End { view.x(x - away) - gap } else { view.x(x + away) + gap };
                let y = view.hung(y) + cap_height(Face::Regular, size) / 2.0;
                let text = ((k + 1) * 5).to_string();
                let wide = self.shaper.width(Face::Regular, &text, size);
                let left = if align == Align::End { x - wide } else { x };
                let reach = Reach { left, right: left + wide, top: y - cap_height(Face::Regular, size) };
                if reach.meets_strand(&strands, view) {
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
}

/// Where a count would stand.
struct Reach {
    left: Mm,
    right: Mm,
    top: Mm,
}

impl Reach {
    /// Whether it would meet a bead of a neighbouring strand, which hangs from above.
    fn meets_strand(&self, strands: &[&ChartStrand], view: &View) -> bool {
        let half = pitch(strands) * view.scale * 0.5;
        strands.iter().any(|s| {
            let (x, end) = (view.x(s.x), view.hung(s.bottom.min(view.shown.bottom)));
            x + half > self.left && x - half < self.right && self.top < end
        })
    }
}
