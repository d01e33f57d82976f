//! Numbers of a chart: rows at their starting side, strands below, with their boxes to tick.

use super::extent::half;
use super::part::View;
use crate::drawn::{Align, Face};

use crate::booklet::{Chart, ChartBead, ChartStrand, Tick};
use crate::design::Side;
use crate::layout::faces::cap_height;
use crate::layout::fragment::{Fragment, stroked};
use crate::layout::measures::BOX_LINE;
use crate::layout::setter::{Ink, Setter};
use crate::layout::sheet::{LEAST_TICK, SMALLEST_LETTER};
use crate::layout::{NodeId, Paint, Role};
use crate::stitch::SectionKind;
use crate::units::{Mm, Point, Pt};
use std::collections::BTreeMap;

/// Share of a strand's room across that its box may take.
const TICK_SHARE: f64 = 0.86;

/// How many of a strand's lowest beads may stand beside the numbers of its neighbours.
const LOWEST: usize = 4;

/// Distances of strands that can be; else that of cylinders of size 11/0 side by side is taken.
const LEAST_PITCH: Mm = Mm(0.05);
const MOST_PITCH: Mm = Mm(1000.0);
const USUAL_PITCH: Mm = Mm(1.6);

impl Setter<'_> {
    /// Row numbers with the arrow of their direction, on the side where the row starts.
    pub(super) fn row_labels(&mut self, chart: &Chart, view: &View, piece: &mut Fragment) {
        for row in &chart.rows {
            let middle = (row.top + row.bottom) / 2.0;
            let shown = &view.shown;
            let beside = row.left >= shown.right || row.right <= shown.left;
            // A part shows no number of a row that has its beads in other parts.
            if beside
                || middle < shown.top.max(view.window.top)
                || middle > shown.bottom.min(view.window.bottom)
            {
                continue;
            }
            let high = (row.bottom - row.top) * view.scale;
            let size = Pt(self.sheet.chart_label.0.min(high.pt().0 * 0.95).max(SMALLEST_LETTER.0));
            let gap = size.mm() * 0.45;
            let y = view.y(middle) + cap_height(Face::Bold, size) / 2.0;
            let (text, x, align) = match row.from {
                Side::Left => {
                    (format!("{} →", row.number), view.x(row.left.max(view.shown.left)) - gap, Align::End)
                }
                Side::Right => {
                    (format!("← {}", row.number), view.x(row.right.min(view.shown.right)) + gap, Align::Start)
                }
            };
            let colour = self.sheet.ink;
            let node = self.label_node(chart, view);
            let items =
                self.label(Ink { face: Face::Bold, size, colour }, &text, Point { x, y }, align, node);
            piece.items.extend(items);
            if let Some(name) = chart.ticks.as_ref().and_then(|ticks| ticks.rows.get(&row.number)) {
                // The next box on this side is two rows away.
                let side = self.tick_side().min(high * 1.84);
                let wide = self.shaper.width(Face::Bold, &text, size);
                let x = match row.from {
                    Side::Left => x - wide - gap - side,
                    Side::Right => x + wide + gap,
                };
                let words = &self.booklet.words;
                let from = if row.from == Side::Left { &words.from_left } else { &words.from_right };
                let tooltip = format!("{} {from}", words.row.with([row.number]));
                let at = Point { x, y: view.y(middle) - side / 2.0 };
                self.chart_tick(name.clone(), tooltip, at, side, view, piece);
            }
        }
    }

    /// What a number belongs to: beside a box an element of its own, so that it is read just before the box.
    fn label_node(&mut self, chart: &Chart, view: &View) -> NodeId {
        if chart.ticks.is_some() { self.tree.add(view.node, Role::Span) } else { view.node }
    }

    /// A box beside a chart; its name is made unique in the booklet.
    fn chart_tick(
        &mut self,
        name: String,
        tooltip: String,
        at: Point,
        side: Mm,
        view: &View,
        piece: &mut Fragment,
    ) {
        let name = self.unique(name);
        let mut tick = self.tick(&Tick { name, tooltip }, view.node);
        let share = side / self.tick_side();
        for item in &mut tick.items {
            if let Paint::Path(path) = &mut item.paint {
                *path = stroked(Mm::ZERO, Mm::ZERO, side, side, self.sheet.muted, BOX_LINE);
            }
        }
        for one in &mut tick.ticks {
            one.side = one.side * share;
        }
        piece.absorb(tick, at.x, at.y);
    }

    /// Strand numbers in working order, below each strand; two lines of them where they stand close.
    pub(super) fn strand_labels(
        &mut self,
        chart: &Chart,
        shown: &[(usize, &ChartBead)],
        view: &View,
        piece: &mut Fragment,
    ) {
        let strands = strands_shown(chart, view);
        let (size, two_lines) = self.strand_size(&strands, view);
        let cap = cap_height(Face::Bold, size);
        let pitch = pitch(&strands) * view.scale;
        let ticks = strand_ticks(chart, view.scale);
        let hanging = lowest_beads(shown);
        for (i, strand) in strands.iter().enumerate() {
            let lower = if two_lines && i % 2 == 1 { cap * 1.35 } else { Mm::ZERO };
            let number = strand.number.to_string();
            let side = if ticks { self.tick_side().min(pitch * TICK_SHARE) } else { Mm::ZERO };
            let wide = self.shaper.width(Face::Bold, &number, size).max(side);
            let high = size.mm() * 0.6 + cap * if two_lines { 2.35 } else { 1.0 } + side;
            let end = free_below(strand, &hanging, view, wide, high);
            let at = Point { x: view.x(strand.x), y: end + size.mm() * 0.3 + cap + lower };
            let colour = self.sheet.ink;
            let node = self.label_node(chart, view);
            let items = self.label(Ink { face: Face::Bold, size, colour }, &number, at, Align::Middle, node);
            piece.items.extend(items);
            let name = chart.ticks.as_ref().and_then(|ticks| ticks.strands.get(&strand.number));
            if let (Some(name), true) = (name, ticks) {
                let down = if two_lines { cap * 1.35 } else { Mm::ZERO } + size.mm() * 0.3;
                let at = Point { x: at.x - side / 2.0, y: at.y - lower + down };
                let tooltip = self.booklet.words.strand.with([strand.number]);
                self.chart_tick(name.clone(), tooltip, at, side, view, piece);
            }
        }
    }

    /// Size of strand numbers, and whether they need two lines.
    fn strand_size(&mut self, strands: &[&ChartStrand], view: &View) -> (Pt, bool) {
        let widest = strands.iter().map(|s| s.number).max().unwrap_or(0).to_string();
        let room = pitch(strands) * view.scale * 0.86;
        // Strands stand closer than rows.
        let share = if self.booklet.setting.bench { 0.8 } else { 1.0 };
        let full = self.sheet.chart_label * share;
        let fits = full.0 * (room / self.shaper.width(Face::Bold, &widest, full)).min(1.0);
        // Two lines of a readable size are better than one of tiny numbers.
        if fits >= full.0 * 0.72 && fits >= SMALLEST_LETTER.0 {
            (Pt(fits), false)
        } else {
            (full.min(Pt(fits * 2.0)).max(SMALLEST_LETTER), true)
        }
    }
}

