//! The scale of a chart, and over how many pages it is split.

use super::extent::{Extent, of_beads};
use super::grid::Grid;
use crate::booklet::{Chart, ChartBead};
use crate::design::Side;
use crate::drawn::{Face, Shape};
use crate::layout::faces::loaded;
use crate::layout::setter::Setter;
use crate::layout::sheet::{LARGE_CELL, SMALLEST_LETTER};
use crate::stitch::SectionKind;
use crate::units::{Mm, Pt, Size};

/// Share of a bead's height that its letter's capitals take.
const LETTER_HEIGHT: f64 = 0.64;
/// Share of a bead's width that its letter may take.
const LETTER_WIDTH: f64 = 0.86;
/// A chart is planned for this much room at least, however little there is.
const LEAST_ROOM: Size = Size { width: Mm(10.0), height: Mm(15.0) };
/// No bead counts as larger, so that a chart without any still has a scale.
const LARGEST_BEAD: Mm = Mm(100.0);

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
        let rooms = [rooms.first, rooms.rest].map(|room| (room - besides).max(LEAST_ROOM.height));
        let grid = Grid::new(chart, &whole, floor, across, rooms);
        let scale = grid.scale(across, rooms).min(cap);
        let letter = Some(self.letter(scale, per_scale));
        Plan { scale, letter, marks_beyond, windows: grid.used(chart), whole }
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
        let cells = chart.beads.iter().filter(|b| b.kind != SectionKind::Loop);
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
