//! A chart in parts: the windows through which it is shown, each on its page.

use super::extent::{Extent, largest};
use crate::booklet::{Chart, ChartPart};
use crate::units::Mm;

/// Rows and stacks that neighbouring parts share.
const SHARED: f64 = 2.0;
/// Parts of a chart show, and go on by, this much of the earring at least, so that they come to an end.
const LEAST_WINDOW: Mm = Mm(0.5);
const LEAST_STEP: Mm = Mm(0.1);

/// The windows of a chart in parts: columns of like width in bands from top to bottom.
pub(super) struct Grid {
    whole: Extent,
    columns: usize,
    /// Width of a column, and what it shares with the next.
    wide: Mm,
    shared: Mm,
    /// Upper and lower edges of the bands.
    bands: Vec<(Mm, Mm)>,
    /// What beads at the edges of a window reach beyond it, across and down; nothing where it is not split.
    beyond: (Mm, Mm),
}

impl Grid {
    /// The windows that a chart needs at its least scale, for so much room across, and down the first part
    /// and the others.
    pub(super) fn new(chart: &Chart, whole: &Extent, floor: f64, across: Mm, [first, rest]: [Mm; 2]) -> Grid {
        let (bead_across, bead_down) = largest(chart);
        let row = chart.rows.first().map_or(bead_down, |r| (r.bottom - r.top).max(bead_down));
        let (share_x, share_y) = (bead_across * SHARED, row * SHARED);
        // What fits whole in one direction is split in the other only.
        let narrow = whole.width() * floor <= across;
        let low = whole.height() * floor <= first;
        let columns = if narrow { 1 } else { parts(whole.width(), across / floor - bead_across, share_x) };
        let bands = if low {
            vec![(whole.top, whole.bottom)]
        } else {
            bands(whole, [first, rest].map(|room| room / floor - bead_down), share_y)
        };
        Grid {
            whole: *whole,
            columns,
            wide: window(whole.width(), columns, share_x),
            shared: share_x,
            bands,
            beyond: (if narrow { Mm::ZERO } else { bead_across }, if low { Mm::ZERO } else { bead_down }),
        }
    }

    /// The scale at which every window fits its room.
    pub(super) fn scale(&self, across: Mm, [first, rest]: [Mm; 2]) -> f64 {
        let (bead_across, bead_down) = self.beyond;
        let down = self.bands.iter().enumerate().map(|(i, &(top, bottom))| {
            let room = if i == 0 { first } else { rest };
            room / (bottom - top + bead_down)
        });
        down.fold(across / (self.wide + bead_across), f64::min)
    }

    /// The windows in their order, each with a bead to show that none before it holds: band by band, and those of a
    /// fringe down its strands, from the first.
    pub(super) fn used(&self, chart: &Chart) -> Vec<Extent> {
        let step = (self.wide - self.shared).max(LEAST_STEP);
        let window = |band: usize, column: usize| {
            let (top, bottom) = self.bands[band];
            let left = self.whole.left + step * column as f64;
            // The last window reaches the very edge, whatever rounding did.
            let right = if column + 1 == self.columns { self.whole.right } else { left + self.wide };
            Extent { left, right, top, bottom }
        };
        let (bands, columns) = (self.bands.len(), self.columns);
        let from_right = starts_at_right(chart);
        let place = |band: usize, column: usize| match chart.part {
            ChartPart::Whole | ChartPart::Body => band * columns + column,
            ChartPart::Fringe if from_right => (columns - 1 - column) * bands + band,
            ChartPart::Fringe => column * bands + band,
        };
        let mut used = vec![None; bands * columns];
        for bead in chart.beads.iter().filter(|b| !b.faded) {
            // Only the windows round the one that the bead's place points to can hold it. A single window may be
            // no wider than what windows share: then the place points nowhere.
            let near = |last: usize, count: usize| {
                last.min(count).saturating_sub(2)..count.min(last.saturating_add(2))
            };
            let band = self.bands.partition_point(|(top, _)| *top <= bead.centre.y).saturating_sub(1);
            let column = ((bead.centre.x - self.whole.left) / step).floor().max(0.0) as usize;
            let around =
                near(band, bands).flat_map(|band| near(column, columns).map(move |column| (band, column)));
            let holding = around.filter(|&(band, column)| window(band, column).holds(bead.centre));
            if let Some((band, column)) = holding.min_by_key(|&(band, column)| place(band, column)) {
                used[place(band, column)] = Some(window(band, column));
            }
        }
        used.into_iter().flatten().collect()
    }
}

/// Whether the first strand of a chart hangs at its right.
fn starts_at_right(chart: &Chart) -> bool {
    let first = chart.strands.iter().min_by_key(|strand| strand.number);
    let last = chart.strands.iter().max_by_key(|strand| strand.number);
    first.zip(last).is_some_and(|(first, last)| first.x > last.x)
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
