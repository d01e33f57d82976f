//! The scale of a chart, and over how many pages it is split.

use super::extent::{Extent, largest, of_beads};
use crate::booklet::drawing::Face;
use crate::booklet::{Chart, ChartBead};
use crate::design::{Shape, Side};
use crate::layout::faces::loaded;
use crate::layout::setter::Setter;
use crate::layout::sheet::{LARGE_CELL, SMALLEST_LETTER};
use crate::stitch::Spot;
use crate::units::{Mm, Pt, Size};

/// Share of a bead's height that its letter's capitals take.
const LETTER_HEIGHT: f64 = 0.64;
/// Share of a bead's width that its letter may take.
const LETTER_WIDTH: f64 = 0.86;
/// Rows and stacks that neighbouring parts share.
const SHARED: f64 = 2.0;
/// A chart is planned for this much room at least, however little there is.
const LEAST_ROOM: Size = Size { width: Mm(10.0), height: Mm(15.0) };
/// No bead counts as larger, so that a chart without any still has a scale.
const LARGEST_BEAD: Mm = Mm(100.0);
/// Parts of a chart show, and go on by, this much of the earring at least, so that they come to an end.
const LEAST_WINDOW: Mm = Mm(0.5);
const LEAST_STEP: Mm = Mm(0.1);

/// White round a chart for its numbers and boxes, on the page.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Gutters {
    pub left: Mm,
    pub right: Mm,
    pub foot: Mm,
}

/// Heights that a chart may take: on its first page, and on those that follow.
#[derive(Clone, Copy, Debug)]
pub(in crate::layout) struct Rooms {
    pub first: Mm,
    pub rest: Mm,
}

/// How a chart is to stand on its pages.
#[derive(Clone, Debug)]
pub(in crate::layout) struct Plan {
    /// Page millimetres to one of the earring.
    pub scale: f64,
    /// Size of the letters; `None` where they would be too small to read.
    pub letter: Option<Pt>,
    /// Whether the marks of anchors have room beyond the row numbers.
    pub marks_beyond: bool,
    /// The windows, one a page, in order; a single one holds everything.
    pub windows: Vec<Extent>,
    /// The extent of all beads.
    pub whole: Extent,
}

impl Plan {
    /// Over how many pages the chart goes.
    pub fn parts(&self) -> usize {
        self.windows.len()
    }
}

