//! Numbers and marks of a chart: rows at their starting side, strands below, every fifth bead, anchors,
//! boxes to tick.

use super::part::View;
use crate::booklet::Tick;
use crate::booklet::drawing::{Align, Face};
use crate::booklet::{Chart, ChartStrand};
use crate::colour::Colour;
use crate::design::Side;
use crate::layout::faces::cap_height;
use crate::layout::fragment::{Fragment, line, outlined};
use crate::layout::setter::Setter;
use crate::layout::sheet::SMALLEST_LETTER;
use crate::layout::{Item, Layer, Paint};
use crate::units::{Mm, Point, Pt};

impl Setter<'_> {
    /// Row numbers with the arrow of their direction, on the side where the row starts.
    pub(super) fn row_labels(&mut self, chart: &Chart, view: &View, piece: &mut Fragment) {
        for row in &chart.rows {
            let middle = (row.top + row.bottom) / 2.0;
            if middle < view.window.top || middle > view.window.bottom {
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
            let items = self.label(Face::Bold, &text, size, colour, Point { x, y }, align, view.node);
            piece.items.extend(items);
            if let Some(prefix) = &chart.ticks {
                let side = self.tick_side().min(high * 0.92);
                let wide = self.shaper.width(Face::Bold, &text, size);
                let x = match row.from {
                    Side::Left => x - wide - gap - side,
                    Side::Right => x + wide + gap,
                };
                let words = &self.booklet.words;
                let from = if row.from == Side::Left { &words.from_left } else { &words.from_right };
                let tooltip = format!("{} {from}", words.row.replace("{number}", &row.number.to_string()));
                let name = format!("{prefix}-row-{}", row.number);
                let at = Point { x, y: view.y(middle) - side / 2.0 };
                self.chart_tick(name, tooltip, at, side, view, piece);
            }
        }
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
                *path = outlined(Mm::ZERO, Mm::ZERO, side, side, self.sheet.muted, Mm(0.25));
            }
        }
        for one in &mut tick.ticks {
            one.side = one.side * share;
        }
        piece.absorb(tick, at.x, at.y);
    }

    /// Strand numbers in working order, below each strand; two lines of them where they stand close.
    pub(super) fn strand_labels(&mut self, chart: &Chart, view: &View, piece: &mut Fragment) {
        let strands = strands_shown(chart, view);
        let (size, two_lines) = self.strand_size(&strands, view);
        let cap = cap_height(Face::Bold, size);
        let pitch = pitch(&strands) * view.scale;
        for (i, strand) in strands.iter().enumerate() {
            let lower = if two_lines && i % 2 == 1 { cap * 1.35 } else { Mm::ZERO };
            let end = view.y(strand.bottom.min(view.shown.bottom));
            let at = Point { x: view.x(strand.x), y: end + size.mm() * 0.3 + cap + lower };
            let colour = self.sheet.ink;
            let number = strand.number.to_string();
            let items = self.label(Face::Bold, &number, size, colour, at, Align::Middle, view.node);
            piece.items.extend(items);
            if let Some(prefix) = &chart.ticks {
                let side = self.tick_side().min(pitch * 0.8);
                let down = if two_lines { cap * 1.35 } else { Mm::ZERO } + size.mm() * 0.3;
                let at = Point { x: at.x - side / 2.0, y: at.y - lower + down };
                let tooltip = format!("{} {number}", self.booklet.words.strands);
                self.chart_tick(format!("{prefix}-strand-{number}"), tooltip, at, side, view, piece);
            }
        }
    }

    /// Size of strand numbers, and whether they need two lines.
    fn strand_size(&mut self, strands: &[&ChartStrand], view: &View) -> (Pt, bool) {
        let widest = strands.iter().map(|s| s.number).max().unwrap_or(0).to_string();
        let room = pitch(strands) * view.scale * 0.86;
        let full = self.sheet.chart_label;
        let fits = full.0 * (room / self.shaper.width(Face::Bold, &widest, full)).min(1.0);
        // Two lines of a readable size are better than one of tiny numbers.
        if fits >= full.0 * 0.8 && fits >= SMALLEST_LETTER.0 {
            (Pt(fits), false)
        } else {
            (full.min(Pt(fits * 2.0)).max(SMALLEST_LETTER), true)
        }
    }

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
                piece.path(view.node, Some(Layer::Grid), line(from, to, Colour::WHITE, Mm(0.75)));
                piece.path(view.node, Some(Layer::Grid), line(from, to, self.sheet.ink, Mm(0.35)));
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
                let mut items =
                    self.label(Face::Regular, &text, size, colour, Point { x, y }, align, view.node);
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

    /// Anchor places: a fine double outline round two stacks, with the mark between them.
    pub(super) fn anchors(&mut self, chart: &Chart, view: &View, piece: &mut Fragment) {
        for anchor in chart.anchors.iter().filter(|a| view.window.holds(a.at)) {
            let (w, h) = (anchor.width * view.scale, anchor.height * view.scale);
            let at = view.point(anchor.at);
            let (x, y) = (at.x - w / 2.0, at.y - h / 2.0);
            let ring = |by: f64, colour, pen: f64| {
                outlined(x - Mm(by), y - Mm(by), w + Mm(by * 2.0), h + Mm(by * 2.0), colour, Mm(pen))
            };
            piece.path(view.node, Some(Layer::Marks), ring(0.0, Colour::WHITE, 1.1));
            piece.path(view.node, Some(Layer::Marks), ring(0.38, self.sheet.ink, 0.22));
            piece.path(view.node, Some(Layer::Marks), ring(-0.38, self.sheet.ink, 0.22));
            let size = Pt(view.letter.map_or(SMALLEST_LETTER.0, |l| l.0 * 0.8).max(SMALLEST_LETTER.0));
            let place = Point { x: at.x, y: at.y + cap_height(Face::Bold, size) / 2.0 };
            let colour = self.sheet.ink;
            let items = self.label(Face::Bold, &anchor.mark, size, colour, place, Align::Middle, view.node);
            for mut item in items {
                item.layer = Some(Layer::Marks);
                if let Paint::Glyphs(glyphs) = &mut item.paint {
                    glyphs.halo = Some((Colour::WHITE, size.mm() * 0.32));
                }
                piece.items.push(item);
            }
        }
    }
}

fn strands_shown<'c>(chart: &'c Chart, view: &View) -> Vec<&'c ChartStrand> {
    let inside = |s: &&ChartStrand| {
        s.x >= view.window.left
            && s.x <= view.window.right
            && s.top <= view.window.bottom
            && s.bottom >= view.window.top
    };
    chart.strands.iter().filter(inside).collect()
}

/// Least distance of neighbouring strands, in millimetres of the earring.
fn pitch(strands: &[&ChartStrand]) -> Mm {
    let least = strands.windows(2).map(|p| (p[1].x - p[0].x).abs()).fold(Mm(f64::MAX), Mm::min);
    if least.0 < 0.05 || least.0 > 1000.0 { Mm(1.6) } else { least }
}
