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
            let edges: Vec<Mm> = chart.rows.iter().map(|row| row.bottom).collect();
            bands(whole, [first, rest].map(|room| room / floor - bead_down), share_y, &edges)
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
/// room or less, the others as theirs, all sharing something with their neighbours. They end at one of the lower `edges`
/// of rows where there is one in reach: what is worked as one stitch is not cut.
fn bands(whole: &Extent, [first, rest]: [Mm; 2], shared: Mm, edges: &[Mm]) -> Vec<(Mm, Mm)> {
    // A band hardly higher than what it shares would never get on.
    let enough = |room: Mm| room.max(shared * 1.5).max(LEAST_WINDOW);
    let (first, rest) = (enough(first), enough(rest));
    let more = ((whole.height() - first) / (rest - shared).max(LEAST_STEP)).ceil().max(0.0) as usize;
    let fit = |bands: &Vec<(Mm, Mm)>| {
        bands.last().is_some_and(|(top, bottom)| {
            *bottom - *top <= (if bands.len() > 1 { rest } else { first }) + LEAST_STEP
        })
    };
    // Ending earlier may take more bands; where rows are as high as bands it does not help.
    let found =
        (more..=more * 2 + 1).map(|more| snapped(whole, [first, rest], shared, (more, edges))).find(fit);
    found.unwrap_or_else(|| snapped(whole, [first, rest], shared, (more, &[])))
}

/// So many bands more than one, ending at lower edges of rows.
fn snapped(
    whole: &Extent,
    [first, rest]: [Mm; 2],
    shared: Mm,
    (more, edges): (usize, &[Mm]),
) -> Vec<(Mm, Mm)> {
    let mut bands = Vec::new();
    let mut top = whole.top;
    for i in 0..=more {
        let room = if i == 0 { first } else { rest };
        // What is left is shared out anew, as the bands so far have ended earlier or later than that.
        let needed = whole.bottom - top + shared * (more - i) as f64;
        let end = top + needed * (room / (room + rest * (more - i) as f64));
        let (least, most) = (top + shared * 1.5 - LEAST_STEP, top + room + LEAST_STEP);
        let off = |edge: &Mm| (*edge - end).0.abs();
        let in_reach = edges.iter().filter(|edge| least <= **edge && **edge <= most);
        let edge = in_reach.min_by(|one, other| off(one).total_cmp(&off(other)));
        let bottom = if i == more { whole.bottom } else { edge.copied().unwrap_or(end) };
        bands.push((top, bottom));
        top = bottom - shared;
    }
    bands
}

/// Length of each of `n` windows that cover a whole and share some of it with their neighbours.
fn window(whole: Mm, n: usize, shared: Mm) -> Mm {
    (whole + shared * (n - 1) as f64) / n as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(height: f64) -> Extent {
        Extent { left: Mm(0.0), right: Mm(10.0), top: Mm(0.0), bottom: Mm(height) }
    }

    #[test]
    fn bands_end_between_rows_and_cover_all() {
        for rows in 12..60 {
            let (row, height) = (2.6, 2.6 * f64::from(rows));
            let edges: Vec<Mm> = (1..=rows).map(|n| Mm(row * f64::from(n))).collect();
            for first in [13.0, 20.0, 31.0] {
                let (rest, shared) = (Mm(first + 7.0), Mm(row * 2.0));
                let bands = bands(&of(height), [Mm(first), rest], shared, &edges);
                assert_eq!((bands[0].0, bands[bands.len() - 1].1), (Mm(0.0), Mm(height)));
                for (index, (top, bottom)) in bands.iter().enumerate() {
                    let room = if index == 0 { Mm(first) } else { rest };
                    assert!(*bottom - *top <= room + LEAST_STEP, "{rows} rows, {first}: {bands:?}");
                    let at_edge = |edge: &Mm| (*edge - *bottom).0.abs() < 1e-9;
                    assert!(edges.iter().any(at_edge), "{rows} rows, {first}: {bands:?}");
                }
                for pair in bands.windows(2) {
                    assert!((pair[0].1 - pair[1].0 - shared).0.abs() < 1e-9);
                }
            }
        }
    }

    #[test]
    fn without_rows_bands_share_the_height() {
        let bands = bands(&of(100.0), [Mm(40.0), Mm(40.0)], Mm(4.0), &[]);
        assert_eq!(bands.len(), 3);
        assert!(bands.iter().all(|(top, bottom)| (*bottom - *top - Mm(108.0 / 3.0)).0.abs() < 1e-9));
    }
}
