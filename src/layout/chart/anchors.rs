//! Places to anchor on a chart: a frame round two stacks, and outside the body, clear of all letters, its mark.

use super::extent::Extent;
use super::part::View;
use crate::booklet::{Chart, ChartAnchor, ChartRow};
use crate::colour::Colour;
use crate::design::Side;
use crate::drawn::{Align, Face};
use crate::layout::Layer;
use crate::layout::faces::cap_height;
use crate::layout::fragment::{Fragment, line, stroked};
use crate::layout::setter::{Ink, Setter};
use crate::units::{Mm, Point};

/// How far from the body a mark stands where there is no room beyond the row numbers, in ems.
const CLOSE: f64 = 0.5;

/// The frame round two stacks: two lines, how far they lie apart, and the white under both, in millimetres.
const FRAME_LINE: f64 = 0.22;
const LINES_APART: f64 = 0.76;
const FRAME_GROUND: f64 = 1.1;
/// The leader from frame to mark, and the white under it.
const LEADER: Mm = Mm(0.2);
const LEADER_GROUND: Mm = Mm(0.6);

/// Where an anchor's leader runs: from its frame outwards along the edge of its row.
struct Leader<'c> {
    row: &'c ChartRow,
    side: Side,
    y: Mm,
}

impl Setter<'_> {
    /// Anchor places: a fine double frame round two stacks, and a leader to the mark beside the body.
    pub(super) fn anchors(&mut self, chart: &Chart, view: &View, piece: &mut Fragment) {
        for anchor in chart.anchors.iter().filter(|a| view.window.holds(a.at)) {
            let (w, h) = (anchor.width * view.scale, anchor.height * view.scale);
            let at = view.point(anchor.at);
            let (x, y) = (at.x - w / 2.0, at.y - h / 2.0);
            let ring = |by: f64, colour, pen: f64| {
                stroked(x - Mm(by), y - Mm(by), w + Mm(by * 2.0), h + Mm(by * 2.0), colour, Mm(pen))
            };
            piece.path(view.node, Some(Layer::Marks), ring(0.0, Colour::WHITE, FRAME_GROUND));
            if let Some(leader) = leader(chart, anchor) {
                self.anchor_mark(anchor, &leader, view, piece);
            }
            piece.path(view.node, Some(Layer::Marks), ring(LINES_APART / 2.0, self.sheet.ink, FRAME_LINE));
            piece.path(view.node, Some(Layer::Marks), ring(-LINES_APART / 2.0, self.sheet.ink, FRAME_LINE));
        }
    }

    fn anchor_mark(&mut self, anchor: &ChartAnchor, leader: &Leader, view: &View, piece: &mut Fragment) {
        let size = self.sheet.chart_label;
        let away = if view.marks_beyond { self.past_row_number(leader.row) } else { size.mm() * CLOSE };
        let (sign, edge, align) = match leader.side {
            Side::Left => (-1.0, leader.row.left.max(view.shown.left), Align::End),
            Side::Right => (1.0, leader.row.right.min(view.shown.right), Align::Start),
        };
        let from = Point { x: view.x(anchor.at.x + anchor.width * (0.5 * sign)), y: view.y(leader.y) };
        let to = Point { x: view.x(edge) + away * sign, y: from.y };
        piece.path(view.node, Some(Layer::Marks), line(from, to, Colour::WHITE, LEADER_GROUND));
        piece.path(view.node, Some(Layer::Marks), line(from, to, self.sheet.ink, LEADER));
        let place =
            Point { x: to.x + size.mm() * (0.3 * sign), y: to.y + cap_height(Face::Bold, size) / 2.0 };
        let ink = Ink { face: Face::Bold, size, colour: self.sheet.accent_text };
        let mut items = self.label(ink, &anchor.mark, place, align, view.node);
        items.iter_mut().for_each(|item| item.layer = Some(Layer::Marks));
        piece.items.extend(items);
    }

    /// How far from a row's edge its number ends: the mark stands between two numbers in height, and beyond them.
    fn past_row_number(&mut self, row: &ChartRow) -> Mm {
        let size = self.sheet.chart_label;
        let widest = format!("{} →", row.number.max(10));
        self.shaper.width(Face::Bold, &widest, size) + size.mm() * 0.8
    }

    /// White that the marks of anchors need at either side of a chart to stand beyond the row numbers, on the page.
    pub(super) fn anchor_gutters(&mut self, chart: &Chart, whole: &Extent, least: f64) -> [Mm; 2] {
        let size = self.sheet.chart_label;
        let mut gutters = [Mm::ZERO; 2];
        for anchor in &chart.anchors {
            let Some(leader) = leader(chart, anchor) else { continue };
            let mark = self.shaper.width(Face::Bold, &anchor.mark, size) + size.mm() * 0.4;
            let reach = self.past_row_number(leader.row) + mark;
            let (side, indent) = match leader.side {
                Side::Left => (0, leader.row.left.max(whole.left) - whole.left),
                Side::Right => (1, whole.right - leader.row.right.min(whole.right)),
            };
            gutters[side] = gutters[side].max(reach - indent * least);
        }
        gutters
    }
}

/// The leader of an anchor: to the nearer side, along the upper edge of its row unless another anchor is there.
fn leader<'c>(chart: &'c Chart, anchor: &ChartAnchor) -> Option<Leader<'c>> {
    let row = chart.rows.iter().find(|r| r.top <= anchor.at.y && anchor.at.y <= r.bottom)?;
    let to_left = anchor.at.x < (row.left + row.right) / 2.0;
    let side = if to_left { Side::Left } else { Side::Right };
    // Of two in one row the outer has the upper edge and the inner, which meets it there, the lower.
    let taken = |y: Mm| {
        chart.anchors.iter().filter(|other| other.mark != anchor.mark).any(|other| {
            let (top, bottom) = (other.at.y - other.height / 2.0, other.at.y + other.height / 2.0);
            let outward = if to_left { other.at.x < anchor.at.x } else { other.at.x > anchor.at.x };
            outward && top.0 - 0.1 <= y.0 && y.0 <= bottom.0 + 0.1
        })
    };
    let (top, bottom) = (anchor.at.y - anchor.height / 2.0, anchor.at.y + anchor.height / 2.0);
    Some(Leader { row, side, y: if taken(top) { bottom } else { top } })
}