/// The lowest beads of the strands that are shown: the only ones that can reach into a neighbour's number.
fn lowest_beads<'c>(shown: &[(usize, &'c ChartBead)]) -> Vec<&'c ChartBead> {
    let mut lowest: BTreeMap<usize, Vec<&ChartBead>> = BTreeMap::new();
    for &(_, bead) in shown {
        if bead.kind == SectionKind::Strand {
            let beads = lowest.entry(bead.number).or_default();
            beads.push(bead);
            if beads.len() > LOWEST {
                beads.remove(0);
            }
        }
    }
    lowest.into_values().flatten().collect()
}

/// Where a number of this width and height is free of beads below a strand.
fn free_below(strand: &ChartStrand, hanging: &[&ChartBead], view: &View, wide: Mm, high: Mm) -> Mm {
    let x = view.x(strand.x);
    let mut end = view.y(strand.bottom.min(view.shown.bottom));
    let near = |bead: &&&ChartBead| {
        let (across, _) = half(bead);
        (view.x(bead.centre.x) - x).abs() < across * view.scale + wide / 2.0
    };
    let mut in_the_way: Vec<(Mm, Mm)> = hanging
        .iter()
        .filter(near)
        .map(|bead| {
            let (_, down) = half(bead);
            (view.y(bead.centre.y - down), view.y(bead.centre.y + down))
        })
        .collect();
    in_the_way.sort_by(|a, b| a.0.0.total_cmp(&b.0.0));
    for (top, bottom) in in_the_way {
        if bottom > end && top < end + high {
            end = bottom;
        }
    }
    end
}

/// Whether strands have boxes to tick at this scale: boxes too small for a pen are left to the list of the strands.
pub(super) fn strand_ticks(chart: &Chart, scale: f64) -> bool {
    let strands: Vec<&ChartStrand> = chart.strands.iter().collect();
    chart.ticks.is_some() && pitch(&strands) * scale * TICK_SHARE >= LEAST_TICK
}

pub(super) fn strands_shown<'c>(chart: &'c Chart, view: &View) -> Vec<&'c ChartStrand> {
    let inside = |s: &&ChartStrand| {
        s.x >= view.window.left
            && s.x <= view.window.right
            && s.top <= view.window.bottom
            && s.bottom >= view.window.top
    };
    chart.strands.iter().filter(inside).collect()
}

/// Least distance of neighbouring strands, in millimetres of the earring.
pub(super) fn pitch(strands: &[&ChartStrand]) -> Mm {
    let least = strands.windows(2).map(|p| (p[1].x - p[0].x).abs()).fold(Mm(f64::MAX), Mm::min);
    if (LEAST_PITCH..=MOST_PITCH).contains(&least) { least } else { USUAL_PITCH }
}
