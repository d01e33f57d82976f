//! The scale of a chart, and over how many pages it is split.

use super::anchors::Marked;
use super::extent::{Extent, of_beads};
use super::grid::Grid;
use super::labels::RowLabel;
use super::part::View;
use super::strands::chart_pitch;
use crate::booklet::{Chart, ChartBead};
use crate::design::Side;
use crate::drawn::{Face, Shape};
use crate::layout::faces::{cap, cap_height};
use crate::layout::legend::letter_drop;
use crate::layout::setter::Setter;
use crate::layout::sheet::LARGE_CELL;
use crate::layout::tree::Tree;
use crate::stitch::SectionKind;
use crate::units::{Mm, Point, Pt, Size};

/// Share of a bead's height that its letter's capitals take, and that they may take where the room is scarce.
const LETTER_HEIGHT: [f64; 2] = [0.64, 0.72];
/// Share of a bead's width that its letter may take, likewise.
const LETTER_WIDTH: [f64; 2] = [0.86, 0.92];
/// Largest letters on beads: in a booklet, whose charts fill their pages, and on bench copies, which take few.
const LARGEST_LETTER: Pt = Pt(30.0);
const LARGEST_BENCH_LETTER: Pt = Pt(12.0);
const LARGEST_LARGE_BENCH_LETTER: Pt = Pt(24.0);
/// Size of numbers beside a chart of large letters, as a share of these, and the largest.
const LABEL: f64 = 0.62;
const LARGEST_LABEL: Pt = Pt(12.0);
/// Share of the distance of strands that their numbers may take.
pub(super) const NUMBER_WIDTH: f64 = 0.92;
/// How often the scale is found again with the white that its numbers need at the scale found before.
const ROUNDS: usize = 3;
/// A chart is planned for this much room at least, however little there is.
const LEAST_ROOM: Size = Size { width: Mm(10.0), height: Mm(15.0) };
/// Greatest scale: a bead of 11/0 is then 40 mm wide. A choice of this program.
const LARGEST_SCALE: f64 = 25.0;
/// No bead counts as larger, so that a chart without any still has a scale.
const LARGEST_BEAD: Mm = Mm(100.0);

/// White round a chart for its numbers and boxes, and between body and fringe, on the page.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Gutters {
    pub left: Mm,
    pub right: Mm,
    /// Over the whole, for marks that stand out at its top.
    pub head: Mm,
    /// Over the strands, for their numbers.
    pub gap: Mm,
    pub foot: Mm,
}

impl Gutters {
    /// What they take of the height.
    fn beside(&self) -> Mm {
        self.head + self.gap + self.foot
    }
}

/// How large letters may be on a chart's beads.
#[derive(Clone, Debug)]
pub(super) struct Lettering {
    /// Millimetres of letter size that the tightest bead allows at scale 1: with room round it, and at most.
    pub usual: f64,
    pub most: f64,
    /// Height of the lowest bead.
    lowest: Mm,
    /// Advance of each letter in thousandths of its size, with the width of its narrowest bead.
    widths: Vec<(char, f64, Mm)>,
}

impl Lettering {
    /// White between letters of a size and the edges of their beads at a scale, where it is least.
    pub fn clear(&self, scale: f64, size: Pt) -> Mm {
        let beside = self.widths.iter().map(|&(_, advance, wide)| wide * scale - size.mm() * advance);
        let over = self.lowest * scale - cap_height(Face::Letters, size);
        (beside.fold(over, Mm::min) / 2.0).max(Mm::ZERO)
    }
}

/// What of a chart is the same whatever room it gets.
pub(super) struct Needs {
    /// The extent of all its beads.
    whole: Extent,
    lettering: Lettering,
    /// The least scale at which it can be read, and the greatest.
    floor: f64,
    most: f64,
    /// White round it at the least scale.
    at_floor: Gutters,
}

