//! Numbers of moves: discs on or beside the thread, clear of beads, of each other and of other thread.

use super::bezier::{along, direction, points, steps};
use super::columns::Columns;
use super::paint::{NEEDLE, bridges};
use super::stage::Stage;
use super::thread::{Run, Sight, Thread};
use crate::booklet::drawing::sketch::{Extent, bead_extent};
use crate::units::{Mm, Point, Pt};
use std::collections::BTreeMap;

/// Radius of a disc: holds two digits.
pub(super) const RADIUS: f64 = 1.75;
/// Size of a number.
pub(super) const NUMBER: Pt = Pt(7.0);

/// Shares of a run's length at which a disc may stand, best first.
const SHARES: [f64; 12] = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.16, 0.84, 1.0, 0.0, 0.95];
/// Distance of a disc's middle from a line that it stands beside.
const BESIDE: f64 = RADIUS + 0.7;
/// One whose middle is this far from its thread no longer seems to stand beside it.
const AWAY: f64 = BESIDE + 0.6;
/// Distance of a disc's middle from beads that it does not touch.
const CLEAR: f64 = RADIUS + 0.15;
/// Nothing further away than this matters to a disc.
const NEAR: f64 = RADIUS + 2.0;

/// A seat for a disc.
struct Seat {
    at: Point,
    /// What speaks against it from the outset.
    dislike: f64,
    /// What speaks against it once all that stands still is looked at; found only where it matters.
    standing: Option<f64>,
}

impl Seat {
    fn new(at: Point, dislike: f64) -> Seat {
        Seat { at, dislike, standing: None }
    }
}

/// A run of thread, measured once.
struct Measured<'a> {
    run: &'a Run,
    points: Vec<Point>,
    around: Extent,
    /// The middle of its arrowhead.
    head: Option<Point>,
}

/// The box round points; of none a box that is near nothing.
fn around(points: &[Point]) -> Extent {
    let nothing = Extent::round(Point::new(f64::INFINITY, f64::INFINITY), 0.0, 0.0);
    points.iter().map(|p| Extent::round(*p, 0.0, 0.0)).reduce(Extent::with).unwrap_or(nothing)
}

impl Measured<'_> {
    fn of(run: &Run) -> Measured<'_> {
        let points = points(&run.line);
        let head = direction(&run.line).filter(|_| run.head);
        Measured {
            run,
            around: around(&points),
            points,
            head: head.map(|(tip, towards)| Point::new(tip.x.0 - towards.x.0, tip.y.0 - towards.y.0)),
        }
    }
}

/// How near a line comes to a point.
fn nearest(points: &[Point], at: Point) -> f64 {
    let square = |p: &Point| (p.x.0 - at.x.0).powi(2) + (p.y.0 - at.y.0).powi(2);
    points.iter().map(square).fold(f64::INFINITY, f64::min).sqrt()
}

/// The middle of each number's disc, in the order of the numbers.
pub(super) fn placed(columns: &Columns, stage: &Stage, thread: &Thread) -> Vec<(usize, Point)> {
    let laid: Vec<Vec<Point>> = bridges(columns, stage).iter().map(|bridge| points(bridge)).collect();
    numbers(stage, thread, &laid).into_iter().collect()
}

/// Where a number's own thread comes nearest to its disc, if that stands away from it; `None` as well where the thread
/// nearest to it lies in beads, beside which the disc then stands.
pub(super) fn far_from(thread: &Thread, number: usize, at: Point) -> Option<Point> {
    let own = thread.runs.iter().filter(|run| run.number == Some(number));
    let nearest = own.flat_map(|run| points(&run.line).into_iter().map(|point| (run.sight, point)));
    let (sight, point) = nearest.min_by(|(_, a), (_, b)| a.distance(at).0.total_cmp(&b.distance(at).0))?;
    (sight != Sight::Hidden && point.distance(at).0 > AWAY).then_some(point)
}

fn numbers(stage: &Stage, thread: &Thread, bridges: &[Vec<Point>]) -> BTreeMap<usize, Point> {
    let beads: Vec<Extent> = stage.beads.iter().map(|b| bead_extent(&b.mark)).collect();
    let lines: Vec<Measured> = thread.runs.iter().map(Measured::of).collect();
    let bridges: Vec<(Extent, &[Point])> = bridges.iter().map(|b| (around(b), b.as_slice())).collect();
    let mut runs: BTreeMap<usize, Vec<(There, Vec<Seat>)>> = BTreeMap::new();
    let needle = needle(thread);
    for line in &lines {
        if let Some(number) = line.run.number {
            let found = candidates(line.run, &line.points, &beads);
            let spread = around(&found.iter().map(|seat| seat.at).collect::<Vec<_>>());
            let there = There {
                beads: beads.iter().filter(|b| b.is_beside(spread, CLEAR)).collect(),
                lines: lines.iter().filter(|l| l.around.is_beside(spread, NEAR)).collect(),
                bridges: bridges.iter().filter(|(b, _)| b.is_beside(spread, NEAR)).collect(),
                needle: &needle,
            };
            runs.entry(number).or_default().push((there, found));
        }
    }
    let mut chosen: BTreeMap<usize, Point> = BTreeMap::new();
    // First come, first served; then each moves if a better place is free, until all are content.
    for _ in 0..4 {
        for (number, runs) in &mut runs {
            let others: Vec<Point> =
                chosen.iter().filter(|(other, _)| *other != number).map(|(_, at)| *at).collect();
            let mut best: Option<(f64, Point)> = None;
            for (there, seats) in runs {
                for seat in seats {
                    // Whatever else is looked at only adds to what speaks against a place.
                    let beats = |against: f64| best.is_none_or(|(least, _)| against < least);
                    if !beats(seat.dislike) {
                        continue;
                    }
                    let against = || seat.dislike + there.against(*number, seat.at);
                    let standing = *seat.standing.get_or_insert_with(against);
                    if beats(standing) {
                        let against = standing + crowd(seat.at, &others);
                        if beats(against) {
                            best = Some((against, seat.at));
                        }
                    }
                }
            }
            if let Some((_, at)) = best {
                chosen.insert(*number, at);
            }
        }
    }
    chosen
}

