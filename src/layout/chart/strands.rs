//! Strand numbers of a chart, between body and fringe, with their boxes to tick; how far strands stand apart.

use super::part::View;
use super::plan::NUMBER_WIDTH;
use crate::booklet::{Chart, ChartLeads, ChartStrand, Placed};
use crate::drawn::{Align, Face};
use crate::layout::faces::cap_height;
use crate::layout::fragment::Fragment;
use crate::layout::setter::{Ink, Linked, Setter};
use crate::layout::sheet::LEAST_TICK;
use crate::units::{Mm, Point, Pt, Size};

/// Share of a strand's room across that its box may take.
const TICK_SHARE: f64 = 0.86;
/// White over and under strand numbers, in sizes of their type.
const OVER_NUMBER: f64 = 0.55;
const UNDER_NUMBER: f64 = 0.45;
/// How much smaller strand numbers are than those of rows on a bench copy: strands stand closer.
const BENCH_SHARE: f64 = 0.8;
/// Distances of strands that can be; else that of cylinders of size 11/0 side by side is taken.
const LEAST_PITCH: Mm = Mm(0.05);
const MOST_PITCH: Mm = Mm(1000.0);
const USUAL_PITCH: Mm = Mm(1.6);

impl Setter<'_> {
    /// Strand numbers in working order, over the strands at one height, with their boxes under them.
    pub(super) fn strand_labels(&mut self, chart: &Chart, view: &View, piece: &mut Fragment) {
        let strands = strands_shown(chart, view);
        let size = self.strand_size(&strands, view.scale);
        let ticks = strand_ticks(chart, view.scale);
        let side =
            if ticks { self.tick_side().min(pitch(&strands) * view.scale * TICK_SHARE) } else { Mm::ZERO };
        let top = strands.iter().map(|s| view.hung(s.top.max(view.shown.top))).fold(Mm(f64::MAX), Mm::min);
        let mut foot = top - size.mm() * UNDER_NUMBER;
        let box_top = foot - side;
        if ticks {
            foot = box_top - size.mm() * UNDER_NUMBER;
        }
        for strand in &strands {
            let at = Point { x: view.x(strand.x), y: foot };
            let colour = self.sheet.ink;
            let of = |leads: &ChartLeads| {
                let line = leads.lines.get(&strand.number)?;
                Some((leads.place(Placed::Strand(*line)), leads.place(Placed::ChartStrand(strand.number))))
            };
            let leads = chart.leads.as_ref().and_then(of);
            let node = self.label_node(chart, leads.is_some(), view);
            let number = strand.number.to_string();
            if let Some((to, here)) = leads {
                let high = size.mm() * (OVER_NUMBER + UNDER_NUMBER) + cap_height(Face::Bold, size);
                let wide = pitch(&strands) * view.scale;
                let corner = Point { x: at.x - wide / 2.0, y: top - high };
                let area = (corner, Size { width: wide, height: high });
                self.number_link(
                    piece,
                    node,
                    area,
                    Linked { to, here: Some((here, corner.y)), said: &number },
                );
            }
            let items = self.label(Ink { face: Face::Bold, size, colour }, &number, at, Align::Middle, node);
            piece.items.extend(items);
            let name = chart.ticks.as_ref().and_then(|ticks| ticks.strands.get(&strand.number));
            if let (Some(name), true) = (name, ticks) {
                let at = Point { x: at.x - side / 2.0, y: box_top };
                let tooltip = self.booklet.words.strand.with([strand.number]);
                self.chart_tick(name.clone(), tooltip, at, side, view, piece);
            }
        }
    }

    /// Height that strand numbers take over the strands, with their boxes if they have any.
    pub(super) fn strand_head(&self, ticks: bool) -> Mm {
        let size = self.full_strand_size();
        let number = size.mm() * (OVER_NUMBER + UNDER_NUMBER) + cap_height(Face::Bold, size);
        if ticks { number + self.tick_side() + size.mm() * UNDER_NUMBER } else { number }
    }

    /// Width of the widest strand number at the least size.
    pub(super) fn strand_number_width(&mut self, chart: &Chart) -> Mm {
        let Some(widest) = chart.strands.iter().map(|s| s.number).max() else { return Mm::ZERO };
        self.shaper.width(Face::Bold, &widest.to_string(), self.sheet.least)
    }

    fn full_strand_size(&self) -> Pt {
        let share = if self.booklet.setting.bench { BENCH_SHARE } else { 1.0 };
        (self.sheet.chart_label * share).max(self.sheet.least)
    }

    /// Size of strand numbers: smaller than usual where strands stand close.
    fn strand_size(&mut self, strands: &[&ChartStrand], scale: f64) -> Pt {
        let widest = strands.iter().map(|s| s.number).max().unwrap_or(0).to_string();
        let full = self.full_strand_size();
        let room = pitch(strands) * scale * NUMBER_WIDTH;
        (full * (room / self.shaper.width(Face::Bold, &widest, full)).min(1.0)).max(self.sheet.least)
    }
}

/// Whether strands have boxes to tick at this scale: boxes too small for a pen are left to the list of the strands.
pub(super) fn strand_ticks(chart: &Chart, scale: f64) -> bool {
    chart.ticks.is_some() && chart_pitch(chart) * scale * TICK_SHARE >= LEAST_TICK
}

/// The strands of which a view shows a bead.
pub(super) fn strands_shown<'c>(chart: &'c Chart, view: &View) -> Vec<&'c ChartStrand> {
    let inside = |s: &&ChartStrand| {
        s.x >= view.window.left
            && s.x <= view.window.right
            && s.middles[0] <= view.window.bottom
            && s.middles[1] >= view.window.top
    };
    chart.strands.iter().filter(inside).collect()
}

/// Least distance of neighbouring strands, in millimetres of the earring.
pub(super) fn pitch(strands: &[&ChartStrand]) -> Mm {
    let least = strands.windows(2).map(|p| (p[1].x - p[0].x).abs()).fold(Mm(f64::MAX), Mm::min);
    if (LEAST_PITCH..=MOST_PITCH).contains(&least) { least } else { USUAL_PITCH }
}

/// Least distance of neighbouring strands of a chart.
pub(super) fn chart_pitch(chart: &Chart) -> Mm {
    pitch(&chart.strands.iter().collect::<Vec<_>>())
}
