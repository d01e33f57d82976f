//! What is there already beside a chart's body, where marks of anchors and their leaders are to keep off.

use super::extent::{Extent, half};
use super::labels::RowLabel;
use super::part::View;
use super::strands::{pitch, strands_shown};
use crate::booklet::{Chart, ChartBead, ChartRow};
use crate::layout::setter::Setter;
use crate::stitch::SectionKind;
use crate::units::{Mm, Point};
use std::collections::VecDeque;
use std::ops::RangeInclusive;

/// Points of a leader that are looked at, and half the thickness that it counts with.
const SAMPLES: u32 = 24;
pub(super) const LINE: Mm = Mm(0.3);
/// White between a leader and words beside it.
const OFF_WORDS: Mm = Mm(0.35);

/// Height of the bands that areas are looked for by.
const BAND: Mm = Mm(4.0);

/// What no mark may lie on: beads and frames first, then numbers, marks and leaders. A chart of a large body has
/// hundreds of areas and marks; found by the height at which they stand, each mark meets those beside it alone.
#[derive(Clone)]
pub(super) struct Taken {
    areas: Vec<Extent>,
    /// How many of them are beads and frames.
    solid: usize,
    /// Numbers of the areas that reach into each band, in ascending order, and the number of the first band.
    bands: VecDeque<Vec<usize>>,
    first: i64,
}

impl Taken {
    fn new(solid: Vec<Extent>) -> Taken {
        let mut taken = Taken { solid: solid.len(), areas: Vec::new(), bands: VecDeque::new(), first: 0 };
        solid.into_iter().for_each(|area| taken.add(area));
        taken
    }

    /// How many areas there are.
    pub fn count(&self) -> usize {
        self.areas.len()
    }

    /// Takes one more.
    pub fn add(&mut self, area: Extent) {
        let number = self.areas.len();
        self.areas.push(area);
        let reached = bands_of(&area);
        if self.bands.is_empty() {
            self.first = *reached.start();
        }
        while self.first > *reached.start() {
            self.bands.push_front(Vec::new());
            self.first -= 1;
        }
        let last = (reached.end() - self.first).max(0) as usize;
        while self.bands.len() <= last {
            self.bands.push_back(Vec::new());
        }
        for band in reached {
            self.bands[(band - self.first) as usize].push(number);
        }
    }

    /// The numbers of the areas that may reach into the heights of another, some of them several times.
    fn beside(&self, area: &Extent) -> impl Iterator<Item = usize> + use<'_> {
        bands_of(area)
            .filter_map(|band| usize::try_from(band - self.first).ok())
            .filter_map(|band| self.bands.get(band))
            .flatten()
            .copied()
    }

    /// The first area that, with so much white round it, meets another.
    pub fn met_by(&self, area: &Extent, white: Mm) -> Option<Extent> {
        let meets = |number: &usize| self.areas[*number].grown(white).meets(area);
        self.beside(&area.grown(white)).filter(meets).min().map(|number| self.areas[number])
    }

    /// Whether a leader runs through something beyond the edge of its row.
    pub fn meets(&self, leader: &[Point; 3], edge: Mm) -> bool {
        let [from, bend, at] = *leader;
        let start = Point { x: edge, y: from.y };
        let around = Extent::round(&[start, bend, at]);
        // A leader may run along the edges of beads; of words it keeps off.
        let off = |number: usize| if number < self.solid { -LINE } else { OFF_WORDS };
        let areas = self.beside(&around.grown(OFF_WORDS)).map(|number| self.areas[number].grown(off(number)));
        let near: Vec<Extent> = areas.filter(|area| area.meets(&around)).collect();
        !near.is_empty() && on_way([start, bend, at]).any(|p| near.iter().any(|area| area.holds(p)))
    }
}

/// Points along a leader.
pub(super) fn on_way([from, bend, at]: [Point; 3]) -> impl Iterator<Item = Point> {
    let between =
        |a: Point, b: Point, share: f64| Point { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
    (0..=SAMPLES).flat_map(move |i| {
        let share = f64::from(i) / f64::from(SAMPLES);
        [between(from, bend, share), between(bend, at, share)]
    })
}

/// The bands that an area reaches into.
fn bands_of(area: &Extent) -> RangeInclusive<i64> {
    let band = |y: Mm| (y / BAND).floor() as i64;
    band(area.top)..=band(area.bottom)
}

impl Setter<'_> {
    /// What no mark may lie on: rows, their numbers, loops, frames, and strands with their counts.
    pub(super) fn obstacles(
        &self,
        chart: &Chart,
        labels: &[RowLabel],
        frames: &[Extent],
        view: &View,
    ) -> Taken {
        let shown = &view.shown;
        let row = |row: &ChartRow| Extent {
            left: view.x(row.left.max(shown.left)),
            right: view.x(row.right.min(shown.right)),
            top: view.y(row.top.max(shown.top)),
            bottom: view.y(row.bottom.min(shown.bottom)),
        };
        let is_shown = |row: &&ChartRow| {
            row.top < shown.bottom
                && shown.top < row.bottom
                && row.left < shown.right
                && shown.left < row.right
        };
        let ring = |bead: &&ChartBead| bead.kind == SectionKind::Loop && view.window.holds(bead.centre);
        let rings = chart.beads.iter().filter(ring).map(|bead| {
            let ((across, down), at) = (half(bead), bead.centre);
            Extent {
                left: view.x(at.x - across),
                right: view.x(at.x + across),
                top: view.y(at.y - down),
                bottom: view.y(at.y + down),
            }
        });
        let beads = chart.rows.iter().filter(is_shown).map(row).chain(rings);
        let beads: Vec<Extent> = beads.chain(frames.iter().copied()).collect();
        let mut taken = Taken::new(beads);
        labels.iter().map(RowLabel::area).for_each(|area| taken.add(area));
        let strands = strands_shown(chart, view);
        if let (Some(first), Some(last)) = (strands.first(), strands.last()) {
            let beside = pitch(&strands) * view.scale * 0.5 + self.counts_beside();
            let ends = strands.iter().map(|strand| view.hung(strand.bottom.min(shown.bottom)));
            taken.add(Extent {
                left: view.x(first.x.min(last.x)) - beside,
                right: view.x(first.x.max(last.x)) + beside,
                top: view.y(first.top.max(shown.top)),
                bottom: ends.fold(Mm::ZERO, Mm::max),
            });
        }
        taken
    }
}