impl Setter<'_> {
    /// Finds scale and parts for a chart in a column of this width.
    pub fn plan(&mut self, chart: &Chart, width: Mm, rooms: Rooms) -> Plan {
        let whole = of_beads(chart.beads.iter());
        let per_scale = self.letter_per_scale(chart);
        let floor = self.floor(chart, per_scale);
        let mut gutters = self.gutters(chart, &whole, floor, chart.ticks.is_some());
        let [left, right] = self.anchor_gutters(chart, &whole, floor);
        let beyond = Gutters { left: gutters.left.max(left), right: gutters.right.max(right), ..gutters };
        let marks_beyond = whole.width() * floor + beyond.left + beyond.right <= width;
        if marks_beyond {
            gutters = beyond;
        }
        let below = self.below_chart(chart, width, false);
        let across = (width - gutters.left - gutters.right).max(LEAST_ROOM.width);
        let down = (rooms.first - below - gutters.foot).max(LEAST_ROOM.height);
        let cap = self.letter_cap().mm().0 / per_scale;
        let cap = cap.max(floor);
        let scale = (across / whole.width()).min(down / whole.height()).min(cap);
        if scale >= floor {
            let letter = Some(self.letter(scale, per_scale));
            return Plan { scale, letter, marks_beyond, windows: vec![whole], whole };
        }
        let besides = self.below_chart(chart, width, true) + gutters.foot + self.map_height();
        let [first, rest] = [rooms.first, rooms.rest].map(|room| (room - besides).max(LEAST_ROOM.height));
        let (bead_across, bead_down) = largest(chart);
        let row = chart.rows.first().map_or(bead_down, |r| (r.bottom - r.top).max(bead_down));
        let (share_x, share_y) = (bead_across * SHARED, row * SHARED);
        // What fits whole in one direction is split in the other only.
        let narrow = whole.width() * floor <= across;
        let low = whole.height() * floor <= first;
        let columns = if narrow { 1 } else { parts(whole.width(), across / floor - bead_across, share_x) };
        let wide = window(whole.width(), columns, share_x);
        let bands = if low {
            vec![(whole.top, whole.bottom)]
        } else {
            bands(&whole, [first, rest].map(|room| room / floor - bead_down), share_y)
        };
        let bead_across = if narrow { Mm::ZERO } else { bead_across };
        let bead_down = if low { Mm::ZERO } else { bead_down };
        let least = bands.iter().enumerate().map(|(i, &(top, bottom))| {
            let room = if i == 0 { first } else { rest };
            room / (bottom - top + bead_down)
        });
        let scale = least.fold(across / (wide + bead_across), f64::min).min(cap);
        let mut windows = Vec::new();
        for &(top, bottom) in &bands {
            for c in 0..columns {
                let left = whole.left + (wide - share_x) * c as f64;
                // The last window reaches the very edge, whatever rounding did.
                let right = if c + 1 == columns { whole.right } else { left + wide };
                windows.push(Extent { left, right, top, bottom });
            }
        }
        let step = wide - share_x;
        let mut used = vec![false; windows.len()];
        for bead in chart.beads.iter().filter(|b| !b.faded) {
            // Only the windows round the one that the bead's place points to can hold it.
            let near = |last: usize, count: usize| last.saturating_sub(2)..(last + 2).min(count);
            let band = bands.partition_point(|(top, _)| *top <= bead.centre.y).saturating_sub(1);
            let column = ((bead.centre.x - whole.left) / step).floor().max(0.0) as usize;
            for r in near(band, bands.len()) {
                for c in near(column, columns) {
                    used[r * columns + c] |= windows[r * columns + c].holds(bead.centre);
                }
            }
        }
        let windows = windows.into_iter().zip(used).filter_map(|(w, used)| used.then_some(w)).collect();
        Plan { scale, letter: Some(self.letter(scale, per_scale)), marks_beyond, windows, whole }
    }

    /// Letters' size at a scale, never over what looks well.
    pub(super) fn letter(&self, scale: f64, per_scale: f64) -> Pt {
        Pt(Mm(scale * per_scale).pt().0.min(self.letter_cap().0))
    }

    fn letter_cap(&self) -> Pt {
        let setting = &self.booklet.setting;
        if setting.large_print {
            Pt(24.0)
        } else if setting.bench {
            Pt(12.0)
        } else {
            Pt(9.0)
        }
    }

    /// The least scale: letters at their least size; in large print cells at theirs.
    fn floor(&self, chart: &Chart, per_scale: f64) -> f64 {
        let by_letter = SMALLEST_LETTER.mm().0 / per_scale;
        if !self.booklet.setting.large_print {
            return by_letter;
        }
        // The cells are those of rows and strands: fine beads of a loop are no reason to split them.
        let cells = chart.beads.iter().filter(|b| !matches!(b.spot, Spot::Loop { .. }));
        let least = cells.map(|b| b.width.min(b.length)).fold(Mm(f64::MAX), Mm::min);
        by_letter.max(LARGE_CELL / least.min(LARGEST_BEAD))
    }

    /// Millimetres of letter size that the tightest bead allows at scale 1.
    pub(super) fn letter_per_scale(&mut self, chart: &Chart) -> f64 {
        let mut advances: Vec<(char, f64)> = Vec::new();
        let mut least = f64::MAX;
        for bead in &chart.beads {
            let advance = match advances.iter().find(|(c, _)| *c == bead.letter) {
                Some((_, advance)) => *advance,
                None => {
                    let advance = self.shaper.shape(Face::Letters, &bead.letter.to_string()).advance / 1000.0;
                    advances.push((bead.letter, advance));
                    advance
                }
            };
            least = least.min(room_for_letter(bead, advance.max(0.3)));
        }
        if least == f64::MAX { 1.0 } else { least.max(0.01) }
    }

    /// White for row numbers, arrows, counts and boxes. A row narrower than the whole brings some of its own white,
    /// more of it the larger the scale; `least` is the least scale that may come.
    pub(super) fn gutters(
        &mut self,
        chart: &Chart,
        whole: &Extent,
        least: f64,
        strand_ticks: bool,
    ) -> Gutters {
        let size = self.sheet.chart_label;
        let em = size.mm();
        let tick = if chart.ticks.is_some() { self.tick_side() + em * 0.5 } else { Mm::ZERO };
        let count = if chart.strands.is_empty() { Mm::ZERO } else { em * 1.8 };
        let mut gutters = Gutters { left: count, right: count, foot: em * 0.3 };
        for row in &chart.rows {
            let label = self.shaper.width(Face::Bold, &format!("{} →", row.number), size) + tick + em * 0.9;
            match row.from {
                Side::Left => {
                    gutters.left = gutters.left.max(label - (row.left.max(whole.left) - whole.left) * least)
                }
                Side::Right => {
                    gutters.right =
                        gutters.right.max(label - (whole.right - row.right.min(whole.right)) * least)
                }
            }
        }
        if !chart.strands.is_empty() {
            gutters.foot = em * 2.8 + if strand_ticks { self.tick_side() + em * 0.3 } else { Mm::ZERO };
        }
        gutters
    }
}