/// What speaks against a disc at a point where others stand already.
fn crowd(at: Point, others: &[Point]) -> f64 {
    const APART: f64 = 2.0 * RADIUS + 0.3;
    let near = |other: &&Point| (other.x.0 - at.x.0).abs() < APART && (other.y.0 - at.y.0).abs() < APART;
    others
        .iter()
        .filter(near)
        .map(|other| {
            let free = at.distance(*other).0 - 2.0 * RADIUS - 0.3;
            if free < 0.0 { 3000.0 - free * 1000.0 } else { 0.0 }
        })
        .sum()
}

/// Places on a run, then beside it; beside the beads for a run inside them.
fn candidates(run: &Run, line: &[Point], beads: &[Extent]) -> Vec<Seat> {
    let mut seats = Vec::new();
    let steps = steps(line);
    for (rank, share) in SHARES.iter().enumerate() {
        let further = (share + 0.02).min(1.0);
        let (Some(at), Some(next)) = (along(line, &steps, *share), along(line, &steps, further)) else {
            continue;
        };
        let rank = if run.ends_wrap && *share >= 1.0 { -200.0 } else { rank as f64 };
        if run.carries {
            seats.push(Seat::new(at, rank));
            let length = at.distance(next).0;
            if length > 1e-6 {
                let normal = ((next.y.0 - at.y.0) / length, (at.x.0 - next.x.0) / length);
                for (side, far) in [(1.0, 1.0), (-1.0, 1.0), (1.0, 1.5), (-1.0, 1.5)] {
                    let x = at.x + Mm(normal.0 * side * BESIDE * far);
                    let y = at.y + Mm(normal.1 * side * BESIDE * far);
                    seats.push(Seat::new(Point { x, y }, 12.0 * far + rank));
                }
            }
        } else if run.sight == Sight::Hidden
            && let Some(bead) = beads.iter().find(|b| b.is_near(at, 0.0))
        {
            for (x, away) in [
                (bead.left - RADIUS - 0.5, at.x.0 - bead.left),
                (bead.right + RADIUS + 0.5, bead.right - at.x.0),
            ] {
                seats.push(Seat::new(Point { x: Mm(x), y: at.y }, 25.0 + rank + away));
            }
        }
    }
    seats
}

/// Points along the needle; none where there is no needle or where it would be.
fn needle(thread: &Thread) -> Vec<Point> {
    let Some((tip, towards, _)) = thread.end else { return Vec::new() };
    let at = |k: u32| {
        let far = NEEDLE * f64::from(k) / 10.0;
        Point::new(tip.x.0 + towards.x.0 * far, tip.y.0 + towards.y.0 * far)
    };
    (0..=10).map(at).collect()
}

/// What lies near the seats of one run: nothing else can speak against any of them.
struct There<'a> {
    beads: Vec<&'a Extent>,
    lines: Vec<&'a Measured<'a>>,
    bridges: Vec<&'a (Extent, &'a [Point])>,
    needle: &'a [Point],
}

impl There<'_> {
    /// What speaks against a disc at a point: beads, other thread, arrowheads, the needle.
    fn against(&self, number: usize, at: Point) -> f64 {
        let mut against = 0.0;
        let close = self.beads.iter().filter(|b| b.is_near(at, CLEAR));
        let over = close.map(|b| b.distance(at)).fold(f64::INFINITY, f64::min);
        if over < CLEAR {
            against += 2000.0 + (RADIUS - over) * 500.0;
        }
        // Nobody puts a number there: what else speaks against it does not matter.
        if against > 0.0 {
            return against;
        }
        for Measured { run, points, around, head } in &self.lines {
            if run.sight == Sight::Hidden || !around.is_near(at, NEAR) {
                continue;
            }
            let near = nearest(points, at);
            if run.number != Some(number) && near < RADIUS + 0.55 {
                against += 60.0 * (RADIUS + 0.75 - near);
            }
            let near = head.map_or(f64::INFINITY, |middle| middle.distance(at).0);
            if near < RADIUS + 1.0 {
                against += 45.0 * (RADIUS + 1.2 - near);
            }
        }
        for (around, bridge) in &self.bridges {
            let near = if around.is_near(at, NEAR) { nearest(bridge, at) } else { NEAR };
            if near < RADIUS + 0.3 {
                against += 12.0 * (RADIUS + 0.4 - near);
            }
        }
        if nearest(self.needle, at) < RADIUS + 0.8 {
            against += 400.0;
        }
        against
    }
}