/// What stands beside the beads of a chart, seen from the top left of what is shown of them, and the white for it.
pub(super) struct Beside<'c> {
    pub gutters: Gutters,
    pub labels: Vec<RowLabel<'c>>,
    pub marked: Vec<Marked>,
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
    /// Size of the letters.
    pub letter: Pt,
    /// Size of the numbers beside it.
    pub label: Pt,
    /// White between letters and the edges of their beads: what lines may lie in.
    pub clear: Mm,
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
    /// Measures a chart for its plans.
    pub(super) fn needs(&mut self, chart: &Chart) -> Needs {
        let whole = of_beads(chart.beads.iter());
        let lettering = self.lettering(chart);
        let floor = self.floor(chart, &lettering);
        let most = self.most(&lettering).max(floor);
        let at_floor = self.gutters(chart, &whole, floor);
        Needs { whole, lettering, floor, most, at_floor }
    }

    /// Finds scale and parts for a chart in a column of this width.
    pub(super) fn plan(&mut self, chart: &Chart, needs: &Needs, width: Mm, rooms: Rooms) -> Plan {
        let Needs { whole, ref lettering, floor, most, at_floor } = *needs;
        let below = self.below_chart(chart, width, false);
        let fit = |on: &mut Self, at_floor: Gutters| {
            on.fit(chart, &whole, ([floor, most], at_floor), (width, rooms.first - below))
        };
        let (mut scale, mut label) = (fit(self, at_floor), self.sheet.chart_label);
        let large = (self.letter(scale, lettering) * LABEL).min(LARGEST_LABEL);
        if scale >= floor && large > label && !self.booklet.setting.bench {
            // Numbers beside large letters are larger than usual, which takes a little of the chart's room.
            let usual = std::mem::replace(&mut self.sheet.chart_label, large);
            let at_floor = self.gutters(chart, &whole, floor);
            let beside_large = fit(self, at_floor);
            self.sheet.chart_label = usual;
            if beside_large >= floor {
                (scale, label) = (beside_large, large);
            }
        }
        if scale >= floor {
            let letter = self.letter(scale, lettering);
            let clear = lettering.clear(scale, letter);
            return Plan { scale, letter, label, clear, windows: vec![whole], whole };
        }
        let gutters = self.widest_gutters(chart, at_floor);
        let across = (width - gutters.left - gutters.right).max(LEAST_ROOM.width);
        let besides = self.below_chart(chart, width, true) + gutters.beside() + self.map_height();
        let rooms = [rooms.first, rooms.rest].map(|room| (room - besides).max(LEAST_ROOM.height));
        let grid = Grid::new(chart, &whole, floor, across, rooms);
        let scale = grid.scale(across, rooms).min(most);
        let letter = self.letter(scale, lettering);
        let clear = lettering.clear(scale, letter);
        Plan { scale, letter, label, clear, windows: grid.used(chart), whole }
    }

    /// The greatest scale between two bounds at which all of a chart fits with its numbers; 0 where none does.
    fn fit(
        &mut self,
        chart: &Chart,
        whole: &Extent,
        ([floor, most], at_floor): ([f64; 2], Gutters),
        (width, height): (Mm, Mm),
    ) -> f64 {
        let mut scale = 0.0;
        // Numbers keep their size, so a larger chart needs no more white for them than a smaller one.
        for _ in 0..ROUNDS {
            let gutters = if scale > floor { self.gutters(chart, whole, scale) } else { at_floor };
            let across = (width - gutters.left - gutters.right).max(LEAST_ROOM.width);
            let down = (height - gutters.beside()).max(LEAST_ROOM.height);
            let fits = (across / whole.width()).min(down / whole.height()).min(most);
            if fits < floor || fits <= scale {
                break;
            }
            scale = fits;
        }
        scale
    }

    /// Letters' size at a scale: with room round them, unless that would make them too small.
    pub(super) fn letter(&self, scale: f64, lettering: &Lettering) -> Pt {
        let [usual, most] = [lettering.usual, lettering.most].map(|of| Mm(scale * of).pt());
        usual.max(self.sheet.least_letter.min(most)).min(LARGEST_LETTER)
    }

    /// The greatest scale: a chart fills its page; a bench copy is to take few of them.
    fn most(&self, lettering: &Lettering) -> f64 {
        let setting = &self.booklet.setting;
        match (setting.bench, setting.large_print) {
            (false, _) => LARGEST_SCALE,
            (true, false) => LARGEST_BENCH_LETTER.mm().0 / lettering.usual,
            (true, true) => LARGEST_LARGE_BENCH_LETTER.mm().0 / lettering.usual,
        }
    }

    /// The least scale: letters and numbers of strands at their least size; in large print cells at theirs.
    fn floor(&mut self, chart: &Chart, lettering: &Lettering) -> f64 {
        let by_letter = self.sheet.least_letter.mm().0 / lettering.most;
        let by_number = self.strand_number_width(chart) / (chart_pitch(chart) * NUMBER_WIDTH);
        let floor = by_letter.max(by_number);
        if !self.booklet.setting.large_print {
            return floor;
        }
        // The cells are those of rows and strands: fine beads of a loop are no reason to split them.
        let cells = chart.beads.iter().filter(|b| b.kind != SectionKind::Loop);
        let least = cells.map(|b| b.width.min(b.length)).fold(Mm(f64::MAX), Mm::min);
        floor.max(LARGE_CELL / least.min(LARGEST_BEAD))
    }

    /// What letters the beads of a chart can take.
    pub(super) fn lettering(&mut self, chart: &Chart) -> Lettering {
        let mut widths: Vec<(char, f64, Mm)> = Vec::new();
        let mut least = [f64::MAX; 2];
        let mut lowest = LARGEST_BEAD;
        for bead in &chart.beads {
            let at = widths.iter().position(|(letter, ..)| *letter == bead.letter).unwrap_or_else(|| {
                let advance = self.shaper.shape(Face::Letters, &bead.letter.to_string()).advance / 1000.0;
                widths.push((bead.letter, advance, LARGEST_BEAD));
                widths.len() - 1
            });
            let (wide, high) = upright_room(bead);
            let (_, advance, narrowest) = &mut widths[at];
            *narrowest = narrowest.min(wide);
            let raised = letter_drop(bead.shape, bead.length) * 2.0;
            lowest = lowest.min(high - raised);
            let room = rooms_for_letter(bead.shape, (wide, high), advance.max(0.3));
            least = [least[0].min(room[0]), least[1].min(room[1])];
        }
        let [usual, most] = least.map(|least| if least == f64::MAX { 1.0 } else { least.max(0.01) });
        Lettering { usual, most, lowest, widths }
    }

    /// White round a whole chart at a scale. What is narrower than the whole brings some of its own white, more of it the
    /// larger the scale.
    fn gutters(&mut self, chart: &Chart, whole: &Extent, scale: f64) -> Gutters {
        self.beside(chart, (whole, whole), scale, chart.ticks.is_some()).gutters
    }

    /// Row numbers, arrows, counts, boxes and marks of anchors round what a window shows of a chart at a scale.
    pub(super) fn beside<'c>(
        &mut self,
        chart: &'c Chart,
        (window, shown): (&Extent, &Extent),
        scale: f64,
        strand_ticks: bool,
    ) -> Beside<'c> {
        let gap = if chart.strands.is_empty() { Mm::ZERO } else { self.strand_head(strand_ticks) };
        let view = View {
            window: *window,
            shown: *shown,
            scale,
            at: Point::default(),
            gap,
            letter: None,
            clear: Mm::ZERO,
            node: Tree::ROOT,
        };
        let em = self.sheet.chart_label.mm();
        let labels = self.row_labels(chart, &view);
        let marked = self.marked(chart, &labels, &view);
        let tick = if chart.ticks.is_some() { self.tick_side() + em * 0.5 } else { Mm::ZERO };
        let count = if chart.strands.is_empty() { Mm::ZERO } else { self.counts_beside() };
        let (mut left, mut right) = (Mm::ZERO - count, shown.width() * scale + count);
        for label in &labels {
            let wide = label.wide + tick + em * 0.1;
            left = left.min(if label.row.from == Side::Left { label.near - wide } else { left });
            right = right.max(if label.row.from == Side::Right { label.near + wide } else { right });
        }
        let drawn = shown.height() * scale + gap;
        let (mut top, mut bottom) = (Mm::ZERO, drawn + em * 0.3);
        for Marked { area, .. } in &marked {
            (left, right) = (left.min(area.left), right.max(area.right));
            (top, bottom) = (top.min(area.top), bottom.max(area.bottom));
        }
        let right = right - shown.width() * scale;
        let gutters = Gutters { left: -left, right, head: -top, gap, foot: bottom - drawn };
        Beside { gutters, labels, marked }
    }

    /// White that the parts of a chart need at either side, wherever they are cut: what the whole needs, or more.
    fn widest_gutters(&mut self, chart: &Chart, gutters: Gutters) -> Gutters {
        let size = self.sheet.chart_label;
        let row = chart.rows.iter().map(|row| row.number).max().map(|row| format!("{row} →  "));
        let number = row.map_or(Mm::ZERO, |row| self.shaper.width(Face::Bold, &row, size));
        let marks: Vec<Mm> =
            chart.anchors.iter().map(|a| self.shaper.width(Face::Bold, &a.mark, size)).collect();
        let mark = marks.into_iter().map(|wide| wide + size.mm()).fold(Mm::ZERO, Mm::max);
        let least = number + mark;
        Gutters { left: gutters.left.max(least), right: gutters.right.max(least), ..gutters }
    }
}

/// Width and height that a bead has for an upright letter, whichever way it is turned.
fn upright_room(bead: &ChartBead) -> (Mm, Mm) {
    if bead.turned.to_radians().sin().abs() < 0.1 {
        return (bead.width, bead.length);
    }
    let least = bead.width.min(bead.length);
    (least, least)
}

/// Sizes in millimetres of a letter of this advance (in ems) in a bead: one that stands well, and the largest.
fn rooms_for_letter(shape: Shape, (wide, high): (Mm, Mm), advance: f64) -> [f64; 2] {
    let inside = match shape {
        Shape::Cylinder | Shape::Cube | Shape::Bugle => 1.0,
        Shape::Round | Shape::Faceted | Shape::Drop => 0.9,
    };
    [0, 1].map(|i| {
        let by_height = high.0 * inside * LETTER_HEIGHT[i] / cap(Face::Letters);
        let by_width = wide.0 * inside * LETTER_WIDTH[i] / advance;
        by_height.min(by_width)
    })
}