/// Size in millimetres of a letter of this advance (in ems) that stands well in a bead.
fn room_for_letter(bead: &ChartBead, advance: f64) -> f64 {
    let turned = bead.turned.to_radians();
    let upright = turned.sin().abs() < 0.1;
    let (wide, high) = if upright {
        (bead.width, bead.length)
    } else {
        let least = bead.width.min(bead.length);
        (least, least)
    };
    let inside = match bead.shape {
        Shape::Cylinder | Shape::Cube | Shape::Bugle => 1.0,
        Shape::Round | Shape::Faceted | Shape::Drop => 0.9,
    };
    let by_height = high.0 * inside * LETTER_HEIGHT / loaded(Face::Letters).cap;
    let by_width = wide.0 * inside * LETTER_WIDTH / advance;
    by_height.min(by_width)
}

/// How many windows of a length, sharing some of it, cover a whole.
fn parts(whole: Mm, window: Mm, shared: Mm) -> usize {
    if whole <= window {
        return 1;
    }
    // A window hardly larger than what it shares would never get on; then it must at least get half on.
    let step = (window - shared).max(window * 0.5).max(LEAST_WINDOW);
    1 + ((whole - window.max(shared)) / step).ceil().max(1.0) as usize
}

/// Upper and lower edges of the bands that a chart is split into from top to bottom: the first as high as its
/// room or less, the others as theirs, all sharing something with their neighbours.
fn bands(whole: &Extent, [first, rest]: [Mm; 2], shared: Mm) -> Vec<(Mm, Mm)> {
    // A band hardly higher than what it shares would never get on.
    let enough = |room: Mm| room.max(shared * 1.5).max(LEAST_WINDOW);
    let (first, rest) = (enough(first), enough(rest));
    let more = ((whole.height() - first) / (rest - shared).max(LEAST_STEP)).ceil().max(0.0) as usize;
    let capacity = first + rest * more as f64;
    let needed = whole.height() + shared * more as f64;
    let mut bands = Vec::new();
    let mut top = whole.top;
    for i in 0..=more {
        let high = needed * (if i == 0 { first } else { rest } / capacity);
        let bottom = if i == more { whole.bottom } else { top + high };
        bands.push((top, bottom));
        top = bottom - shared;
    }
    bands
}

/// Length of each of `n` windows that cover a whole and share some of it with their neighbours.
fn window(whole: Mm, n: usize, shared: Mm) -> Mm {
    (whole + shared * (n - 1) as f64) / n as f64
}
